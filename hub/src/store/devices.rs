//! Devices that have joined, for whom they speak, and which were taken off. A device never changes its member: its log is
//! that member's. One that was taken off never comes back; its member joins again with another key.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::time::Instant;

use super::engine::{Talk, only};
use super::{Cells, Change, News, Store, StoreError};

/// A device that has joined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Known {
    /// Its id.
    pub(crate) dev: DeviceId,
    /// Whom it speaks for.
    pub(crate) member: PersonId,
    /// Since when.
    pub(crate) joined: Instant,
    /// When it was taken off, if it was.
    pub(crate) revoked: Option<Instant>,
}

/// What became of a wish to join.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Joined {
    /// It is new.
    New,
    /// It had joined for the same member.
    Already,
    /// It speaks for another member, and goes on doing so.
    ForAnother,
    /// It was taken off.
    Revoked,
}

const ALL: &str = "SELECT dev, member, joined_ms, revoked_ms FROM device ORDER BY joined_ms, dev";
const ONE: &str = "SELECT dev, member, joined_ms, revoked_ms FROM device WHERE dev = $1";

impl Store {
    /// All devices, in the order they joined.
    pub(crate) async fn devices(&self) -> Result<Vec<Known>, StoreError> {
        all(&mut *self.look().await?.0).await
    }

    /// A device, if it has joined.
    pub(crate) async fn device(&self, dev: &DeviceId) -> Result<Option<Known>, StoreError> {
        one(&mut *self.look().await?.0, dev).await
    }
}

/// All devices, in the order they joined.
pub(super) async fn all(talk: &mut dyn Talk) -> Result<Vec<Known>, StoreError> {
    talk.ask(ALL, &[]).await?.into_iter().map(known).collect()
}

async fn one(talk: &mut dyn Talk, dev: &DeviceId) -> Result<Option<Known>, StoreError> {
    talk.ask(ONE, &[dev.as_str().into()]).await?.into_iter().next().map(known).transpose()
}

fn known(mut row: Cells) -> Result<Known, StoreError> {
    Ok(Known {
        dev: DeviceId::new(row.text()?),
        member: PersonId::new(row.text()?),
        joined: Instant::from_ms(row.number()?),
        revoked: row.maybe_number()?.map(Instant::from_ms),
    })
}

impl Change {
    /// Whether nobody ever joined here.
    pub(crate) async fn is_new(&mut self) -> Result<bool, StoreError> {
        Ok(only(self.talk.ask("SELECT count(*) FROM device", &[]).await?)?.number()? == 0)
    }

    /// A device, as this change sees it.
    pub(crate) async fn device(&mut self, dev: &DeviceId) -> Result<Option<Known>, StoreError> {
        one(&mut *self.talk, dev).await
    }

    /// All devices, as this change sees them.
    pub(crate) async fn devices(&mut self) -> Result<Vec<Known>, StoreError> {
        all(&mut *self.talk).await
    }

    /// Lets a device speak for a member, and tells of a new one.
    pub(crate) async fn join(&mut self, dev: &DeviceId, member: &PersonId, now: Instant) -> Result<Joined, StoreError> {
        let insert = "INSERT INTO device (dev, member, joined_ms) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING";
        let values = [dev.as_str().into(), member.as_str().into(), now.ms().into()];
        if self.talk.act(insert, &values).await? == 1 {
            self.tell(News::Joined);
            return Ok(Joined::New);
        }
        Ok(match self.device(dev).await? {
            Some(known) if known.revoked.is_some() => Joined::Revoked,
            Some(known) if known.member == *member => Joined::Already,
            _ => Joined::ForAnother,
        })
    }

    /// Takes a device off: its sessions are over, and it begins none. `by` is the member who does, "" for the hub's
    /// own machine. False if there is none, or it is off already.
    pub(crate) async fn revoke(&mut self, dev: &DeviceId, by: &str, now: Instant) -> Result<bool, StoreError> {
        let update = "UPDATE device SET revoked_ms = $2, revoked_by = $3 WHERE dev = $1 AND revoked_ms IS NULL";
        if self.talk.act(update, &[dev.as_str().into(), now.ms().into(), by.into()]).await? == 0 {
            return Ok(false);
        }
        self.talk.act("DELETE FROM session WHERE dev = $1", &[dev.as_str().into()]).await?;
        self.forget_subscription(dev, None).await?;
        self.tell(News::Joined);
        Ok(true)
    }

    /// Takes off here what is off in another store.
    pub(super) async fn copy_revocations(&mut self, old: &mut Self) -> Result<(), StoreError> {
        let select = "SELECT dev, revoked_by, revoked_ms FROM device WHERE revoked_ms IS NOT NULL";
        for mut row in old.talk.ask(select, &[]).await? {
            let (dev, by, at) = (DeviceId::new(row.text()?), row.text()?, Instant::from_ms(row.number()?));
            self.revoke(&dev, &by, at).await?;
        }
        Ok(())
    }
}
