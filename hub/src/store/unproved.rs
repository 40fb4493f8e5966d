//! Lines that a later one of their phone vouched for and whose own signature is still to be checked.
//!
//! A long push is taken by one signature for each of its runs (`shared_core::log::run`), so whose its lines are is
//! certain. But everybody else opens a line by itself: until that was done here, the log is handed out up to the first such
//! line and no further. A line that does not open by itself is set aside, where it counts for nothing; that and erasing are
//! the only changes to an entry that the database lets through. What is still to be done is in the database, so that whoever
//! serves it next goes on.

use shared_core::ids::DeviceId;
use shared_core::log::chain::Head;
use shared_core::log::jws;
use shared_core::ordered::Map;
use shared_core::sync::message::{Rejected, Why};

use super::engine::{Talk, Value, only};
use super::{Change, News, Store, StoreError};

/// So many stretches are proved at once, with one commit,
const STRETCHES: i64 = 20;
/// or no more once there are so many lines.
const LINES: usize = 4_000;
/// A phone is told of so many of its lines at most.
const TOLD_MAX: i64 = 100;

/// Lines that are still to be proved.
#[derive(Debug)]
struct Owed {
    /// The last of these stretches begins here.
    last_from: i64,
    /// And ends here.
    to: i64,
    lines: Vec<(i64, String)>,
}

/// What a change finds before it takes pushes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Met {
    /// The newest entry of each device that is kept, where there is one.
    pub(crate) heads: Map<DeviceId, Head>,
    /// How many places of the log wait to be handed out.
    pub(crate) waiting: u64,
}

/// Of so many devices it is asked at once.
pub(crate) const MET_MAX: usize = 32;

const MEETS: &str = "
    SELECT dev,
           (SELECT seq FROM entry WHERE entry.dev = device.dev ORDER BY seq DESC LIMIT 1),
           (SELECT hash FROM entry WHERE entry.dev = device.dev ORDER BY seq DESC LIMIT 1),
           (SELECT coalesce(max(to_pos) - min(from_pos) + 1, 0) FROM unproved)
    FROM device WHERE dev IN ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16,
                              $17, $18, $19, $20, $21, $22, $23, $24, $25, $26, $27, $28, $29, $30, $31, $32)";

impl Store {
    /// Proves some of what is still to be proved, and tells everybody that more is handed out; false if there was nothing.
    pub(crate) async fn prove_some(&self) -> Result<bool, StoreError> {
        let Some(Owed { last_from, to, lines }) = owed(&mut *self.look().await?.0).await? else { return Ok(false) };
        let unsigned = unsigned(lines).await?;
        let mut change = self.change().await?;
        for pos in unsigned {
            let aside = "UPDATE entry SET aside = 'damaged' WHERE pos = $1 AND aside IS NULL AND erased_ms IS NULL";
            change.talk.act(aside, &[pos.into()]).await?;
            tracing::warn!(pos, "a line was vouched for by its phone and is not signed; it is set aside");
        }
        // What was pushed since stands behind these.
        change.talk.act("DELETE FROM unproved WHERE from_pos <= $1", &[last_from.into()]).await?;
        change.tell(News::Proved { cursor: u64::try_from(to)? });
        change.commit().await?;
        Ok(true)
    }
}

impl Change {
    /// What was appended from one place to another is still to be proved.
    pub(crate) async fn owe(&mut self, from: i64, to: u64) -> Result<(), StoreError> {
        let to = i64::try_from(to)?;
        let insert = "INSERT INTO unproved (from_pos, to_pos) VALUES ($1, $2)";
        self.talk.act(insert, &[from.into(), to.into()]).await.map(drop)
    }

    /// How many places of the log wait to be handed out.
    pub(crate) async fn waiting(&mut self) -> Result<u64, StoreError> {
        let select = "SELECT coalesce(max(to_pos) - min(from_pos) + 1, 0) FROM unproved";
        only(self.talk.ask(select, &[]).await?)?.count()
    }

