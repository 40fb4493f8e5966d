//! The log as files for other programs: tables (RFC 4180), JSON lines, a calendar (RFC 5545).
//!
//! The same for the command and for a steward's phone. Everything is told as it was said, in the order of time; times are
//! UTC (RFC 3339), lengths are minutes. Who reads such a file reads the whole log: it is for stewards alone, and whoever
//! hands it on answers for it.

mod calendar;
mod table;
mod tables;

use shared_core::entry::Entry;
use shared_core::figures::Stretch;
use shared_core::log::jws;
use shared_core::log::wire;
use shared_core::rulebook::Rulebook;
use shared_core::state::State;

pub(crate) use self::tables::Table;

/// A file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// One table.
    Csv(Table),
    /// The log's entries, one a line, as the headless contract has them.
    JsonLines,
    /// Sessions, and when each round is due.
    Calendar,
}

impl Kind {
    /// The file of this name.
    pub(crate) fn named(name: &str) -> Option<Self> {
        match name {
            "log.jsonl" => Some(Self::JsonLines),
            "calendar.ics" => Some(Self::Calendar),
            _ => Table::named(name.strip_suffix(".csv")?).map(Self::Csv),
        }
    }

    /// Its media type (RFC 7111, RFC 5545 section 8.1; JSON lines have none that is registered).
    pub(crate) const fn media_type(self) -> &'static str {
        match self {
            Self::Csv(_) => "text/csv; charset=utf-8; header=present",
            Self::JsonLines => "application/x-ndjson",
            Self::Calendar => "text/calendar; charset=utf-8",
        }
    }

    /// The file, of what was said in a stretch; of everything if none is named.
    pub(crate) fn write(self, book: &Rulebook, entries: &[Entry], stretch: Option<Stretch>) -> String {
        let mut entries: Vec<&Entry> = entries.iter().collect();
        entries.sort_by_key(|entry| entry.at);
        let state = State::of(entries.iter().copied());
        let known = Known { book, entries, state, stretch };
        match self {
            Self::Csv(table) => table.write(&known),
            Self::JsonLines => {
                let said = known.entries.iter().filter(|entry| known.counts(entry.at));
                said.map(|entry| wire::write(entry) + "\n").collect()
            }
            Self::Calendar => calendar::write(&known),
        }
    }
}

/// What a file is made of.
struct Known<'a> {
    book: &'a Rulebook,
    /// In the order of time.
    entries: Vec<&'a Entry>,
    state: State,
    stretch: Option<Stretch>,
}

impl Known<'_> {
    /// Whether what happened then is to be told.
    fn counts(&self, at: shared_core::time::Instant) -> bool {
        self.stretch.is_none_or(|stretch| stretch.holds(at))
    }
}

/// The entries of signed lines that were proved before.
pub(crate) fn entries_of(lines: &[String]) -> Vec<Entry> {
    lines.iter().filter_map(|line| jws::unproved(line)).map(|(_, entry)| entry).collect()
}

#[cfg(test)]
mod tests;
