//! The simulation of `tests/simulation`: `cargo xtask simulate`, optimised, on all cores, for as long as is asked; and as a step of
//! `cargo xtask test`, with its fixed seeds.
//!
//! Both are the same test. The long run prints how far it is; a failure prints its seed and the command that replays it.

use std::process::Command;
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Result, ensure};

use crate::program::{Tally, counted, program};

/// So many stays of one phone in a room, with `--long`.
pub(crate) const LONG: u64 = 1_000_000;
/// So many unless told otherwise.
pub(crate) const SESSIONS: u64 = 10_000;

/// What is to be run.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Run {
    /// The first seed; one of its own if none is given.
    pub(crate) seed: Option<u64>,
    /// Until so many phone-sessions are over; with a seed and without this, that seed alone.
    pub(crate) sessions: Option<u64>,
    /// A calm evening, in which a page or the hub dies at this storage step.
    pub(crate) dies_at: Option<u64>,
}

/// Runs, and fails where a checker finds something.
pub(crate) fn run(run: &Run) -> Result<()> {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    let sessions = run.sessions.or(run.seed.is_none().then_some(SESSIONS));
    let mut test = simulation();
    test.args(["--release", "from_a_seed", "--", "--nocapture"]);
    test.env("SIMULATE_SEED", run.seed.unwrap_or(now * 1_000_003).to_string());
    for (name, value) in [("SIMULATE_SESSIONS", sessions), ("SIMULATE_DIES_AT", run.dies_at)] {
        match value {
            Some(value) => test.env(name, value.to_string()),
            None => test.env_remove(name),
        };
    }
    let tally = counted(&mut test)?;
    ensure!(tally.failed == 0 && tally.passed > 0, "something does not hold, or nothing was tested");
    Ok(())
}

/// The tests of the simulation, as each run of all tests has them: the fixed seeds, the planted faults, the deaths.
pub(crate) fn fixed() -> Result<Tally> {
    counted(simulation().arg("--quiet"))
}

/// `cargo test` of the simulation alone, with the features that it requires.
fn simulation() -> Command {
    let mut test = program("cargo");
    test.args(["test", "--package", "tests", "--features", "fast-curve,own-allocator", "--test", "simulation"]);
    test
}
