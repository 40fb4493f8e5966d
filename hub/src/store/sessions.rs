//! Sessions of signed-in devices, and challenges that were used to sign in. The database holds a token's digest alone: a
//! copy of it signs nobody in.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::time::{Instant, Span};

use super::{Cells, Change, Store, StoreError};

/// How long after its end a used challenge is remembered, for processes whose clocks are behind.
const CLOCKS_APART: Span = Span::from_minutes(60);

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
        let select = "SELECT dev, member, ends_ms FROM session JOIN device USING (dev)
                      WHERE token_sha256 = $1 AND ends_ms > $2 AND revoked_ms IS NULL";
        let mut rows = self.engine.ask(select, &[token.as_slice().into(), now.ms().into()]).await?;
        let Some(row) = rows.first_mut() else { return Ok(None) };
        let (dev, member) = (DeviceId::new(row.text()?), PersonId::new(row.text()?));
        Ok(Some(SignedIn { dev, member, ends: Instant::from_ms(row.number()?) }))
    }

    /// Sessions that are not over, by their tokens' digests: as many as that, those that last longest.
    pub(crate) async fn sessions_in_force(
        &self,
        now: Instant,
        limit: usize,
    ) -> Result<Vec<([u8; 32], SignedIn)>, StoreError> {
        let select = "SELECT token_sha256, dev, member, ends_ms FROM session JOIN device USING (dev)
                      WHERE ends_ms > $1 AND revoked_ms IS NULL ORDER BY ends_ms DESC LIMIT $2";
        let unfit = |_| StoreError::Value { wanted: "a token's digest", found: "something else".into() };
        let session = |mut row: Cells| {
            let token = row.bytes()?.try_into().map_err(unfit)?;
            let (dev, member) = (DeviceId::new(row.text()?), PersonId::new(row.text()?));
            Ok((token, SignedIn { dev, member, ends: Instant::from_ms(row.number()?) }))
        };
        let rows = self.engine.ask(select, &[now.ms().into(), i64::try_from(limit)?.into()]).await?;
        rows.into_iter().map(session).collect()
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
        self.talk.act("DELETE FROM session WHERE ends_ms <= $1", &[now.ms().into()]).await?;
        self.keep_session(token, dev, ends).await
    }

    /// Keeps a session that began elsewhere.
    pub(super) async fn keep_session(&mut self, token: &[u8], dev: &DeviceId, ends: Instant) -> Result<(), StoreError> {
        let insert = "INSERT INTO session (token_sha256, dev, ends_ms) VALUES ($1, $2, $3)";
        self.talk.act(insert, &[token.into(), dev.as_str().into(), ends.ms().into()]).await.map(drop)
    }

    /// All sessions: the token's digest, the device, the end.
    pub(super) async fn sessions(&mut self) -> Result<Vec<(Vec<u8>, DeviceId, Instant)>, StoreError> {
        let session = |mut row: Cells| Ok((row.bytes()?, DeviceId::new(row.text()?), Instant::from_ms(row.number()?)));
        let rows = self.talk.ask("SELECT token_sha256, dev, ends_ms FROM session", &[]).await?;
        rows.into_iter().map(session).collect()
    }

    /// Uses up a challenge that is good until `until`, by its digest. False if it was used before, in any process.
    pub(crate) async fn spend(
        &mut self,
        challenge: &[u8; 32],
        until: Instant,
        now: Instant,
    ) -> Result<bool, StoreError> {
        let forgotten = (now - CLOCKS_APART).ms();
        self.talk.act("DELETE FROM spent_challenge WHERE until_ms <= $1", &[forgotten.into()]).await?;
        let insert = "INSERT INTO spent_challenge (challenge_sha256, until_ms) VALUES ($1, $2) ON CONFLICT DO NOTHING";
        Ok(self.talk.act(insert, &[challenge.as_slice().into(), until.ms().into()]).await? == 1)
    }
}
