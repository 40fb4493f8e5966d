//! Sessions of signed-in devices. The database holds a token's digest alone: a copy of the file signs nobody in.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::time::Instant;

use super::{Change, Store, StoreError};

/// Who a session belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct SignedIn {
    /// The device.
    pub(crate) dev: DeviceId,
    /// Whom it speaks for.
    pub(crate) member: PersonId,
    /// When the session is over.
    pub(crate) ends: Instant,
}

impl Store {
    /// Whose session this token's digest is, if it is not over.
    pub(crate) async fn session(&self, token: &[u8; 32], now: Instant) -> Result<Option<SignedIn>, StoreError> {
        let row: Option<(String, String, i64)> = sqlx::query_as(
            "SELECT dev, member, ends_ms FROM session JOIN device USING (dev) WHERE token_sha256 = ? AND ends_ms > ?",
        )
        .bind(&token[..])
        .bind(now.ms())
        .fetch_optional(&self.readers)
        .await?;
        Ok(row.map(|(dev, member, ends_ms)| SignedIn {
            dev: DeviceId::new(dev),
            member: PersonId::new(member),
            ends: Instant::from_ms(ends_ms),
        }))
    }
}

impl Change {
    /// Begins a session, and forgets those that are over.
    pub(crate) async fn begin_session(
        &mut self,
        token: &[u8; 32],
        dev: &DeviceId,
        now: Instant,
        ends: Instant,
    ) -> Result<(), StoreError> {
        sqlx::query("DELETE FROM session WHERE ends_ms <= ?").bind(now.ms()).execute(&mut *self.0).await?;
        sqlx::query("INSERT INTO session (token_sha256, dev, ends_ms) VALUES (?, ?, ?)")
            .bind(&token[..])
            .bind(dev.as_str())
            .bind(ends.ms())
            .execute(&mut *self.0)
            .await?;
        Ok(())
    }
}
