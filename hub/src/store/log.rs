//! The signed log as it arrived: appended to, never changed but by erasing a body (a trigger of the database sees to that),
//! pulled by cursor.
//!
//! A phone is handed what others may see of the last day, and besides, however old: the last word on each machine's
//! tag and on each round (of one instant every word), and who entered and never left. Without these a machine tagged out
//! last week would look fit, last month's round would look forgotten, and a person still in the room would be missing from
//! its muster list. What was said of a tag is handed out for as long as it is on. A steward's phones are handed the whole
//! log that is kept, but for what is nobody's business (`sync::hub::stewards_may_see`): what needs a steward is reckoned
//! there. A day is reckoned from when an entry happened or when it arrived, whichever is later: a phone whose clock is days behind, or that
//! was out of reach for days, is heard all the same. And whoever goes on from a cursor is told of every leaving: they may
//! have heard of the arrival.

use std::sync::LazyLock;

use shared_core::entry::{Entry, Fact, Matter, Of};
use shared_core::ids::{DeviceId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::erased::Erased;
use shared_core::log::wire::what_of;
use shared_core::ordered::Map;
use shared_core::sync::cursor::Cursor;
use shared_core::sync::hub::{Kept, LostStretch, members_may_see};
use shared_core::sync::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, Rejected, Why};
use shared_core::time::{Instant, Span};

use super::engine::{Talk, Value, only};
use super::lives::{lives_from, newest};
use super::{Cells, Change, Glance, Look, Store, StoreError, unproved};

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
    /// The machine that a tag is on, or that something is said of the tag of.
    pub(crate) machine: Option<&'a str>,
    /// The round that was done.
    pub(crate) round: Option<&'a str>,
}

impl<'a> Says<'a> {
    /// What an entry says of itself.
    pub(crate) fn of(entry: &'a Entry) -> Self {
        let machine = match &entry.fact {
            Fact::TaggedOut { machine, .. }
            | Fact::TagCleared { machine }
            | Fact::Noted { of: Of { matter: Matter::Tag(machine), .. }, .. } => Some(machine.as_str()),
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

/// A line behind another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Behind {
    /// Its place.
    pub(crate) pos: i64,
    /// The line itself.
    pub(crate) jws: String,
    /// Whether its own signature was checked when it came in.
    pub(crate) is_proved: bool,
}

/// For whom a phone asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Whom {
    /// Any member.
    Member,
    /// A steward.
    Steward,
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
    /// When the first of them came in.
    pub(crate) oldest: Option<Instant>,
}

/// A stretch of the log behind somebody's cursor, and all of the store that says what of it is handed out, but for whose lines
/// are the asker's own. While two are the same, so is what is handed out; but lines of long ago go when their time is over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Stretch {
    whom: Whom,
    /// It goes on from a cursor.
    goes_on: bool,
    pub(super) from: i64,
    to: i64,
    newest: i64,
    /// The last wish to have something erased.
    erasure: i64,
    life: u32,
}

impl Stretch {
    /// The same, as it is handed to whoever knows lines of it already: the end of what they know is not too old for them.
    pub(crate) fn known(self) -> Self {
        Self { goes_on: true, ..self }
    }

    /// Whether nothing is in it, as most phones ask most of the time.
    pub(crate) fn is_empty(&self) -> bool {
        self.from >= self.to
    }

    /// Whether something behind it is gone, so that whoever goes on from there may have missed it.
    pub(crate) fn misses(&self, glance: &Glance) -> bool {
        self.goes_on && self.from > 0 && self.from < glance.gone
    }

    /// Whether all of it is from one place to another.
    pub(crate) fn is_within(&self, first: i64, last: i64) -> bool {
        self.from >= first - 1 && self.to <= last
    }

    /// Whether a device whose newest line stands there has none in it.
    pub(crate) fn is_behind(&self, newest_own: i64) -> bool {
        newest_own <= self.from
    }
}

impl Pulled {
    /// Of a stretch in which nothing is.
    pub(crate) fn nothing(stretch: &Stretch) -> Result<Self, StoreError> {
        page(Vec::new(), stretch)
    }
}

