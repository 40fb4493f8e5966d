//! `sweepbell calibrate SHOP.toml LOG.jsonl`: is the reserve long enough?
//!
//! Asks [`crate::calibration`] and writes counts, shares, and how sure they are. An interval says what the counts alone
//! cannot: three sweeps of three in time are no promise.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::ids::{ChoreId, MachineId};

use super::{Failure, answer, read_log, read_rulebook};
use crate::calibration::interval::clopper_pearson;
use crate::calibration::{Chore, Tally, calibrate};

/// Of all that lies outside the intervals, this much is left to chance.
const CONFIDENCE: f64 = 0.95;

/// Say in what share of sessions the sweep ended within the reserve, per machine and per chore.
///
/// Judged are sessions that swept, did all their chores and left; a sweep that left something out is counted apart. The
/// reserve is the one that the log had taught when the sweep began. Intervals are exact (Clopper-Pearson), at 95 %.
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

impl Calibrate {
    /// Judges and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let book = read_rulebook(&self.shop)?;
        let said = calibrate(&book, &read_log(&self.log)?);
        let machines = said.machines.into_iter();
        answer(&Answer {
            asked_quantile: book.reserve.quantile,
            confidence: CONFIDENCE,
            sweeps: said.sweeps.into(),
            incomplete: said.incomplete,
            unplanned: said.unplanned,
            machines: machines.map(|(machine, tally)| MachineShare { machine, share: tally.into() }).collect(),
            chores: said.chores.into_iter().map(ChoreShare::from).collect(),
        })
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

impl From<(ChoreId, Chore)> for ChoreShare {
    fn from((chore, said): (ChoreId, Chore)) -> Self {
        let (first, last) = (said.first_minutes, said.last_minutes);
        Self { chore, share: said.tally.into(), planned_minutes_first: first, planned_minutes_last: last }
    }
}
