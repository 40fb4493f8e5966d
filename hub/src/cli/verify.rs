//! `sweepbell verify LOG.jws`: whether a signed log is whole, one JWS compact per line.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::log::chain::verify_log;

use super::{Failure, answer, read};

/// Check every signature and every device's chain of a signed log.
#[derive(Args, Debug)]
pub(super) struct Verify {
    /// The log.
    #[arg(value_name = "LOG.jws")]
    log: PathBuf,
}

#[derive(Debug, Serialize)]
struct Answer {
    entries: u64,
    erased: u64,
    devices: u64,
    ok: bool,
    problems: Vec<Problem>,
}

#[derive(Debug, Serialize)]
struct Problem {
    line: u64,
    why: String,
}

impl Verify {
    /// Checks and tells; a log with problems is told whole, and refused.
    pub(super) fn run(self) -> Result<(), Failure> {
        let verified = verify_log(&read(&self.log)?);
        let problems =
            verified.problems.iter().map(|problem| Problem { line: problem.line, why: problem.why.to_string() });
        let problems: Vec<_> = problems.collect();
        let ok = problems.is_empty();
        let told = problems.iter().map(|problem| format!("{}:{}: {}", self.log.display(), problem.line, problem.why));
        let told: Vec<_> = told.collect();
        answer(&Answer {
            entries: verified.entries,
            erased: verified.erased,
            devices: verified.devices,
            ok,
            problems,
        })?;
        if ok { Ok(()) } else { Err(Failure::Refused(told)) }
    }
}
