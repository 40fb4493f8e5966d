//! `cargo xtask test`: everything, in an order that fails early and builds each thing once.
//!
//! A failed step does not stop the later ones: one run tells all. The last line is `N passed, N failed`, in tests
//! where a step counts them and in steps where it does not. Steps that mostly wait go on beside the later ones, and what they said is
//! printed when they are over.

use std::fs::File;
use std::num::NonZero;
use std::path::PathBuf;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant, SystemTime};

use anyhow::{Context, Result, bail};

use crate::bundle::{self, Build};
use crate::postgres::{ADDRESS, Postgres};
use crate::program::{Tally, answer, counted, program, run as run_program};
use crate::root::target;
use crate::steps::seconds;
use crate::{browser, describe, figures, parity, simulate, tidy};

/// A step: what it is called, when, and what it does.
type Step = (&'static str, When, fn() -> Result<Tally>);

/// When a step is done, in a run of all.
#[derive(Clone, Copy, PartialEq, Eq)]
enum When {
    /// By itself.
    Alone,
    /// From then on, beside the later ones.
    Beside,
}

const STEPS: &[Step] = &[
    ("format", When::Alone, format),
    ("tidy", When::Alone, tidy::run),
    ("clippy", When::Alone, clippy),
    // It waits between its requests for most of its time, as the hub's tests do between theirs.
    ("describe", When::Beside, described),
    ("tests", When::Alone, tests),
    ("simulation", When::Alone, simulate::fixed),
    ("figures", When::Alone, figured),
    ("bundle", When::Alone, bundled),
    ("parity", When::Alone, parity::run),
    ("browser", When::Alone, in_browser),
];

/// How many tests of one program go on at once on each core: those of the hub wait for most of their time, for answers and for clocks.
const TESTS_PER_CORE: usize = 3;

/// Runs all steps, or the one of that name; an error if anything failed.
pub(crate) fn run(only: Option<&str>) -> Result<()> {
    let began = Instant::now();
    let chosen: Vec<&Step> = STEPS.iter().filter(|(name, ..)| only.is_none_or(|only| only == *name)).collect();
    if chosen.is_empty() {
        let names: Vec<_> = STEPS.iter().map(|(name, ..)| *name).collect();
        bail!("there is no such step; there are {}", names.join(", "));
    }
    let (mut done, mut beside) = (Vec::new(), Vec::new());
    for (name, when, act) in chosen {
        match when {
            When::Beside if only.is_none() => beside.push(Beside::begin(name)?),
            _ => done.push((*name, one(name, *act))),
        }
    }
    done.extend(beside.into_iter().map(Beside::ended));
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

/// A step in a process of its own.
struct Beside {
    name: &'static str,
    child: Child,
    said: PathBuf,
    began: SystemTime,
}

impl Beside {
    fn begin(name: &'static str) -> Result<Self> {
        let said = target().join(format!("{name}.said"));
        let file = File::create(&said).with_context(|| format!("{} cannot be written", said.display()))?;
        let mut step = std::process::Command::new(std::env::current_exe().context("this program has no file")?);
        step.args(["test", "--only", name]).stdin(Stdio::null()).stdout(file.try_clone()?).stderr(file);
        let child = step.spawn().with_context(|| format!("{name} does not start"))?;
        println!("\n=== {name}: from now on, beside the rest");
        Ok(Self { name, child, said, began: SystemTime::now() })
    }

    /// Waits for its end, and prints what it said.
    fn ended(mut self) -> (&'static str, (Tally, Duration)) {
        let ended_well = self.child.wait().is_ok_and(|status| status.success());
        // It may have been over long before: it took as long as it had something to say.
        let last = std::fs::metadata(&self.said).and_then(|said| said.modified()).unwrap_or(self.began);
        let took = last.duration_since(self.began).unwrap_or_default();
        let said = std::fs::read_to_string(&self.said).unwrap_or_default();
        // Its own count, which comes last, is part of that of all.
        println!("{}", said.rsplit_once("\n\n").map_or(said.as_str(), |(said, _)| said));
        let tally = if ended_well { Tally::ONE } else { Tally { passed: 0, failed: 1 } };
        (self.name, (tally, took))
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        // It may be over already, which is all that is wanted.
        let _ = self.child.kill();
    }
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
    cargo.args(["test", "--workspace", "--quiet", "--no-fail-fast"]).env(ADDRESS, server.address());
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    counted(cargo.env("RUST_TEST_THREADS", (TESTS_PER_CORE * cores).to_string()))
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
