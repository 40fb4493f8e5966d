//! The phone's journal: where lines become durable, and the only truth about what was said.
//!
//! An act is one [`Journal::append`]: all of its lines and the chain's new head, or nothing. It resolves once the
//! lines are on the disk, never before; until then nothing may be shown as done (DESIGN.md section 3). Lines of other
//! devices, a copy of the shop and small values lie beside the log and follow from it or from the
//! hub; so does the tally, which stands for lines that a start leaves where they are.
//!
//! Knows no rule and reads no entry. What is kept of preferences is no journal: see [`super::prefs`].

pub mod indexed_db;
#[cfg(test)]
pub mod memory;
pub mod open;
pub mod proving;
mod stored;

use serde::Serialize;
use serde_json::Value;
use shared_core::json::{FromJson, Unfit, from_json, read_as_json};
use shared_core::log::chain::Head;
use shared_core::time::Instant;

use crate::later::ReadTally;

/// Where lines are kept.
pub trait Journal {
    /// Held while an act is decided and written, so that two tabs take turns.
    type Turn;

    /// Waits for this tab's turn.
    async fn turn(&self) -> Self::Turn;

    /// What lies there, unverified; and the tally that stands for the lines of others which were left out, if there is one.
    async fn load(&self, reach: Reach) -> Result<(Loaded, Option<Vec<u8>>), Fault>;

    /// What reads a tally; it may be waited for, and not come.
    async fn reads_tallies(&self) -> Option<ReadTally>;

    /// Keeps a tally, if the journal is as it was when what the tally says was read.
    async fn keep_tally(&self, head: &Head, mark: Mark, tally: &[u8]) -> Result<(), Fault>;

    /// This device's next lines behind the one of that number, in order; none behind the last.
    async fn own_after(&self, seq: u64) -> Result<Vec<Line>, Fault>;

    /// The next lines of a shelf behind the one of that id, by id; none behind the last.
    async fn others_after(&self, on: Shelf, id: &str) -> Result<Vec<Other>, Fault>;

    /// Lets the page do what waits meanwhile: a touch, a frame.
    async fn breathe(&self);

    /// The head of this device's chain.
    async fn head(&self) -> Result<Head, Fault>;

    /// Writes the lines of one act, if the head still is `expected`.
    async fn append(&self, expected: &Head, next: &Head, lines: &[Line]) -> Result<Kept, Fault>;

    /// Writes what follows from the hub or from a check: all of it or nothing.
    async fn change(&self, changes: &[Change]) -> Result<(), Fault>;

    /// A small value, if it is there.
    async fn read(&self, key: Key) -> Result<Option<String>, Fault>;
}

/// One line of this device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(into = "stored::Line")]
pub struct Line {
    /// From 1.
    pub seq: u64,
    /// The signed entry.
    pub jws: String,
    /// When it was written.
    pub at: Instant,
    /// What the hub said of it.
    pub standing: Standing,
}

/// What the hub said of a line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Standing {
    /// Nothing yet.
    #[default]
    Waiting,
    /// It holds it.
    Acked,
    /// It will not take it. The line stays, and is shown with the reason.
    Rejected {
        /// In the hub's words.
        why: String,
    },
}

/// One line of another device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Other {
    /// Device and sequence number: a line is kept once.
    pub id: String,
    /// The signed entry.
    pub jws: String,
}

/// A line that could not be read again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Aside {
    /// Where it lay.
    pub id: String,
    /// As it was found.
    pub jws: String,
    /// What is wrong with it.
    pub why: String,
}

/// How far [`Journal::load`] goes back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// To the tally, if there is one.
    SinceTally,
    /// To the beginning.
    Whole,
}

/// Where lines of other devices lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shelf {
    /// Those that a tally stands for; all that came before there were tallies.
    Others,
    /// What came since.
    Fresh,
}

impl Shelf {
    /// Both, as they are gone through.
    pub const ALL: [Self; 2] = [Self::Others, Self::Fresh];

    /// Its name in the database.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Others => "others",
            Self::Fresh => "fresh",
        }
    }
}

/// The state of the journal that a tally stands for, beside the head of its chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// How many lines of other devices it holds.
    pub others: u64,
    /// How often a line that was folded has gone.
    pub losses: u64,
}

/// What [`Journal::load`] finds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Loaded {
    /// This device's lines, by sequence number.
    pub log: Vec<Line>,
    /// Those of other devices.
    pub others: Vec<Other>,
    /// The head as it was written with the last act.
    pub head: Option<Head>,
    /// How many lines lie aside.
    pub aside: u32,
    /// How often a line that was folded has gone.
    pub losses: u64,
}

impl FromJson for Line {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        stored::Line::from_json(value).map(Self::from)
    }
}

read_as_json!(Line);

from_json! {
    Other { id, jws }
    Loaded { log, others, head, aside, losses }
}

/// Small values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// The shop as the hub last handed it out.
    Shop,
    /// What follows from the hub's signed words in it.
    Proved,
    /// The phone's half of sync.
    Sync,
    /// Which bells rang.
    Rung,
    /// When it was last looked for what is over.
    Retired,
}

impl Key {
    /// Its name in the database.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Shop => "shop",
            Self::Proved => "proved",
            Self::Sync => "sync",
            Self::Rung => "rung",
            Self::Retired => "retired",
        }
    }
}

/// A change that is no act.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// The hub spoke about a line of this device; or handed a lost one back.
    Line(Line),
    /// A line of another device arrived.
    Other(Other),
    /// A line of this device is unreadable.
    LineAside {
        /// Its place in the chain.
        seq: u64,
        /// The line and what is wrong with it.
        aside: Aside,
    },
    /// A line of another device is unreadable.
    OtherAside(Aside),
    /// A line of this device is over, and the hub has it.
    LineGone(u64),
    /// A line of another device is over, or was erased.
    OtherGone(String),
    /// The picture of this digest belongs to no line any more.
    PhotoGone(String),
    /// The tally is none of this phone's, or of other rules.
    TallyGone,
    /// A small value.
    Value(Key, String),
}

impl Change {
    /// Whether something is folded no longer after this: no tally then stands for what is left.
    pub fn takes_away(&self) -> bool {
        match self {
            Self::LineAside { .. } | Self::OtherAside(_) | Self::LineGone(_) | Self::OtherGone(_) => true,
            Self::Line(line) => matches!(line.standing, Standing::Rejected { .. }),
            Self::Other(_) | Self::PhotoGone(_) | Self::TallyGone | Self::Value(..) => false,
        }
    }
}

/// How surely lines are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// On the disk, in the log.
    Durably,
    /// In the browser's small store, because its database would not answer. Moved to the log at the next start.
    InSpare,
}

/// Why nothing was written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// Another tab wrote first: load again and decide again.
    #[error("another tab wrote first")]
    Moved,
    /// There is no room.
    #[error("the phone's storage is full")]
    Full,
    /// The database went away, came back and went away again.
    #[error("the phone's storage went away")]
    Lost,
    /// There is no database, or it says something new.
    #[error("the phone's storage does not answer: {0}")]
    Unavailable(String),
}
