//! The hub's keys and the cards that they signed. Of a key that is no longer in use its statement alone is kept.

use ed25519_dalek::SigningKey;
use shared_core::card::keys;
use shared_core::ids::DeviceId;
use shared_core::time::Instant;

use super::engine::Talk;
use super::{Cells, Change, News, Store, StoreError};

/// The hub's keys.
#[derive(Clone)]
pub(crate) struct Signing {
    /// The one in use.
    pub(crate) key: SigningKey,
    /// The statements of all, first to last.
    pub(crate) statements: Vec<String>,
}

/// The key is nobody's business.
impl std::fmt::Debug for Signing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Signing({} keys)", self.statements.len())
    }
}

/// A card that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Made {
    /// For which device.
    pub(crate) dev: DeviceId,
    /// Its number.
    pub(crate) number: u32,
    /// The card.
    pub(crate) jws: String,
    /// Its face, as a code's text.
    pub(crate) face: String,
}

impl Store {
    /// The keys, if there are any yet.
    pub(crate) async fn signing(&self) -> Result<Option<Signing>, StoreError> {
        signing(&mut *self.look().await?.0).await
    }

    /// All cards in force.
    pub(crate) async fn cards(&self) -> Result<Vec<Made>, StoreError> {
        cards(&mut *self.look().await?.0).await
    }

    /// Differs whenever a device joined or was taken off, a key or card was made, a board hung up, figures set,
    /// what somebody is to the shop said, or a rulebook published.
    pub(crate) async fn mark(&self) -> Result<[i64; 8], StoreError> {
        let select = "SELECT (SELECT count(*) FROM device), (SELECT count(revoked_ms) FROM device),
                    (SELECT count(*) FROM hub_key), (SELECT coalesce(max(number), 0) FROM card),
                    (SELECT count(*) FROM board), (SELECT coalesce(max(set_ms), 0) FROM pin),
                    (SELECT count(*) FROM entry WHERE what IN ('inducted', 'signed_off', 'role_given')
                       AND pos < coalesce((SELECT min(from_pos) FROM unproved), pos + 1)),
                    (SELECT coalesce(max(number), 0) FROM rulebook)";
        let mut row = super::engine::only(self.look().await?.0.ask(select, &[]).await?)?;
        let mut number = || row.number();
        Ok([number()?, number()?, number()?, number()?, number()?, number()?, number()?, number()?])
    }
}

async fn signing(talk: &mut dyn Talk) -> Result<Option<Signing>, StoreError> {
    let (mut seed, mut statements) = (Vec::new(), Vec::new());
    for mut row in talk.ask("SELECT seed, statement FROM hub_key ORDER BY number", &[]).await? {
        seed = row.bytes()?;
        statements.push(row.text()?);
    }
    if statements.is_empty() {
        return Ok(None);
    }
    let unfit = |_| StoreError::Value { wanted: "the hub's key", found: "something else".into() };
    let seed: [u8; 32] = seed.try_into().map_err(unfit)?;
    Ok(Some(Signing { key: SigningKey::from_bytes(&seed), statements }))
}

async fn cards(talk: &mut dyn Talk) -> Result<Vec<Made>, StoreError> {
    let made = |mut row: Cells| {
        let (dev, number) = (DeviceId::new(row.text()?), u32::try_from(row.number()?)?);
        Ok(Made { dev, number, jws: row.text()?, face: row.text()? })
    };
    let select = "SELECT dev, number, jws, face FROM card ORDER BY number";
    talk.ask(select, &[]).await?.into_iter().map(made).collect()
}

impl Change {
    /// The keys; the first is made of `fresh` if there is none yet.
    pub(crate) async fn signing(&mut self, fresh: [u8; 32], now: Instant) -> Result<Signing, StoreError> {
        if let Some(kept) = signing(&mut *self.talk).await? {
            return Ok(kept);
        }
        let key = SigningKey::from_bytes(&fresh);
        let statements = vec![keys::first(&key, now)];
        self.keep_key(1, &fresh, &statements[0]).await?;
        Ok(Signing { key, statements })
    }

    /// A new key takes the place of the one in use, which vouches for it, is believed until `old_until`, and is forgotten.
    pub(crate) async fn rotate(
        &mut self,
        fresh: [u8; 32],
        now: Instant,
        old_until: Instant,
    ) -> Result<Signing, StoreError> {
        let Signing { key: old, mut statements } = self.signing(fresh, now).await?;
        let key = SigningKey::from_bytes(&fresh);
        let statement = keys::next(&old, &key, now, old_until);
        self.talk.act("UPDATE hub_key SET seed = $1", &[[].as_slice().into()]).await?;
        self.keep_key(i64::try_from(statements.len())? + 1, &fresh, &statement).await?;
        self.tell(News::Joined);
        statements.push(statement);
        Ok(Signing { key, statements })
    }

    async fn keep_key(&mut self, number: i64, seed: &[u8], statement: &str) -> Result<(), StoreError> {
        let insert = "INSERT INTO hub_key (number, seed, statement) VALUES ($1, $2, $3)";
        self.talk.act(insert, &[number.into(), seed.into(), statement.into()]).await.map(drop)
    }

    /// All cards in force, as this change sees them.
    pub(crate) async fn cards(&mut self) -> Result<Vec<Made>, StoreError> {
        cards(&mut *self.talk).await
    }

    /// Keeps a card in place of its device's last.
    pub(crate) async fn keep_card(&mut self, made: &Made) -> Result<(), StoreError> {
        let upsert = "INSERT INTO card (dev, number, jws, face) VALUES ($1, $2, $3, $4) ON CONFLICT (dev)
                      DO UPDATE SET number = excluded.number, jws = excluded.jws, face = excluded.face";
        let (dev, jws, face) = (made.dev.as_str(), made.jws.as_str(), made.face.as_str());
        self.talk.act(upsert, &[dev.into(), i64::from(made.number).into(), jws.into(), face.into()]).await.map(drop)
    }
}

/// Copies what [`super::copy`] copies of keys and cards.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for mut row in old.talk.ask("SELECT number, seed, statement FROM hub_key", &[]).await? {
        let (number, seed, statement) = (row.number()?, row.bytes()?, row.text()?);
        new.keep_key(number, &seed, &statement).await?;
    }
    for made in old.cards().await? {
        new.keep_card(&made).await?;
    }
    Ok(())
}
