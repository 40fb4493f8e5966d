//! Settings that all processes of one hub have in common: the keys of its challenges, of its boards and of its
//! pushes.

use shared_core::time::Instant;

use super::{Change, Store, StoreError};
use crate::secret;

const CHALLENGE_KEY: &str = "challenge_key";
const BOARD_KEY: &str = "board_key";
const PUSH_KEY: &str = "push_key";

impl Store {
    /// The key that challenges are made with; `fresh` becomes it if there is none yet. It signs nobody in.
    pub(crate) async fn challenge_key(&self, fresh: [u8; 32], now: Instant) -> Result<[u8; 32], StoreError> {
        self.agreed(CHALLENGE_KEY, fresh, now).await
    }

    /// What the keys of rooms' boards are made of, in the same way.
    pub(crate) async fn board_key(&self, fresh: [u8; 32], now: Instant) -> Result<[u8; 32], StoreError> {
        self.agreed(BOARD_KEY, fresh, now).await
    }

    /// The key that push services know the hub by, in the same way.
    pub(crate) async fn push_key(&self, fresh: [u8; 32], now: Instant) -> Result<[u8; 32], StoreError> {
        self.agreed(PUSH_KEY, fresh, now).await
    }

    async fn agreed(&self, name: &str, fresh: [u8; 32], now: Instant) -> Result<[u8; 32], StoreError> {
        let mut change = self.change().await?;
        let kept = match change.setting(name).await? {
            Some((value, _)) => secret::from_base64url(&value).and_then(|bytes| bytes.try_into().ok()),
            None => None,
        };
        if let Some(key) = kept {
            return Ok(key);
        }
        change.set(name, &secret::base64url(fresh), now).await?;
        change.commit().await?;
        Ok(fresh)
    }
}

impl Change {
    async fn setting(&mut self, name: &str) -> Result<Option<(String, Instant)>, StoreError> {
        let mut rows = self.talk.ask("SELECT value, set_ms FROM setting WHERE name = $1", &[name.into()]).await?;
        rows.first_mut().map(|row| Ok((row.text()?, Instant::from_ms(row.number()?)))).transpose()
    }

    async fn set(&mut self, name: &str, value: &str, now: Instant) -> Result<(), StoreError> {
        let upsert = "INSERT INTO setting (name, value, set_ms) VALUES ($1, $2, $3)
                      ON CONFLICT (name) DO UPDATE SET value = excluded.value, set_ms = excluded.set_ms";
        self.talk.act(upsert, &[name.into(), value.into(), now.ms().into()]).await.map(drop)
    }
}

/// Copies the keys that phones were told of, or are bound to.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for name in [BOARD_KEY, PUSH_KEY] {
        if let Some((value, set)) = old.setting(name).await? {
            new.set(name, &value, set).await?;
        }
    }
    Ok(())
}