impl Glance {
    /// What is to be handed out behind the cursor of this number; of another life of the log, the store has to be asked.
    pub(crate) fn stretch(&self, since: u64, whom: Whom) -> Result<Option<Stretch>, StoreError> {
        let asked = Cursor::of(since);
        if !self.is_of_now(asked) {
            return Ok(None);
        }
        Ok(Some(self.stretch_from(self.holds_to(asked)?, since, whom)))
    }

    fn stretch_from(&self, from: i64, since: u64, whom: Whom) -> Stretch {
        let Self { newest, to, erasure, life, .. } = *self;
        Stretch { whom, goes_on: since > 0, from, to, newest, erasure, life }
    }
}

impl Look {
    /// What is to be handed out behind the cursor of this number, of whichever life.
    pub(crate) async fn stretch(&mut self, glance: &Glance, since: u64, whom: Whom) -> Result<Stretch, StoreError> {
        if let Some(stretch) = glance.stretch(since, whom)? {
            return Ok(stretch);
        }
        let asked = Cursor::of(since);
        let lives = lives_from(&mut *self.0, asked.life).await?;
        let from = i64::try_from(asked.holds_to(&lives, u64::try_from(glance.newest)?))?;
        Ok(glance.stretch_from(from, since, whom))
    }

    /// The first lines of a stretch; `but` is a device whose own are left out.
    pub(crate) async fn lines(
        &mut self,
        stretch: &Stretch,
        but: Option<&DeviceId>,
        now: Instant,
    ) -> Result<Pulled, StoreError> {
        if stretch.is_empty() {
            return Pulled::nothing(stretch);
        }
        let (recent_ms, limit) = ((now - RECENT).ms(), i64::try_from(ENTRIES_MAX)? + 1);
        let but = but.map_or("", DeviceId::as_str);
        let mut values: Vec<Value<'_>> = vec![stretch.from.into(), stretch.to.into(), but.into(), limit.into()];
        let pull = match stretch.whom {
            Whom::Steward => PULL_WHOLE,
            Whom::Member => {
                values.push(recent_ms.into());
                values.push(i64::from(stretch.goes_on).into());
                PULL
            }
        };
        page(self.0.ask(pull, &values).await?, stretch)
    }

    /// Lines of a device that turned out not to be signed.
    pub(crate) async fn unsigned(&mut self, dev: &DeviceId) -> Result<Vec<Rejected>, StoreError> {
        unproved::unsigned_of(&mut *self.0, dev).await
    }

    /// What a device has not been told since the cursor of this number.
    #[cfg(test)]
    pub(crate) async fn pull(
        &mut self,
        dev: &DeviceId,
        since: u64,
        whom: Whom,
        now: Instant,
    ) -> Result<Pulled, StoreError> {
        let glance = self.glance(dev, &"".into(), now).await?;
        let stretch = self.stretch(&glance, since, whom).await?;
        self.lines(&stretch, Some(dev), now).await
    }
}

impl Store {
    /// The next lines behind a place in the log that count.
    pub(crate) async fn lines_behind(&self, pos: i64, limit: i64) -> Result<Vec<Behind>, StoreError> {
        let mut look = self.look().await?;
        let handed_to = unproved::handed_to(&mut *look.0).await?;
        let select =
            "SELECT pos, jws FROM entry WHERE pos > $1 AND aside IS NULL AND erased_ms IS NULL ORDER BY pos LIMIT $2";
        let behind = |mut row: Cells| {
            let (pos, jws) = (row.number()?, row.text()?);
            Ok(Behind { pos, jws, is_proved: pos <= handed_to })
        };
        look.0.ask(select, &[pos.into(), limit.into()]).await?.into_iter().map(behind).collect()
    }

    /// The lines that count and that everybody may be handed: nothing that still waits to be proved, nothing erased.
    pub(crate) async fn handed_out(&self) -> Result<Vec<String>, StoreError> {
        let mut look = self.look().await?;
        let handed_to = unproved::handed_to(&mut *look.0).await?;
        let select = "SELECT jws FROM entry WHERE pos <= $1 AND aside IS NULL AND erased_ms IS NULL ORDER BY pos";
        let rows = look.0.ask(select, &[handed_to.into()]).await?;
        rows.into_iter().map(|mut row| row.text()).collect()
    }

