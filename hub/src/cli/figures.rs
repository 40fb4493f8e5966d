//! `sweepbell figures SHOP.toml LOG.jsonl`: what a month, or all of a log, was like; or the log as a file for other programs.
//!
//! Asks [`shared_core::figures`] and [`crate::export`]. Reads no clock: all of a log ends with its last line.

use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::Args;
use shared_core::entry::Entry;
use shared_core::figures::{Reach, Stretch, figures};
use shared_core::state::State;
use shared_core::sync::shop::UtcOffset;
use shared_core::time::{Instant, Span};

use super::{Failure, answer, read_log, read_rulebook};
use crate::export::{Kind, Table};
use crate::offsets::offsets_between;

/// Say what a month was like, in numbers; or write the log as a file for other programs.
///
/// Months are the shop's own, by its time zone. A session belongs to the month in which it began, whole. Lengths are whole
/// minutes, the sum rounded up once. Without a month: all of the log, up to its last line.
///
/// A cell of text in a table that begins with = + - @ or an apostrophe has an apostrophe before it, so that no spreadsheet
/// takes it for a formula; take one off to have what was written.
#[derive(Args, Debug)]
pub(super) struct Figures {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// The log, one entry a line, signed or not.
    #[arg(value_name = "LOG.jsonl")]
    log: PathBuf,
    /// One month of the shop's, `2026-11`.
    #[arg(long, value_name = "YYYY-MM", value_parser = month)]
    month: Option<Month>,
    /// One table instead, as RFC 4180 has it: sessions, uses, chores, rounds, finds, tags or incidents.
    #[arg(long, value_name = "TABLE", value_parser = table, group = "file")]
    csv: Option<Table>,
    /// The entries instead, one a line.
    #[arg(long, group = "file")]
    jsonl: bool,
    /// The sessions and when rounds are due instead, as a calendar (RFC 5545).
    #[arg(long, group = "file")]
    ical: bool,
}

/// A month, by noon of its fifteenth in UTC: no zone is so far away that it would be another month there.
#[derive(Clone, Copy, Debug)]
struct Month(Instant);

impl Figures {
    /// Reckons and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let book = read_rulebook(&self.shop)?;
        let entries = read_log(&self.log)?.entries;
        let offsets = offsets_of(&book.shop.time_zone, &entries, self.month);
        let stretch = self.month.map(|Month(at)| Stretch::month_of(&offsets, at));
        let kind = match self.csv {
            Some(table) => Some(Kind::Csv(table)),
            None if self.jsonl => Some(Kind::JsonLines),
            None => self.ical.then_some(Kind::Calendar),
        };
        if let Some(kind) = kind {
            let mut out = io::stdout().lock();
            out.write_all(kind.write(&book, &entries, stretch).as_bytes())?;
            return Ok(out.flush()?);
        }
        let state = State::of(&entries);
        let end = entries.iter().map(|entry| entry.at).max().unwrap_or_default() + Span::from_ms(1);
        let stretch = stretch.unwrap_or_else(|| Stretch::of(Reach::All, &state, &offsets, end));
        answer(&figures(&book, &state, &offsets, stretch))
    }
}

/// The shop's offsets for all that is in the log, and for the month. The rulebook's zone was looked up when it was read.
fn offsets_of(zone: &str, entries: &[Entry], month: Option<Month>) -> Vec<UtcOffset> {
    let at = || entries.iter().map(|entry| entry.at).chain(month.map(|Month(at)| at));
    let (first, last) = (at().min().unwrap_or_default(), at().max().unwrap_or_default());
    offsets_between(zone, first, last).unwrap_or_default()
}

fn month(text: &str) -> Result<Month, String> {
    let is_month = text.len() == "2026-11".len();
    let at = Instant::parse(&format!("{text}-15T12:00:00Z")).filter(|_| is_month);
    at.map(Month).ok_or_else(|| format!("{text}: write a month as 2026-11"))
}

fn table(name: &str) -> Result<Table, String> {
    let names = Table::ALL.map(Table::name).join(", ");
    Table::named(name).ok_or_else(|| format!("{name}: there are {names}"))
}
