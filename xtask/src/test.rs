//! `cargo xtask test`: everything, in an order that fails early and builds each thing once.
//!
//! A failed step does not stop the later ones: one run tells all. The last line is `N passed, N failed`, in tests
//! where a step counts them and in steps where it does not.

use std::time::{Duration, Instant};

use anyhow::{Result, bail};

use crate::bundle::{self, Build};
use crate::postgres::{ADDRESS, Postgres};
use crate::program::{Tally, answer, counted, program, run as run_program};
use crate::steps::seconds;
use crate::{browser, describe, figures, parity, tidy};

/// A step: what it is called and what it does.
type Step = (&'static str, fn() -> Result<Tally>);

const STEPS: &[Step] = &[
    ("format", format),
    ("tidy", tidy::run),
    ("clippy", clippy),
    ("tests", tests),
    ("describe", described),
    ("figures", figured),
    ("bundle", bundled),
    ("parity", parity::run),
    ("browser", in_browser),
];

/// Runs all steps, or the one of that name; an error if anything failed.
pub(crate) fn run(only: Option<&str>) -> Result<()> {
    let began = Instant::now();
    let chosen: Vec<&Step> = STEPS.iter().filter(|(name, _)| only.is_none_or(|only| only == *name)).collect();
    if chosen.is_empty() {
        let names: Vec<_> = STEPS.iter().map(|(name, _)| *name).collect();
        bail!("there is no such step; there are {}", names.join(", "));
    }
    let done: Vec<_> = chosen.iter().map(|(name, act)| (*name, one(name, *act))).collect();
    println!();
    for (name, (tally, took)) in &done {
        let Tally { passed, failed } = tally;
        println!("{name:<10} {passed:>5} passed {failed:>5} failed {:>14}", seconds(*took));
    }
    println!("{:<10} {:>40}", "in all", seconds(began.elapsed()));
    let sum = |count: fn(&Tally) -> u32| done.iter().map(|(_, (tally, _))| count(tally)).sum::<u32>();
    let (passed, failed) = (sum(|tally| tally.passed), sum(|tally| tally.failed));
    println!("{passed} passed, {failed} failed");
    if failed > 0 {
        bail!("not everything passed");
    }
    Ok(())
}

fn one(name: &str, act: fn() -> Result<Tally>) -> (Tally, Duration) {
    println!("\n=== {name}");
    let began = Instant::now();
    let tally = act().unwrap_or_else(|why| {
        println!("error: {why:#}");
        Tally { passed: 0, failed: 1 }
    });
    (tally, began.elapsed())
}

fn format() -> Result<Tally> {
    component("fmt", "rustfmt")?;
    run_program(program("cargo").args(["fmt", "--all", "--", "--check"]))?;
    Ok(Tally::ONE)
}

fn clippy() -> Result<Tally> {
    component("clippy", "clippy")?;
    let all = ["--workspace", "--all-targets", "--all-features", "--quiet", "--", "-D", "warnings"];
    run_program(program("cargo").arg("clippy").args(all))?;
    Ok(Tally::ONE)
}

/// Everything that runs without a browser, with a PostgreSQL server beside it. What the app does beyond its views is tested here too.
fn tests() -> Result<Tally> {
    let server = Postgres::start()?;
    let mut cargo = program("cargo");
    counted(cargo.args(["test", "--workspace", "--quiet", "--no-fail-fast"]).env(ADDRESS, server.address()))
}

fn described() -> Result<Tally> {
    describe::run()?;
    Ok(Tally::ONE)
}

fn figured() -> Result<Tally> {
    figures::run()?;
    Ok(Tally::ONE)
}

fn bundled() -> Result<Tally> {
    bundle::run(Build::Release)?;
    Ok(Tally::ONE)
}

fn in_browser() -> Result<Tally> {
    browser::run(&[])
}

/// A part of the toolchain that a minimal install lacks.
fn component(subcommand: &str, name: &str) -> Result<()> {
    if answer(program("cargo").args([subcommand, "--version"])).is_none() {
        bail!("`cargo {subcommand}` is missing: run `rustup component add {name}`");
    }
    Ok(())
}