    /// Every line of the log, in the order they arrived, or what is left of it.
    pub(crate) async fn lines(&self) -> Result<Vec<String>, StoreError> {
        let (mut look, mut lines, mut after) = (self.look().await?, Vec::new(), 0);
        loop {
            let page = page_after(&mut *look.0, after, 500).await?;
            let Some(last) = page.last() else { return Ok(lines) };
            after = last.pos;
            lines.extend(page.into_iter().map(|line| line.erased.map_or(line.jws, |(erased, _)| erased.line())));
        }
    }
}

const PULL: &str = "
    SELECT pos, jws, received_ms FROM entry AS it
    WHERE pos > $1 AND pos <= $2 AND shared = 1 AND aside IS NULL AND dev <> $3
      AND (at_ms >= $5 OR received_ms >= $5
        OR what = 'left' AND $6 > 0
        OR what IN ('tagged_out', 'tag_cleared') AND NOT EXISTS (
             SELECT 1 FROM entry AS later
             WHERE later.machine = it.machine AND later.what IN ('tagged_out', 'tag_cleared') AND later.aside IS NULL
               AND later.at_ms > it.at_ms)
        OR what = 'noted' AND NOT EXISTS (
             SELECT 1 FROM entry AS later
             WHERE later.machine = it.machine AND later.what IN ('tagged_out', 'tag_cleared')
               AND later.what = 'tag_cleared' AND later.aside IS NULL
               AND later.at_ms > it.at_ms)
        OR what = 'round_done' AND NOT EXISTS (
             SELECT 1 FROM entry AS later
             WHERE later.round = it.round AND later.what = 'round_done' AND later.aside IS NULL
               AND later.at_ms > it.at_ms)
        OR what IN ('entered', 'out_by_moved') AND NOT EXISTS (
             SELECT 1 FROM entry AS leaving
             JOIN device AS from_dev ON from_dev.dev = leaving.dev
             JOIN device AS it_dev ON it_dev.dev = it.dev
             WHERE leaving.session = it.session AND leaving.what = 'left' AND from_dev.member = it_dev.member))
    ORDER BY pos LIMIT $4";

/// What `sync::hub::stewards_may_see` lets through, in the store's words.
const PULL_WHOLE: &str = "
    SELECT pos, jws, received_ms FROM entry
    WHERE pos > $1 AND pos <= $2 AND aside IS NULL AND erased_ms IS NULL AND dev <> $3
      AND (shared = 1 OR what IN ('incident', 'noted', 'clock_jumped', 'sweep_undone'))
    ORDER BY pos LIMIT $4";

const HEAD: &str = "SELECT seq, hash FROM entry WHERE dev = $1 ORDER BY seq DESC LIMIT 1";

const APPEND: &str = "
    INSERT INTO entry (dev, seq, hash, jws, received_ms, aside, shared, at_ms, session, what, machine, round)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) RETURNING pos";

/// So many lines go into one statement, the most that fit: each statement costs the engines several times what a line does.
const MANY: [usize; 2] = [ENTRIES_MAX, 20];

/// [`APPEND`] of [`MANY`] lines in their order, for an engine whose values are numbered and one whose are counted.
static APPEND_MANY: [[LazyLock<String>; 2]; 2] = [
    [LazyLock::new(|| many(MANY[0], true)), LazyLock::new(|| many(MANY[0], false))],
    [LazyLock::new(|| many(MANY[1], true)), LazyLock::new(|| many(MANY[1], false))],
];

fn many(rows: usize, numbered: bool) -> String {
    let value = |nth: usize| if numbered { format!("${nth}") } else { "?".to_owned() };
    let row = |nth: usize| {
        let values: Vec<String> = (1..=COLUMNS).map(|column| value(nth * COLUMNS + column)).collect();
        format!("({})", values.join(", "))
    };
    let rows: Vec<String> = (0..rows).map(row).collect();
    let columns = "dev, seq, hash, jws, received_ms, aside, shared, at_ms, session, what, machine, round";
    format!("INSERT INTO entry ({columns}) VALUES {}", rows.join(", "))
}

/// Columns of [`APPEND`].
const COLUMNS: usize = 12;

const APPEND_AT: &str = "
    INSERT INTO entry (dev, seq, hash, jws, received_ms, aside, shared, at_ms, session, what, machine, round, pos)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)";

