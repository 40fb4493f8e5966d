//! `cargo xtask bench`: how fast the rules are; with `--sync`, how fast the log travels beside what others would take; with
//! `--phone`, how soon the app and its pages are there on a slow one; with `--beside`, beside the same screens in a small framework;
//! with `--codes`, how quickly and how well codes are read; with `--battery`, what a phone does that nobody touches; with `--hub`,
//! what a hub does for ten thousand phones; with `--check`, whether a kept ratio became worse; with `--growth`, how cost grows with size.
//!
//! Figures go into DEVELOPERS.md by hand, with the machine and the date; ratios into `kept.rs` too. Not a part of
//! `cargo xtask test`: a busy machine fails nothing.

mod account;
mod growth;
mod hub;
mod kept;
mod rules;
mod sides;
mod sync;
mod table;
mod wire;

use anyhow::Result;

pub(crate) use hub::Part;

use crate::browser;
use crate::program::{program, run as run_program};

/// What is to be timed.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Bench {
    /// The rules, here and on wasm32.
    Rules {
        /// A part of a bench's name.
        filter: Option<String>,
    },
    /// The app on a slow phone.
    Phone {
        /// How many entries a steward's has.
        entries: u32,
    },
    /// The app beside the same screens in a small JavaScript framework.
    Beside,
    /// What the app does while nobody touches it.
    Battery {
        /// For how long each is watched.
        minutes: u32,
    },
    /// The reader of codes: in the camera of a slow phone, and beside `ZBar`.
    Codes,
    /// The hub under the load of many phones.
    Hub {
        /// One part alone.
        part: Option<Part>,
    },
    /// What a phone does, at many sizes.
    Growth,
    /// Whether the hub is still as quick beside its peer as when that was last kept.
    Check,
    /// The hub beside `PouchDB` and its server.
    Sync {
        /// How often each.
        runs: u32,
    },
}

/// So many entries a steward's phone has, unless told otherwise.
pub(crate) const ENTRIES: u32 = 20_000;
/// For so long a phone is watched in each state, unless told otherwise.
pub(crate) const MINUTES: u32 = 3;
/// How often each side runs, unless told otherwise.
pub(crate) const RUNS: u32 = 10;

/// Times it and prints.
pub(crate) fn run(bench: &Bench) -> Result<()> {
    match bench {
        Bench::Rules { filter } => rules::run(filter.as_deref()),
        Bench::Phone { entries } => run_program(browser::node()?.arg("speed.js").arg(entries.to_string())),
        Bench::Beside => run_program(browser::node()?.arg("beside.js")),
        Bench::Battery { minutes } => run_program(browser::node()?.arg("battery.js").arg(minutes.to_string())),
        Bench::Codes => codes(),
        Bench::Growth => growth::run(),
        Bench::Sync { runs } => sync::run(*runs).map(drop),
        Bench::Hub { part } => hub::run(*part),
        Bench::Check => kept::check(&sync::run(RUNS)?),
    }
}

fn codes() -> Result<()> {
    run_program(browser::node()?.arg("scanning.js"))?;
    run_program(program("cargo").args(["run", "--quiet", "--release", "--package", "tests", "--example", "codes"]))
}
