//! `cargo xtask crash`: a hub that takes entries is killed without a word, many times, with each engine.
//!
//! The test is that of `cargo xtask test`, hub/tests/hub/killed.rs, with more kills.

use anyhow::{Result, ensure};

use crate::postgres::{ADDRESS, Postgres};
use crate::program::{counted, program};

/// How often, unless told otherwise. `cargo xtask test` kills 20 times.
pub(crate) const KILLS: u32 = 200;

/// Kills, and fails if anything that was acknowledged is not there.
pub(crate) fn run(kills: u32) -> Result<()> {
    let server = Postgres::start()?;
    let mut test = program("cargo");
    test.args(["test", "--package", "hub", "--test", "hub", "killed::", "--", "--nocapture", "--test-threads=1"]);
    let tally = counted(test.env(ADDRESS, server.address()).env("SWEEPBELL_TEST_KILLS", kills.to_string()))?;
    ensure!(tally.failed == 0 && tally.passed > 0, "something was lost, or nothing was tested");
    Ok(())
}
