//! Devices that have joined, and for whom they speak. A device never changes its member: its log is that member's.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Device;
use shared_core::time::Instant;

use super::engine::{Talk, only};
use super::{Cells, Change, News, Store, StoreError};

/// What became of a wish to join.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Joined {
    /// It is new.
    New,
    /// It had joined for the same member.
    Already,
    /// It speaks for another member, and goes on doing so.
    ForAnother,
}

impl Store {
    /// All devices, in the order they joined.
    pub(crate) async fn devices(&self) -> Result<Vec<Device>, StoreError> {
        let devices = all(&mut *self.look().await?.0).await?;
        Ok(devices.into_iter().map(|(device, _)| device).collect())
    }

    /// Whom a device speaks for.
    pub(crate) async fn member_of(&self, dev: &DeviceId) -> Result<Option<PersonId>, StoreError> {
        let mut look = self.look().await?;
        let mut rows = look.0.ask("SELECT member FROM device WHERE dev = $1", &[dev.as_str().into()]).await?;
        rows.first_mut().map(|row| Ok(PersonId::new(row.text()?))).transpose()
    }
}

/// All devices, in the order they joined, and when they did.
pub(super) async fn all(talk: &mut dyn Talk) -> Result<Vec<(Device, Instant)>, StoreError> {
    let rows = talk.ask("SELECT dev, member, joined_ms FROM device ORDER BY joined_ms, dev", &[]).await?;
    let device = |mut row: Cells| {
        let device = Device { dev: DeviceId::new(row.text()?), member: PersonId::new(row.text()?) };
        Ok((device, Instant::from_ms(row.number()?)))
    };
    rows.into_iter().map(device).collect()
}

impl Change {
    /// Whether nobody ever joined here.
    pub(crate) async fn is_new(&mut self) -> Result<bool, StoreError> {
        Ok(only(self.talk.ask("SELECT count(*) FROM device", &[]).await?)?.number()? == 0)
    }

    /// Lets a device speak for a member, and tells of a new one.
    pub(crate) async fn join(&mut self, dev: &DeviceId, member: &PersonId, now: Instant) -> Result<Joined, StoreError> {
        let insert = "INSERT INTO device (dev, member, joined_ms) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING";
        let values = [dev.as_str().into(), member.as_str().into(), now.ms().into()];
        if self.talk.act(insert, &values).await? == 1 {
            self.tell(News::Joined);
            return Ok(Joined::New);
        }
        let rows = self.talk.ask("SELECT member FROM device WHERE dev = $1", &[dev.as_str().into()]).await?;
        let same = only(rows)?.text()? == member.as_str();
        Ok(if same { Joined::Already } else { Joined::ForAnother })
    }
}