fn values<'a>(row: &'a Row<'_>, aside: Option<&'a str>, received: Instant) -> Result<[Value<'a>; COLUMNS], StoreError> {
    let says = row.says.as_ref();
    Ok([
        row.dev.as_str().into(),
        i64::try_from(row.seq)?.into(),
        row.hash.into(),
        row.jws.into(),
        received.ms().into(),
        aside.into(),
        i64::from(says.is_some_and(|says| says.shared)).into(),
        says.map(|says| says.at.ms()).into(),
        says.map(|says| says.session).into(),
        says.map(|says| says.what).into(),
        says.and_then(|says| says.machine).into(),
        says.and_then(|says| says.round).into(),
    ])
}

/// One line as it is kept.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) pos: i64,
    pub(super) dev: DeviceId,
    pub(super) seq: u64,
    pub(super) hash: String,
    pub(super) jws: String,
    pub(super) received: Instant,
    pub(super) aside: Option<Why>,
    /// What is left of it, and since when, if its body was erased.
    pub(super) erased: Option<(Erased, Instant)>,
}

/// The next lines behind a cursor, everything that is kept of them.
pub(super) async fn page_after(talk: &mut dyn Talk, pos: i64, limit: i64) -> Result<Vec<Line>, StoreError> {
    let select = "SELECT pos, dev, seq, hash, jws, received_ms, aside, erased_ms, session
                  FROM entry WHERE pos > $1 ORDER BY pos LIMIT $2";
    let line = |mut row: Cells| {
        let mut line = Line {
            pos: row.number()?,
            dev: DeviceId::new(row.text()?),
            seq: row.count()?,
            hash: row.text()?,
            jws: row.text()?,
            received: Instant::from_ms(row.number()?),
            aside: row.maybe_text()?.map(|name| why(&name)),
            erased: None,
        };
        if let Some(since) = row.maybe_number()? {
            let session = row.maybe_text()?.map(SessionId::new);
            let left = Erased { dev: line.dev.clone(), seq: line.seq, hash: line.hash.clone(), session };
            line.erased = Some((left, Instant::from_ms(since)));
        }
        Ok(line)
    };
    talk.ask(select, &[pos.into(), limit.into()]).await?.into_iter().map(line).collect()
}

/// Stretches that will not come, and when that was told.
pub(super) async fn lost(talk: &mut dyn Talk) -> Result<Vec<(DeviceId, LostStretch, Instant)>, StoreError> {
    let select = "SELECT dev, from_seq, to_seq, received_ms FROM lost_stretch ORDER BY dev, from_seq";
    let stretch = |mut row: Cells| {
        let (dev, lost) = (DeviceId::new(row.text()?), LostStretch { from: row.count()?, to: row.count()? });
        Ok((dev, lost, Instant::from_ms(row.number()?)))
    };
    talk.ask(select, &[]).await?.into_iter().map(stretch).collect()
}

fn head(rows: Vec<Cells>) -> Result<Head, StoreError> {
    let Some(mut row) = rows.into_iter().next() else { return Ok(Head::default()) };
    Ok(Head { seq: row.count()?, hash: row.text()? })
}

/// Cuts what was found to one answer's size. The rows reach one past the limit, to know whether there is more.
fn page(rows: Vec<Cells>, stretch: &Stretch) -> Result<Pulled, StoreError> {
    let (mut pulled, mut bytes, mut last) = (Pulled::default(), 0, 0);
    for mut row in rows {
        let (pos, jws, received) = (row.number()?, row.text()?, Instant::from_ms(row.number()?));
        bytes += jws.len();
        if pulled.lines.len() == ENTRIES_MAX || (bytes > ENTRY_BYTES_MAX && !pulled.lines.is_empty()) {
            pulled.more = true;
            break;
        }
        last = pos;
        pulled.lines.push(jws);
        pulled.oldest = Some(pulled.oldest.map_or(received, |oldest| oldest.min(received)));
    }
    let place = u64::try_from(if pulled.more { last } else { stretch.to })?;
    pulled.cursor = Cursor { life: stretch.life, place }.number();
    Ok(pulled)
}

impl Change {
    /// The newest entry of a device that is kept, as this change sees it.
    pub(crate) async fn head(&mut self, dev: &DeviceId) -> Result<Head, StoreError> {
        head(self.talk.ask(HEAD, &[dev.as_str().into()]).await?)
    }

