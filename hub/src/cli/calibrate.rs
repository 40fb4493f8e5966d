//! `sweepbell calibrate SHOP.toml LOG.jsonl`: is the reserve long enough?
//!
//! Asks [`shared_core::calibration`] and writes counts, shares, how sure they are, and what was learned of each chore; people
//! get the last as a table. An interval says what the counts alone cannot: three sweeps of three in time are no promise.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::calibration::learning::{Learning, Timed, Written};
use shared_core::calibration::{Tally, calibrate};
use shared_core::ids::{ChoreId, MachineId};

use super::{Failure, answer, read_log, read_rulebook};
use shared_core::interval::clopper_pearson;

/// Of all that lies outside the intervals, this much is left to chance.
const CONFIDENCE: f64 = 0.95;

/// Say in what share of sessions the sweep ended within the reserve, per machine and per chore.
///
/// Judged are sessions that swept, did all their chores and left; a sweep that left something out is counted apart. The
/// reserve is the one that the log had taught when the sweep began. Intervals are exact (Clopper-Pearson), at 95 %.
///
/// What was learned of each chore is a table on standard error: the minutes that the rulebook writes, those it takes in
/// the asked share of evenings, and what is planned at the end of the log.
#[derive(Args, Debug)]
pub(super) struct Calibrate {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// The log, one entry a line, signed or not.
    #[arg(value_name = "LOG.jsonl")]
    log: PathBuf,
}

#[derive(Debug, Serialize)]
struct Answer {
    asked_quantile: f64,
    confidence: f64,
    sweeps: Share,
    incomplete: u64,
    unplanned: u64,
    machines: Vec<MachineShare>,
    chores: Vec<ChoreShare>,
    learning: Vec<Learned>,
}

/// A share, and between what it lies; the share of nothing is null.
#[derive(Debug, Serialize)]
#[expect(clippy::struct_field_names, reason = "what the number is, beside what it is of")]
struct Share {
    within: u64,
    of: u64,
    share: Option<f64>,
    low: f64,
    high: f64,
}

#[derive(Debug, Serialize)]
struct MachineShare {
    machine: MachineId,
    #[serde(flatten)]
    share: Share,
}

#[derive(Debug, Serialize)]
struct ChoreShare {
    chore: ChoreId,
    #[serde(flatten)]
    share: Share,
    planned_minutes_first: i64,
    planned_minutes_last: i64,
}

/// What was learned of a chore.
#[derive(Debug, Serialize)]
struct Learned {
    chore: ChoreId,
    /// `too-short` or `too-long`: what the rulebook writes.
    written: &'static str,
    written_minutes: i64,
    seen_quantile_minutes: f64,
    learnt_minutes: f64,
    off_minutes_at_first: f64,
    off_minutes_now: f64,
    within_at_first: Share,
    within_since: Share,
}

impl Calibrate {
    /// Judges and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let book = read_rulebook(&self.shop)?;
        let said = calibrate(&book, &read_log(&self.log)?.entries);
        let machines = said.machines.into_iter();
        let learned = said.chores.iter().filter_map(|(id, timed)| Some((id, Learning::of(timed, &book.reserve)?)));
        let learned: Vec<(&ChoreId, Learning)> = learned.collect();
        if !learned.is_empty() {
            eprint!("{}", table(&learned, book.reserve.quantile));
        }
        answer(&Answer {
            asked_quantile: book.reserve.quantile,
            confidence: CONFIDENCE,
            sweeps: said.sweeps.into(),
            incomplete: said.incomplete,
            unplanned: said.unplanned,
            machines: machines.map(|(machine, tally)| MachineShare { machine, share: tally.into() }).collect(),
            learning: learned.into_iter().map(Learned::from).collect(),
            chores: said.chores.iter().filter_map(ChoreShare::of).collect(),
        })
    }
}

/// What was learned, for people: those written too short first, each side by how far off it was.
fn table(learned: &[(&ChoreId, Learning)], asked: f64) -> String {
    let mut rows: Vec<&(&ChoreId, Learning)> = learned.iter().collect();
    rows.sort_by(|(_, a), (_, b)| a.off_at_first().total_cmp(&b.off_at_first()));
    let mut text = format!(
        "What the log taught, in minutes; seen is what a chore takes in {:.0} of 100 evenings.\n\
         {:<28} {:>7} {:>6} {:>6}   in time at first, since\n",
        asked * 100.0,
        "chore",
        "written",
        "seen",
        "learnt",
    );
    for (id, one) in rows {
        let Learning { written_minutes, seen_minutes, learnt_minutes, at_first, since } = one;
        let row = format!(
            "{:<28} {written_minutes:>7} {seen_minutes:>6.1} {learnt_minutes:>6.1}   {:>2} of {:<2} {:>4} of {}\n",
            id.as_str(),
            at_first.within,
            at_first.of,
            since.within,
            since.of,
        );
        text.push_str(&row);
    }
    text
}

impl From<(&ChoreId, Learning)> for Learned {
    fn from((chore, said): (&ChoreId, Learning)) -> Self {
        Self {
            chore: chore.clone(),
            written: match said.written() {
                Written::TooShort => "too-short",
                Written::TooLong => "too-long",
            },
            written_minutes: said.written_minutes,
            seen_quantile_minutes: said.seen_minutes,
            learnt_minutes: said.learnt_minutes,
            off_minutes_at_first: said.off_at_first(),
            off_minutes_now: said.off_now(),
            within_at_first: said.at_first.into(),
            within_since: said.since.into(),
        }
    }
}

impl From<Tally> for Share {
    #[expect(clippy::cast_precision_loss, reason = "no log has 2^53 sweeps")]
    fn from(Tally { within, of }: Tally) -> Self {
        let (low, high) = clopper_pearson(within, of, CONFIDENCE);
        let share = (of > 0).then(|| within as f64 / of as f64);
        Self { within, of, share, low, high }
    }
}

impl ChoreShare {
    fn of((chore, timed): (&ChoreId, &Vec<Timed>)) -> Option<Self> {
        let (first, last) = (timed.first()?.planned_minutes, timed.last()?.planned_minutes);
        let share = Tally::of(timed).into();
        Some(Self { chore: chore.clone(), share, planned_minutes_first: first, planned_minutes_last: last })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn people_read_what_was_too_short_first() {
        let tally = |within, of| Tally { within, of };
        let one = |written_minutes, seen_minutes, learnt_minutes| Learning {
            written_minutes,
            seen_minutes,
            learnt_minutes,
            at_first: tally(3, 5),
            since: tally(17, 20),
        };
        let (long, short) = (ChoreId::of("saw", "brush"), ChoreId::of("forge", "floor"));
        let said = table(&[(&long, one(4, 1.75, 2.04)), (&short, one(4, 6.0, 5.9))], 0.8);
        let expected = "\
What the log taught, in minutes; seen is what a chore takes in 80 of 100 evenings.
chore                        written   seen learnt   in time at first, since
forge/floor                        4    6.0    5.9    3 of 5    17 of 20
saw/brush                          4    1.8    2.0    3 of 5    17 of 20
";
        assert_eq!(said, expected);
        let learned = Learned::from((&short, one(4, 6.0, 5.9)));
        assert_eq!((learned.written, learned.off_minutes_at_first), ("too-short", -2.0));
        assert_eq!(Learned::from((&long, one(4, 4.0, 4.0))).written, "too-long");
    }
}
