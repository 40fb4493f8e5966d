//! `sweepbell trace SHOP.toml LOG.jsonl --machine ID --seen RFC3339`: who could have left it, and which footage to look at.
//!
//! Folds the lines and asks [`shared_core::trace`]; writes the contract's fields. DESIGN.md section 5.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::ids::{MachineId, PersonId, SessionId};
use shared_core::state::State;
use shared_core::time::Instant;
use shared_core::trace::trace;

use super::{Failure, answer, read_log, read_rulebook};

/// Find the uses that could have left a mess, and the minutes of footage in them.
#[derive(Args, Debug)]
pub(super) struct Trace {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// The log, one entry a line.
    #[arg(value_name = "LOG.jsonl")]
    log: PathBuf,
    /// The machine with the mess.
    #[arg(long, value_name = "ID")]
    machine: String,
    /// When the mess was seen.
    #[arg(long, value_name = "RFC3339", value_parser = instant)]
    seen: Instant,
}

#[derive(Debug, Serialize)]
struct Answer {
    bracket: Bracket,
    windows: Vec<Window>,
    footage_minutes: i64,
}

#[derive(Debug, Serialize)]
struct Bracket {
    from: Option<Instant>,
    to: Instant,
}

#[derive(Debug, Serialize)]
struct Window {
    session: SessionId,
    who: PersonId,
    from: Instant,
    to: Instant,
    chores_done: bool,
    clock_jumped_seconds: i64,
}

impl Trace {
    /// Traces and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let book = read_rulebook(&self.shop)?;
        let Some(machine) = book.machine(&MachineId::new(self.machine.as_str())) else {
            return Err(Failure::refused(&format!("{}: there is no machine `{}`", self.shop.display(), self.machine)));
        };
        let traced = trace(&State::of(&read_log(&self.log)?.entries), machine, self.seen);
        let windows = traced.windows.into_iter().map(|window| Window {
            session: window.session,
            who: window.who,
            from: window.from,
            to: window.to,
            chores_done: window.chores_done,
            clock_jumped_seconds: window.clock_jumped.ms() / 1000,
        });
        answer(&Answer {
            bracket: Bracket { from: traced.from, to: traced.to },
            windows: windows.collect(),
            footage_minutes: traced.footage_minutes,
        })
    }
}

fn instant(text: &str) -> Result<Instant, String> {
    Instant::parse(text).ok_or_else(|| "not an RFC 3339 date and time".to_owned())
}
