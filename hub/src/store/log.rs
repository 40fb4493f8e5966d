//! The signed log as it arrived: appended to, never changed (a trigger of the database sees to that), pulled by cursor.
//!
//! A phone is handed what others may see of the last day, and besides, however old: the last word on each machine's
//! tag and on each round, and who entered and never left. Without these a machine tagged out last week would look fit, last
//! month's round would look forgotten, and a person still in the room would be missing from its muster list.

use std::collections::BTreeMap;

use shared_core::entry::{Entry, Fact};
use shared_core::ids::DeviceId;
use shared_core::log::chain::Head;
use shared_core::log::wire::what_of;
use shared_core::sync::hub::{Kept, LostStretch, members_may_see};
use shared_core::sync::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, Why};
use shared_core::time::{Instant, Span};

use super::{Change, Store, StoreError};

/// How far back a phone is told everything that members may see.
const RECENT: Span = Span::from_minutes(24 * 60);

/// One line to keep.
#[derive(Clone, Debug)]
pub(crate) struct Row<'a> {
    /// Its device.
    pub(crate) dev: &'a DeviceId,
    /// Its sequence number.
    pub(crate) seq: u64,
    /// Its hash.
    pub(crate) hash: &'a str,
    /// The line itself.
    pub(crate) jws: &'a str,
    /// Why it counts for nothing, if so.
    pub(crate) aside: Option<Why>,
    /// What it says, where it can be read.
    pub(crate) says: Option<Says<'a>>,
}

/// What a pull needs to know of an entry.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Says<'a> {
    /// Whether other members' phones are handed it.
    pub(crate) shared: bool,
    /// When it happened.
    pub(crate) at: Instant,
    /// In which session.
    pub(crate) session: &'a str,
    /// Its wire name.
    pub(crate) what: &'a str,
    /// The machine that a tag is on.
    pub(crate) machine: Option<&'a str>,
    /// The round that was done.
    pub(crate) round: Option<&'a str>,
}

impl<'a> Says<'a> {
    /// What an entry says of itself.
    pub(crate) fn of(entry: &'a Entry) -> Self {
        let machine = match &entry.fact {
            Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => Some(machine.as_str()),
            _ => None,
        };
        let round = match &entry.fact {
            Fact::RoundDone { round } => Some(round.as_str()),
            _ => None,
        };
        let (session, what) = (entry.session.as_str(), what_of(&entry.fact));
        Self { shared: members_may_see(&entry.fact), at: entry.at, session, what, machine, round }
    }
}

/// What a phone is handed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Pulled {
    /// The lines, oldest first.
    pub(crate) lines: Vec<String>,
    /// Where to go on.
    pub(crate) cursor: u64,
    /// Whether there is more.
    pub(crate) more: bool,
}

impl Store {
    /// What a device has not been told since `since`.
    pub(crate) async fn pull(&self, dev: &DeviceId, since: u64, now: Instant) -> Result<Pulled, StoreError> {
        let mut snapshot = self.readers.begin().await?;
        let (newest,): (i64,) =
            sqlx::query_as("SELECT coalesce(max(pos), 0) FROM entry").fetch_one(&mut *snapshot).await?;
        // A cursor from the future is of a database that was put back to an older copy: tell everything again.
        let since = i64::try_from(since).ok().filter(|since| *since <= newest).unwrap_or(0);
        let limit = i64::try_from(ENTRIES_MAX)?;
        let rows: Vec<(i64, String)> = sqlx::query_as(PULL)
            .bind(since)
            .bind(newest)
            .bind(dev.as_str())
            .bind((now - RECENT).ms())
            .bind(limit + 1)
            .fetch_all(&mut *snapshot)
            .await?;
        page(rows, newest)
    }

    /// The newest entry of a device that is kept.
    pub(crate) async fn head(&self, dev: &DeviceId) -> Result<Head, StoreError> {
        head(sqlx::query_as(HEAD).bind(dev.as_str()).fetch_optional(&self.readers).await?)
    }

    /// Every line of the log, in the order they arrived.
    pub(crate) async fn lines(&self) -> Result<Vec<String>, StoreError> {
        let rows: Vec<(String,)> =
            sqlx::query_as("SELECT jws FROM entry ORDER BY pos").fetch_all(&self.readers).await?;
        Ok(rows.into_iter().map(|(jws,)| jws).collect())
    }
}

