//! `sweepbell lint SHOP.toml`: every problem of a rulebook, each at its line and column.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::rulebook::parse;
use shared_core::rulebook::problem::Problem;

use super::{Failure, answer, read};
use crate::shop::check_zone;

/// Find every problem of a rulebook.
#[derive(Args, Debug)]
pub(super) struct Lint {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
}

#[derive(Debug, Serialize)]
struct Answer<'a> {
    ok: bool,
    problems: Vec<Told<'a>>,
}

#[derive(Debug, Serialize)]
struct Told<'a> {
    line: u32,
    column: u32,
    what: &'a str,
    hint: Option<&'a str>,
}

impl Lint {
    /// Reads it and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let text = read(&self.shop)?;
        let (rulebook, mut problems) = parse::read(&text);
        problems.extend(rulebook.and_then(|rulebook| check_zone(&text, &rulebook)));
        answer(&Answer { ok: problems.is_empty(), problems: problems.iter().map(Told::from).collect() })?;
        if problems.is_empty() {
            return Ok(());
        }
        Err(Failure::Refused(problems.iter().map(|problem| format!("{}:{problem}", self.shop.display())).collect()))
    }
}

impl<'a> From<&'a Problem> for Told<'a> {
    fn from(problem: &'a Problem) -> Self {
        Self { line: problem.line, column: problem.column, what: &problem.what, hint: problem.hint.as_deref() }
    }
}