    /// What is kept of a device between two sequence numbers, both included.
    pub(crate) async fn held(&mut self, dev: &DeviceId, from: u64, to: u64) -> Result<Map<u64, Kept>, StoreError> {
        let select = "SELECT seq, hash, aside FROM entry WHERE dev = $1 AND seq BETWEEN $2 AND $3";
        let values = [dev.as_str().into(), i64::try_from(from)?.into(), i64::try_from(to)?.into()];
        let kept = |mut row: Cells| {
            let (seq, hash, aside) = (row.count()?, row.text()?, row.maybe_text()?);
            Ok((seq, Kept { hash, aside: aside.map(|name| why(&name)) }))
        };
        self.talk.ask(select, &values).await?.into_iter().map(kept).collect()
    }

    /// Keeps a line; gives its cursor.
    pub(crate) async fn append(&mut self, row: &Row<'_>, now: Instant) -> Result<u64, StoreError> {
        let aside = row.aside.map(name);
        only(self.talk.ask(APPEND, &values(row, aside.as_deref(), now)?).await?)?.count()
    }

    /// Keeps lines in their order; gives the last one's cursor.
    pub(crate) async fn append_all(&mut self, rows: &[Row<'_>], now: Instant) -> Result<Option<u64>, StoreError> {
        let (mut last, mut rest) = (None, rows);
        for (many, statements) in MANY.into_iter().zip(&APPEND_MANY) {
            let sql = &statements[usize::from(!self.talk.dialect().numbered)];
            while let Some((some, behind)) = rest.split_at_checked(many) {
                let asides: Vec<Option<String>> = some.iter().map(|row| row.aside.map(name)).collect();
                let mut bound = Vec::with_capacity(many * COLUMNS);
                for (row, aside) in some.iter().zip(&asides) {
                    bound.extend(values(row, aside.as_deref(), now)?);
                }
                self.talk.act(sql.as_str(), &bound).await?;
                rest = behind;
            }
        }
        if rest.is_empty() && !rows.is_empty() {
            last = Some(u64::try_from(newest(&mut *self.talk).await?)?);
        }
        for row in rest {
            last = Some(self.append(row, now).await?);
        }
        Ok(last)
    }

    /// Keeps a line of another store at the cursor that it has there.
    pub(super) async fn append_at(&mut self, pos: i64, row: &Row<'_>, received: Instant) -> Result<(), StoreError> {
        let aside = row.aside.map(name);
        let mut values = values(row, aside.as_deref(), received)?.to_vec();
        values.push(pos.into());
        self.talk.act(APPEND_AT, &values).await.map(drop)
    }

    /// Keeps what is left of a line of another store at the cursor that it has there.
    pub(super) async fn append_erased_at(&mut self, pos: i64, line: &Line) -> Result<(), StoreError> {
        let Some((Erased { dev, seq, hash, session }, since)) = &line.erased else { return Ok(()) };
        let insert = "INSERT INTO entry (pos, dev, seq, hash, jws, received_ms, aside, shared, session, erased_ms)
                      VALUES ($1, $2, $3, $4, '', 0, $5, 0, $6, $7)";
        let aside = line.aside.map(name);
        let values = [
            pos.into(),
            dev.as_str().into(),
            i64::try_from(*seq)?.into(),
            hash.as_str().into(),
            aside.as_deref().into(),
            session.as_ref().map(SessionId::as_str).into(),
            since.ms().into(),
        ];
        self.talk.act(insert, &values).await.map(drop)
    }

    /// Remembers that entries of a device will not come.
    pub(crate) async fn lose(&mut self, dev: &DeviceId, lost: LostStretch, now: Instant) -> Result<(), StoreError> {
        let insert = "INSERT INTO lost_stretch (dev, from_seq, to_seq, received_ms) VALUES ($1, $2, $3, $4)";
        let (from, to) = (i64::try_from(lost.from)?, i64::try_from(lost.to)?);
        self.talk.act(insert, &[dev.as_str().into(), from.into(), to.into(), now.ms().into()]).await.map(drop)
    }
}

/// The reason's wire name, which is its stored name too.
fn name(why: Why) -> String {
    serde_json::to_value(why).ok().and_then(|name| name.as_str().map(str::to_owned)).unwrap_or_default()
}

fn why(name: &str) -> Why {
    serde_json::from_value(name.into()).unwrap_or(Why::Unknown)
}