    /// What pushes of these devices meet, of [`MET_MAX`] at most.
    pub(crate) async fn meets(&mut self, devs: &[&DeviceId]) -> Result<Met, StoreError> {
        let Some(last) = devs.last() else { return Ok(Met::default()) };
        let all = devs.iter().chain(std::iter::repeat(last)).take(MET_MAX);
        let values: Vec<Value<'_>> = all.map(|dev| dev.as_str().into()).collect();
        let mut met = Met::default();
        for mut row in self.talk.ask(MEETS, &values).await? {
            let (dev, seq, hash) = (DeviceId::new(row.text()?), row.maybe_number()?, row.maybe_text()?);
            if let (Some(seq), Some(hash)) = (seq, hash) {
                met.heads.insert(dev, Head { seq: u64::try_from(seq)?, hash });
            }
            met.waiting = row.count()?;
        }
        Ok(met)
    }
}

/// Up to where the log is handed out.
pub(super) async fn handed_to(talk: &mut dyn Talk) -> Result<i64, StoreError> {
    let select = "SELECT coalesce(max(pos), 0), (SELECT min(from_pos) FROM unproved) FROM entry";
    let mut row = only(talk.ask(select, &[]).await?)?;
    let (newest, first) = (row.number()?, row.maybe_number()?);
    Ok(first.map_or(newest, |first| newest.min(first - 1)))
}

/// Which lines of a device turned out not to be signed, the newest first, for its phone to hear.
pub(super) async fn unsigned_of(talk: &mut dyn Talk, dev: &DeviceId) -> Result<Vec<Rejected>, StoreError> {
    let select = "SELECT seq FROM entry WHERE dev = $1 AND aside = 'damaged' ORDER BY seq DESC LIMIT $2";
    let rows = talk.ask(select, &[dev.as_str().into(), TOLD_MAX.into()]).await?;
    rows.into_iter().map(|mut row| Ok(Rejected { seq: row.count()?, why: Why::Damaged })).collect()
}

async fn owed(talk: &mut dyn Talk) -> Result<Option<Owed>, StoreError> {
    let select = "SELECT from_pos, to_pos FROM unproved ORDER BY from_pos LIMIT $1";
    let mut owed = None;
    for mut row in talk.ask(select, &[STRETCHES.into()]).await? {
        let (from, to) = (row.number()?, row.number()?);
        let owed = owed.get_or_insert(Owed { last_from: from, to, lines: Vec::new() });
        if owed.lines.len() >= LINES {
            break;
        }
        (owed.last_from, owed.to) = (from, to);
        let select = "SELECT pos, jws FROM entry WHERE pos BETWEEN $1 AND $2 AND aside IS NULL AND erased_ms IS NULL";
        for mut row in talk.ask(select, &[from.into(), to.into()]).await? {
            owed.lines.push((row.number()?, row.text()?));
        }
    }
    Ok(owed)
}

/// Which of these lines do not open by themselves. Half of the machine's cores look: the rest is for those who ask.
async fn unsigned(lines: Vec<(i64, String)>) -> Result<Vec<i64>, StoreError> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from).div_ceil(2);
    let share = lines.len().div_ceil(cores).max(1);
    let mut lines = lines;
    let mut looking = Vec::new();
    while !lines.is_empty() {
        let some = lines.split_off(lines.len().saturating_sub(share));
        looking.push(tokio::task::spawn_blocking(move || {
            let is_unsigned = |line: &str| jws::take_apart(line).and_then(|apart| apart.check()).is_err();
            some.into_iter().filter(|(_, line)| is_unsigned(line)).map(|(pos, _)| pos).collect::<Vec<_>>()
        }));
    }
    let mut found = Vec::new();
    for share in looking {
        // Nothing in it panics; and what was not looked at stays owed.
        found.extend(share.await.map_err(|_| StoreError::Value { wanted: "a checked line", found: "none".into() })?);
    }
    Ok(found)
}
