//! Devices that have joined, and for whom they speak. A device never changes its member: its log is that member's.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Device;
use shared_core::time::Instant;

use super::{Change, Store, StoreError};

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
        let rows: Vec<(String, String)> =
            sqlx::query_as("SELECT dev, member FROM device ORDER BY joined_ms, dev").fetch_all(&self.readers).await?;
        Ok(rows
            .into_iter()
            .map(|(dev, member)| Device { dev: DeviceId::new(dev), member: PersonId::new(member) })
            .collect())
    }

    /// Whom a device speaks for.
    pub(crate) async fn member_of(&self, dev: &DeviceId) -> Result<Option<PersonId>, StoreError> {
        let row: Option<(String,)> = sqlx::query_as("SELECT member FROM device WHERE dev = ?")
            .bind(dev.as_str())
            .fetch_optional(&self.readers)
            .await?;
        Ok(row.map(|(member,)| PersonId::new(member)))
    }
}

impl Change {
    /// Lets a device speak for a member.
    pub(crate) async fn join(&mut self, dev: &DeviceId, member: &PersonId, now: Instant) -> Result<Joined, StoreError> {
        let added = sqlx::query("INSERT INTO device (dev, member, joined_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING")
            .bind(dev.as_str())
            .bind(member.as_str())
            .bind(now.ms())
            .execute(&mut *self.0)
            .await?;
        if added.rows_affected() == 1 {
            return Ok(Joined::New);
        }
        let (speaks_for,): (String,) = sqlx::query_as("SELECT member FROM device WHERE dev = ?")
            .bind(dev.as_str())
            .fetch_one(&mut *self.0)
            .await?;
        Ok(if speaks_for == member.as_str() { Joined::Already } else { Joined::ForAnother })
    }
}