const PULL: &str = "
    SELECT pos, jws FROM entry AS it
    WHERE pos > ? AND pos <= ? AND shared = 1 AND aside IS NULL AND dev <> ?
      AND (at_ms >= ?
        OR what IN ('tagged_out', 'tag_cleared') AND NOT EXISTS (
             SELECT 1 FROM entry AS later
             WHERE later.machine = it.machine AND later.what IN ('tagged_out', 'tag_cleared') AND later.aside IS NULL
               AND (later.at_ms, later.pos) > (it.at_ms, it.pos))
        OR what = 'round_done' AND NOT EXISTS (
             SELECT 1 FROM entry AS later
             WHERE later.round = it.round AND later.what = 'round_done' AND later.aside IS NULL
               AND (later.at_ms, later.pos) > (it.at_ms, it.pos))
        OR what IN ('entered', 'out_by_moved') AND NOT EXISTS (
             SELECT 1 FROM entry AS leaving
             WHERE leaving.session = it.session AND leaving.what = 'left' AND leaving.dev = it.dev))
    ORDER BY pos LIMIT ?";

const HEAD: &str = "SELECT seq, hash FROM entry WHERE dev = ? ORDER BY seq DESC LIMIT 1";

fn head(row: Option<(i64, String)>) -> Result<Head, StoreError> {
    let Some((seq, hash)) = row else { return Ok(Head::default()) };
    Ok(Head { seq: u64::try_from(seq)?, hash })
}

/// Cuts what was found to one answer's size. The rows reach one past the limit, to know whether there is more.
fn page(rows: Vec<(i64, String)>, newest: i64) -> Result<Pulled, StoreError> {
    let (mut pulled, mut bytes, mut last) = (Pulled::default(), 0, 0);
    for (pos, jws) in rows {
        bytes += jws.len();
        if pulled.lines.len() == ENTRIES_MAX || (bytes > ENTRY_BYTES_MAX && !pulled.lines.is_empty()) {
            pulled.more = true;
            break;
        }
        last = pos;
        pulled.lines.push(jws);
    }
    pulled.cursor = u64::try_from(if pulled.more { last } else { newest })?;
    Ok(pulled)
}

impl Change {
    /// The newest entry of a device that is kept, as this change sees it.
    pub(crate) async fn head(&mut self, dev: &DeviceId) -> Result<Head, StoreError> {
        head(sqlx::query_as(HEAD).bind(dev.as_str()).fetch_optional(&mut *self.0).await?)
    }

    /// What is kept of a device between two sequence numbers, both included.
    pub(crate) async fn held(&mut self, dev: &DeviceId, from: u64, to: u64) -> Result<BTreeMap<u64, Kept>, StoreError> {
        let rows: Vec<(i64, String, Option<String>)> =
            sqlx::query_as("SELECT seq, hash, aside FROM entry WHERE dev = ? AND seq BETWEEN ? AND ?")
                .bind(dev.as_str())
                .bind(i64::try_from(from)?)
                .bind(i64::try_from(to)?)
                .fetch_all(&mut *self.0)
                .await?;
        rows.into_iter()
            .map(|(seq, hash, aside)| Ok((u64::try_from(seq)?, Kept { hash, aside: aside.map(|name| why(&name)) })))
            .collect()
    }

    /// Keeps a line.
    pub(crate) async fn append(&mut self, row: &Row<'_>, now: Instant) -> Result<u64, StoreError> {
        let says = row.says.as_ref();
        let kept = sqlx::query(
            "INSERT INTO entry (dev, seq, hash, jws, received_ms, aside, shared, at_ms, session, what, machine, round)
             VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        )
        .bind(row.dev.as_str())
        .bind(i64::try_from(row.seq)?)
        .bind(row.hash)
        .bind(row.jws)
        .bind(now.ms())
        .bind(row.aside.map(name))
        .bind(says.is_some_and(|says| says.shared))
        .bind(says.map(|says| says.at.ms()))
        .bind(says.map(|says| says.session))
        .bind(says.map(|says| says.what))
        .bind(says.and_then(|says| says.machine))
        .bind(says.and_then(|says| says.round))
        .execute(&mut *self.0)
        .await?;
        Ok(u64::try_from(kept.last_insert_rowid())?)
    }

    /// Remembers that entries of a device will not come.
    pub(crate) async fn lose(&mut self, dev: &DeviceId, lost: LostStretch, now: Instant) -> Result<(), StoreError> {
        sqlx::query("INSERT INTO lost_stretch (dev, from_seq, to_seq, received_ms) VALUES (?, ?, ?, ?)")
            .bind(dev.as_str())
            .bind(i64::try_from(lost.from)?)
            .bind(i64::try_from(lost.to)?)
            .bind(now.ms())
            .execute(&mut *self.0)
            .await?;
        Ok(())
    }
}

/// The reason's wire name, which is its stored name too.
fn name(why: Why) -> String {
    serde_json::to_value(why).ok().and_then(|name| name.as_str().map(str::to_owned)).unwrap_or_default()
}

fn why(name: &str) -> Why {
    serde_json::from_value(name.into()).unwrap_or(Why::Unknown)
}
