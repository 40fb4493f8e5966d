//! What the hub's database holds: the log in the order of arrival, what will not come, and the log's lives.
//!
//! A value: a backup is a copy of it. What a pull hands out is told here as the hub's SQL tells it.

mod erasing;

pub(crate) use erasing::{Gone, Lost};

use std::collections::BTreeMap;

use shared_core::entry::{Entry, Fact, Matter, Of};
use shared_core::ids::{BookId, DeviceId};
use shared_core::log::chain::Head;
use shared_core::log::erased::Erased;
use shared_core::log::jws;
use shared_core::standing::{Words, said_by};
use shared_core::sync::cursor::{Cursor, Life, current};
use shared_core::sync::hub::{Judged, Kept, LostStretch, Taken, members_may_see, stewards_may_see};
use shared_core::sync::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, SyncAnswer, Why};
use shared_core::time::{Instant, Span};

use crate::planted::Planted;

/// How far back a phone is told everything that members may see (the hub's own limit).
const RECENT: Span = Span::from_minutes(24 * 60);

/// One line that is kept.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) dev: DeviceId,
    pub(crate) seq: u64,
    pub(crate) jws: String,
    pub(crate) hash: String,
    received: Instant,
    /// Why its body is not there any more, if it is not.
    pub(crate) erased: Option<Gone>,
    pub(crate) aside: Option<Why>,
    /// The rulebook it happened under, if it counts.
    pub(crate) book: Option<BookId>,
    /// What it says, if it counts.
    pub(crate) entry: Option<Entry>,
}

#[derive(Clone, Debug, Default)]
pub(crate) struct Store {
    /// By place in the order of arrival, from 1.
    pub(crate) log: BTreeMap<u64, Row>,
    places: BTreeMap<(DeviceId, u64), u64>,
    pub(crate) lost: Vec<(DeviceId, LostStretch)>,
    lives: Vec<Life>,
    /// First and last places of pushes whose lines are still to be proved by themselves.
    unproved: Vec<(u64, u64)>,
    /// What phones are to forget, and how often there was such a stretch.
    erasures: Vec<erasing::Erasure>,
    erasures_made: u64,
    /// Where words on members stand.
    words: Vec<u64>,
    /// How often something was changed that stood in the log already.
    pub(crate) changes: u64,
}

/// A change in the making: nothing of it is there before it is committed.
#[derive(Clone, Debug, Default)]
pub(crate) struct Change {
    rows: Vec<Row>,
    lost: Vec<(DeviceId, LostStretch)>,
    owes_proof: bool,
}

impl Change {
    /// Loses its last line, as no database may.
    pub(crate) fn tear(&mut self) {
        self.rows.pop();
    }

    /// What became of one pushed line.
    pub(crate) fn take(&mut self, dev: &DeviceId, judged: Judged, received: Instant) {
        let Judged { line, taken, owes_proof } = judged;
        self.owes_proof |= owes_proof;
        let (seq, hash, aside, after, said) = match taken {
            Taken::Duplicate { .. } | Taken::Refused { .. } => return,
            Taken::Stored { signed, hash, after } => (signed.seq, hash, None, after, Some((signed.book, signed.entry))),
            Taken::SetAside { seq, hash, why, after } => (seq, hash, Some(why), after, None),
        };
        self.lost.extend(after.map(|stretch| (dev.clone(), stretch)));
        let (book, entry) = said.unzip();
        self.rows.push(Row { dev: dev.clone(), seq, jws: line, hash, received, erased: None, aside, book, entry });
    }
}

impl Store {
    /// A hub starts.
    pub(crate) fn begin_life(&mut self, tag: u32) {
        self.lives.push(Life { tag, from: self.newest() });
    }

    /// The life that the log is in.
    pub(crate) fn life(&self) -> u32 {
        current(&self.lives)
    }

    fn newest(&self) -> u64 {
        self.log.last_key_value().map_or(0, |(place, _)| *place)
    }

    /// Makes a change so.
    pub(crate) fn commit(&mut self, change: Change) {
        self.lost.extend(change.lost);
        let first = self.newest() + 1;
        for row in change.rows {
            let place = self.newest() + 1;
            let before = self.places.insert((row.dev.clone(), row.seq), place);
            assert!(before.is_none(), "the hub was told to store entry {} of {} twice", row.seq, row.dev);
            if row.entry.as_ref().is_some_and(|entry| said_by(&entry.fact).is_some()) {
                self.words.push(place);
            }
            self.log.insert(place, row);
        }
        // What tore off its last lines may have none left.
        if change.owes_proof && self.newest() >= first {
            self.unproved.push((first, self.newest()));
        }
    }

    /// Proves what later lines vouched for; what does not open by itself counts for nothing.
    pub(crate) fn prove(&mut self, planted: Option<Planted>) {
        for (from, to) in std::mem::take(&mut self.unproved) {
            for row in self.log.range_mut(from..=to).map(|(_, row)| row) {
                let counts =
                    row.aside.is_none() && row.erased.is_none() && planted != Some(Planted::HubBelievesVouched);
                if counts && jws::open(&row.jws).is_err() {
                    (row.aside, row.book, row.entry) = (Some(Why::Damaged), None, None);
                    self.changes += 1;
                }
            }
        }
    }

    /// Whether lines wait to be proved by themselves.
    pub(crate) fn owes_proof(&self) -> bool {
        !self.unproved.is_empty()
    }

