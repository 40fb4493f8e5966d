//! What phones handed in after they were taken off. It lies beside the log and counts for nothing: who held the phone when
//! it was signed nobody knows, and a date in a line is whatever its clock said. A steward who knows better has it taken in.

use shared_core::ids::DeviceId;
use shared_core::log::jws::Link;
use shared_core::time::Instant;

use super::engine::only;
use super::{Cells, Change, Store, StoreError};

/// More lines than this of one device are not kept.
pub(crate) const LATE_MAX: u64 = 2_000;

impl Store {
    /// How many lines of each device lie there.
    pub(crate) async fn late(&self) -> Result<Vec<(DeviceId, u64)>, StoreError> {
        let select = "SELECT dev, count(*) FROM late_line GROUP BY dev ORDER BY dev";
        let rows = self.look().await?.0.ask(select, &[]).await?;
        rows.into_iter().map(|mut row: Cells| Ok((DeviceId::new(row.text()?), row.count()?))).collect()
    }
}

impl Change {
    /// How many lines of a device lie there.
    pub(crate) async fn late_count(&mut self, dev: &DeviceId) -> Result<u64, StoreError> {
        let select = "SELECT count(*) FROM late_line WHERE dev = $1";
        only(self.talk.ask(select, &[dev.as_str().into()]).await?)?.count()
    }

    /// Keeps a line; twice is once.
    pub(crate) async fn keep_late(
        &mut self,
        link: &Link,
        hash: &str,
        jws: &str,
        now: Instant,
    ) -> Result<(), StoreError> {
        let insert = "INSERT INTO late_line (dev, seq, hash, jws, received_ms) VALUES ($1, $2, $3, $4, $5)
                      ON CONFLICT DO NOTHING";
        let seq = i64::try_from(link.seq)?;
        let values = [link.dev.as_str().into(), seq.into(), hash.into(), jws.into(), now.ms().into()];
        self.talk.act(insert, &values).await.map(drop)
    }

    /// A device's lines, in their order, which no longer lie there after this.
    pub(crate) async fn take_late(&mut self, dev: &DeviceId) -> Result<Vec<String>, StoreError> {
        let select = "SELECT jws FROM late_line WHERE dev = $1 ORDER BY seq, received_ms, hash";
        let rows = self.talk.ask(select, &[dev.as_str().into()]).await?;
        self.talk.act("DELETE FROM late_line WHERE dev = $1", &[dev.as_str().into()]).await?;
        rows.into_iter().map(|mut row| row.text()).collect()
    }
}

/// Copies what [`super::copy`] copies of late lines: all.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for mut row in old.talk.ask("SELECT dev, seq, hash, jws, received_ms FROM late_line", &[]).await? {
        let (dev, seq, hash, jws) = (DeviceId::new(row.text()?), row.count()?, row.text()?, row.text()?);
        let link = Link { dev, seq, prev: String::new(), book: "".into() };
        new.keep_late(&link, &hash, &jws, Instant::from_ms(row.number()?)).await?;
    }
    Ok(())
}
