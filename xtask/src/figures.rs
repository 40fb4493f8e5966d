//! `cargo xtask figures`: every figure is reckoned again from an exported log, by programs that know nothing of ours.
//!
//! A hub with the demo shop tells its weeks, its log is exported, and `tests/figures/check.py` has pandas count it and reads the
//! exported files with Python's csv module, pandas and an iCalendar library, all from `PyPI` in fixed versions.

use std::fs;

use anyhow::{Context, Result};

use crate::describe::Running;
use crate::hub;
use crate::program::{answer, program, run as run_program};
use crate::python::python;
use crate::root::{root, target};

/// Tells, exports and compares.
pub(crate) fn run() -> Result<()> {
    let python = python("python-figures", "tests/figures/requirements.txt")?;
    let sweepbell = hub::build()?;
    let running = Running::start(&sweepbell, "figured")?;
    let mut export = program(&sweepbell);
    export.args(["export", "--demo", "--data"]).arg(&running.folder).env_remove("SWEEPBELL_DATABASE");
    let log = target().join("figured.jws");
    fs::write(&log, answer(&mut export).context("the demo's log cannot be exported")?)?;
    drop(running);
    let mut check = program(python);
    check.arg(root().join("tests/figures/check.py")).arg(sweepbell).arg(root().join("hub/demo/shop.toml")).arg(log);
    run_program(check.env("PYTHONDONTWRITEBYTECODE", "1"))
}
