//! What a phone that asks is to hear of first, in one statement: most phones ask most of the time and there is nothing, and each statement
//! is a way to the database and back.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::sync::cursor::{Cursor, Life};
use shared_core::time::Instant;

use super::engine::{Value, only};
use super::{Cells, Look, Store, StoreError};

/// One state of the store, as far as an asker needs to know whether there is more to ask for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Glance {
    /// The newest entry of the asker's device that is kept.
    pub(crate) head: Head,
    /// Where that stands; 0 if there is none.
    pub(crate) newest_own: i64,
    /// Texts wait for its member that it was not given yet.
    pub(crate) is_carried_to: bool,
    /// Lines of its own turned out not to be signed.
    pub(crate) has_unsigned: bool,
    /// The newest place of the log.
    pub(super) newest: i64,
    /// Where the last line is that is handed out.
    pub(super) to: i64,
    /// The newest place of which the line is gone; 0 if none is.
    pub(super) gone: i64,
    /// The last wish to have something erased; none is numbered twice.
    pub(super) erasure: i64,
    /// The life that the log is in; 0 before the first.
    pub(super) life: u32,
}

impl Glance {
    /// Whether a cursor was told in the life that the log is in.
    pub(super) fn is_of_now(&self, cursor: Cursor) -> bool {
        self.life != 0 && cursor.life == self.life
    }

    /// Up to where such a cursor holds.
    pub(super) fn holds_to(&self, cursor: Cursor) -> Result<i64, StoreError> {
        let now = [Life { tag: self.life, from: 0 }];
        Ok(i64::try_from(cursor.holds_to(&now, u64::try_from(self.newest)?))?)
    }

    /// Whether a phone that heard this of erasing has heard of all of it.
    pub(crate) fn has_forgotten(&self, forgot: u64) -> bool {
        let asked = Cursor::of(forgot);
        self.is_of_now(asked) && u64::try_from(self.erasure).is_ok_and(|last| last <= asked.place)
    }
}

/// `$1` the device, `$2` its member, `$3` now.
const GLANCE: &str = "
    SELECT (SELECT seq FROM entry WHERE dev = $1 ORDER BY seq DESC LIMIT 1),
           (SELECT hash FROM entry WHERE dev = $1 ORDER BY seq DESC LIMIT 1),
           (SELECT pos FROM entry WHERE dev = $1 ORDER BY seq DESC LIMIT 1),
           (SELECT count(*) FROM carried WHERE to_member = $2 AND until_ms > $3
              AND NOT EXISTS (SELECT 1 FROM handed_over AS given WHERE given.id = carried.id AND given.dev = $1)),
           (SELECT count(*) FROM entry WHERE dev = $1 AND aside = 'damaged'),
           (SELECT coalesce(max(pos), 0) FROM entry),
           (SELECT min(from_pos) FROM unproved),
           (SELECT coalesce(max(pos), 0) FROM entry WHERE erased_ms IS NOT NULL),
           (SELECT coalesce(max(id), 0) FROM erasure),
           (SELECT tag FROM life ORDER BY nth DESC LIMIT 1)";

fn values<'a>(dev: &'a DeviceId, member: &'a PersonId, now: Instant) -> [Value<'a>; 3] {
    [dev.as_str().into(), member.as_str().into(), now.ms().into()]
}

fn glance(mut row: Cells) -> Result<Glance, StoreError> {
    let (seq, hash, pos) = (row.maybe_number()?, row.maybe_text()?, row.maybe_number()?);
    let head = Head { seq: u64::try_from(seq.unwrap_or(0))?, hash: hash.unwrap_or_default() };
    let (carried, unsigned, newest, unproved) = (row.count()?, row.count()?, row.number()?, row.maybe_number()?);
    Ok(Glance {
        head,
        newest_own: pos.unwrap_or(0),
        is_carried_to: carried > 0,
        has_unsigned: unsigned > 0,
        newest,
        to: unproved.map_or(newest, |first| newest.min(first - 1)),
        gone: row.number()?,
        erasure: row.number()?,
        life: u32::try_from(row.maybe_number()?.unwrap_or(0))?,
    })
}

impl Store {
    /// The state that is committed now.
    pub(crate) async fn glance(&self, dev: &DeviceId, member: &PersonId, now: Instant) -> Result<Glance, StoreError> {
        glance(only(self.engine.ask(GLANCE, &values(dev, member, now)).await?)?)
    }
}

impl Look {
    /// The state that is looked at.
    pub(crate) async fn glance(
        &mut self,
        dev: &DeviceId,
        member: &PersonId,
        now: Instant,
    ) -> Result<Glance, StoreError> {
        glance(only(self.0.ask(GLANCE, &values(dev, member, now)).await?)?)
    }
}
