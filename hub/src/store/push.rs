//! Where phones are reached when nobody looks at them, and what was said to them already.

use shared_core::call::{Said, What};
use shared_core::ids::{DeviceId, PersonId, SessionId};
use shared_core::ordered::Set;
use shared_core::time::Instant;

use super::engine::Talk;
use super::{Cells, Change, Store, StoreError};
use crate::push::Subscription;

impl Store {
    /// Every phone that listens and was not taken off.
    pub(crate) async fn subscriptions(&self) -> Result<Vec<Subscription>, StoreError> {
        all(&mut *self.look().await?.0).await
    }

    /// Where one phone is reached, if it listens.
    pub(crate) async fn subscription(&self, dev: &DeviceId) -> Result<Option<Subscription>, StoreError> {
        let select = "SELECT dev, member, endpoint, p256dh, auth FROM push JOIN device USING (dev) WHERE dev = $1";
        self.look().await?.0.ask(select, &[dev.as_str().into()]).await?.into_iter().next().map(subscription).transpose()
    }

    /// What was said since an instant.
    pub(crate) async fn said_since(&self, since: Instant) -> Result<Set<Said>, StoreError> {
        let said = said_since(&mut *self.look().await?.0, since).await?;
        Ok(said.into_iter().map(|(said, _)| said).collect())
    }
}

async fn all(talk: &mut dyn Talk) -> Result<Vec<Subscription>, StoreError> {
    let select = "SELECT dev, member, endpoint, p256dh, auth FROM push JOIN device USING (dev)
                  WHERE revoked_ms IS NULL ORDER BY dev";
    talk.ask(select, &[]).await?.into_iter().map(subscription).collect()
}

fn subscription(mut row: Cells) -> Result<Subscription, StoreError> {
    let (dev, member) = (DeviceId::new(row.text()?), PersonId::new(row.text()?));
    Ok(Subscription { dev, member, endpoint: row.text()?, p256dh: row.text()?, auth: row.text()? })
}

/// What was said, and when. What a newer release says is passed over.
async fn said_since(talk: &mut dyn Talk, since: Instant) -> Result<Vec<(Said, Instant)>, StoreError> {
    let select = "SELECT session, what, at_ms, nth, out_by_ms, said_ms FROM call WHERE said_ms >= $1";
    let mut found = Vec::new();
    for mut row in talk.ask(select, &[since.ms().into()]).await? {
        let (session, what) = (SessionId::new(row.text()?), What::of_name(&row.text()?));
        let (at, nth) = (Instant::from_ms(row.number()?), u32::try_from(row.number()?)?);
        let (out_by, when) = (Instant::from_ms(row.number()?), Instant::from_ms(row.number()?));
        found.extend(what.map(|what| (Said { session, what, at, nth, out_by }, when)));
    }
    Ok(found)
}

impl Change {
    /// A phone is reached here from now on, and nowhere else.
    pub(crate) async fn subscribe(&mut self, to: &Subscription, now: Instant) -> Result<(), StoreError> {
        let upsert = "INSERT INTO push (dev, endpoint, p256dh, auth, set_ms) VALUES ($1, $2, $3, $4, $5)
                      ON CONFLICT (dev) DO UPDATE SET endpoint = excluded.endpoint, p256dh = excluded.p256dh,
                      auth = excluded.auth, set_ms = excluded.set_ms";
        let values = [
            to.dev.as_str().into(),
            to.endpoint.as_str().into(),
            to.p256dh.as_str().into(),
            to.auth.as_str().into(),
            now.ms().into(),
        ];
        self.talk.act(upsert, &values).await.map(drop)
    }

    /// A phone is not reached any more; with an address, only if that is still its own.
    pub(crate) async fn forget_subscription(&mut self, dev: &DeviceId, at: Option<&str>) -> Result<(), StoreError> {
        let delete = "DELETE FROM push WHERE dev = $1 AND ($2 IS NULL OR endpoint = $2)";
        self.talk.act(delete, &[dev.as_str().into(), at.into()]).await.map(drop)
    }

    /// Says that this process says it. False if it was said.
    pub(crate) async fn claim(&mut self, said: &Said, now: Instant) -> Result<bool, StoreError> {
        let insert = "INSERT INTO call (session, what, at_ms, nth, out_by_ms, said_ms) VALUES ($1, $2, $3, $4, $5, $6)
                      ON CONFLICT DO NOTHING";
        let values = [
            said.session.as_str().into(),
            said.what.name().into(),
            said.at.ms().into(),
            i64::from(said.nth).into(),
            said.out_by.ms().into(),
            now.ms().into(),
        ];
        Ok(self.talk.act(insert, &values).await? == 1)
    }

    /// Forgets what was said before an instant.
    pub(crate) async fn forget_said_before(&mut self, before: Instant) -> Result<(), StoreError> {
        self.talk.act("DELETE FROM call WHERE said_ms < $1", &[before.ms().into()]).await.map(drop)
    }
}

/// Copies it into a new store: phones go on listening, and nothing is said twice.
pub(super) async fn copy(old: &mut Change, new: &mut Change, now: Instant) -> Result<(), StoreError> {
    for subscription in all(&mut *old.talk).await? {
        new.subscribe(&subscription, now).await?;
    }
    for (said, when) in said_since(&mut *old.talk, Instant::from_ms(0)).await? {
        new.claim(&said, when).await?;
    }
    Ok(())
}
