//! `cargo xtask <command>`: one file per command.
//!
//! What builds, bundles, serves and tests Sweepbell on a machine that has Rust and little else. Every step says
//! what it does and how long it took; a missing piece ends in one line that says how to get it, and exit code 1.
//! Nothing here is part of the product: no rule, and nothing that a phone or the hub runs.

mod flags;
mod program;
mod root;
mod steps;

mod debian;
mod toolchain;

mod bench;
mod browser;
mod bundle;
mod coverage;
mod crash;
mod describe;
mod figures;
mod fuzz;
mod hub;
mod lighthouse;
mod npm;
mod parity;
mod postgres;
mod python;
mod serve;
mod simulate;
mod test;
mod tidy;

use std::process::ExitCode;

use anyhow::Result;

use crate::flags::Flags;

fn main() -> ExitCode {
    let flags = match Flags::parse(std::env::args().skip(1)) {
        Ok(flags) => flags,
        Err(wrong) => {
            eprintln!("{wrong}\n\n{}", flags::HELP);
            return ExitCode::from(2);
        }
    };
    match run(flags) {
        Ok(()) => ExitCode::SUCCESS,
        Err(missing) => {
            eprintln!("error: {missing:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(flags: Flags) -> Result<()> {
    match flags {
        Flags::Help => {
            println!("{}", flags::HELP);
            Ok(())
        }
        Flags::Bundle { build } => bundle::run(build).map(drop),
        Flags::Weigh { name } => bundle::weight::run(name.as_deref()),
        Flags::Serve { build, hub } => serve::run(build, &hub),
        Flags::Test { only } => test::run(only.as_deref()),
        Flags::Browser { runner } => browser::run(&runner).map(drop),
        Flags::Lighthouse => lighthouse::run(),
        Flags::Pictures => browser::pictures(),
        Flags::Parity => parity::run().map(drop),
        Flags::Postgres { command } => postgres::run(&command),
        Flags::Describe => describe::run(),
        Flags::Figures => figures::run(),
        Flags::Crash { kills } => crash::run(kills),
        Flags::Simulate { what } => simulate::run(&what),
        Flags::Bench(what) => bench::run(&what),
        Flags::Coverage => coverage::run(),
        Flags::Fuzz { target, seconds } => fuzz::run(&target, seconds),
        Flags::Tidy => tidy::run().map(drop),
    }
}