    /// Up to where the log is handed out.
    pub(crate) fn handed_to(&self) -> u64 {
        self.unproved.first().map_or_else(|| self.newest(), |(from, _)| from - 1)
    }

    pub(crate) fn head(&self, dev: &DeviceId) -> Head {
        let newest = self.places.range((dev.clone(), 0)..=(dev.clone(), u64::MAX)).next_back();
        newest.map_or_else(Head::default, |((_, seq), at)| Head { seq: *seq, hash: self.log[at].hash.clone() })
    }

    pub(crate) fn held(&self, dev: &DeviceId, seq: u64) -> Option<(u64, Kept)> {
        let row = self.line(dev, seq)?;
        Some((seq, Kept { hash: row.hash.clone(), aside: row.aside }))
    }

    /// The line that is kept of a device at a place.
    pub(crate) fn line(&self, dev: &DeviceId, seq: u64) -> Option<&Row> {
        self.log.get(self.places.get(&(dev.clone(), seq))?)
    }

    /// Fills in what a device has not been told since the cursor of this number; all of it if it is a steward's. `goes_on` if it
    /// knows some of the log.
    pub(crate) fn pull(
        &self,
        dev: &DeviceId,
        (since, goes_on): (u64, bool),
        whole: bool,
        now: Instant,
        planted: Option<Planted>,
        answer: &mut SyncAnswer,
    ) {
        let handed_to = self.handed_to();
        let (life, holds_to) = (current(&self.lives), Cursor::of(since).holds_to(&self.lives, self.newest()));
        let (mut bytes, mut last) = (0, holds_to);
        for (place, row) in self.log.range(holds_to + 1..).take_while(|(place, _)| **place <= handed_to) {
            let handed = if whole { is_stewards(row) } else { self.is_handed_out(row, goes_on, now, planted) };
            if row.dev == *dev || !handed {
                continue;
            }
            bytes += row.jws.len();
            if answer.pull.len() == ENTRIES_MAX || bytes > ENTRY_BYTES_MAX {
                answer.more = true;
                break;
            }
            last = *place;
            answer.pull.push(row.jws.clone());
        }
        answer.cursor = Cursor { life, place: if answer.more { last } else { handed_to } }.number();
    }

    fn is_handed_out(&self, row: &Row, goes_on: bool, now: Instant, planted: Option<Planted>) -> bool {
        let Some(entry) = row.entry.as_ref().filter(|entry| members_may_see(&entry.fact)) else { return false };
        let recent = now - RECENT;
        let newer = |same: &dyn Fn(&Fact) -> bool| {
            let mut said = self.entries().filter(|other| same(&other.fact));
            said.any(|other| other.at > entry.at)
        };
        entry.at >= recent
            || row.received >= recent && planted != Some(Planted::HubGoesByTheWriterClock)
            || match &entry.fact {
                Fact::Left => goes_on,
                Fact::TaggedOut { machine: of, .. } | Fact::TagCleared { machine: of } => !newer(
                    &|fact| matches!(fact, Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } if machine == of),
                ),
                Fact::Noted { of: Of { matter: Matter::Tag(of), .. }, .. } => {
                    !newer(&|fact| matches!(fact, Fact::TagCleared { machine } if machine == of))
                }
                Fact::RoundDone { round: of } => {
                    !newer(&|fact| matches!(fact, Fact::RoundDone { round } if round == of))
                }
                Fact::Entered { .. } | Fact::OutByMoved { .. } => !self.log.values().any(|other| {
                    let left = other.entry.as_ref().filter(|left| left.fact == Fact::Left);
                    left.is_some_and(|left| left.session == entry.session && left.who == entry.who)
                }),
                _ => false,
            }
    }

    /// The words on members that count up to a place.
    pub(crate) fn words(&self, to: u64) -> Words {
        let mut words = Words::default();
        let said = self.words.iter().filter(|place| **place <= to).filter_map(|place| self.log.get(place));
        said.filter_map(|row| row.entry.as_ref()).for_each(|entry| words.take(entry));
        words
    }

    /// Changes whenever [`Store::words`] up to there may have.
    pub(crate) fn words_mark(&self, to: u64) -> (usize, u64, u32) {
        (self.words.partition_point(|place| *place <= to), self.changes, self.life())
    }

    /// The whole log, a line each or what is left of it, in the order of arrival.
    pub(crate) fn text(&self) -> String {
        let left = |row: &Row| Erased { dev: row.dev.clone(), seq: row.seq, hash: row.hash.clone(), session: None };
        let line = |row: &Row| if row.erased.is_some() { left(row).line() } else { row.jws.clone() };
        self.log.values().map(line).collect::<Vec<_>>().join("\n")
    }

    /// The same, each with its device and number.
    pub(crate) fn counted(&self) -> impl Iterator<Item = (&DeviceId, u64, &Entry)> {
        self.log.values().filter_map(|row| Some((&row.dev, row.seq, row.entry.as_ref()?)))
    }

    /// What counts, in the order of arrival.
    pub(crate) fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.log.values().filter_map(|row| row.entry.as_ref())
    }
}

/// Whether a steward's phone is handed a line.
fn is_stewards(row: &Row) -> bool {
    row.entry.as_ref().is_some_and(|entry| stewards_may_see(&entry.fact))
}
