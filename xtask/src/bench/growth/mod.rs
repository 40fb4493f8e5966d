//! `cargo xtask bench --growth`: cost against size, fitted, judged, and drawn for DEVELOPERS.md.
//!
//! `tests/growth` times; here a slope is fitted to each curve on the log-log plane, over the upper half of the sizes: there it is the
//! power with which the cost grows. What a phone does may grow with its size (1) and no worse; a touch may not grow with the log at
//! all (0). What is over that, beyond noise, fails.

mod fit;
mod plot;

use std::fs;

use anyhow::{Context, Result, bail, ensure};

use self::fit::{Curve, slope};
use crate::program::{answer, program};
use crate::root::root;
use crate::steps::step;

/// A slope that is no growth, and one that is no worse than linear; what is above them is not noise.
const FLAT: f64 = 0.1;
const LINEAR: f64 = 1.1;
/// What is known to be over that, against what, how steep it may be, and why: faults that are not mended yet.
const KNOWN: [(&str, &str, f64, &str); 1] = [(
    "people",
    "members",
    1.4,
    "one walk through all members: linear, until they no longer fit the processor's cache",
)];
/// Where the pictures are, from the root.
const PICTURES: &str = "tests/growth";

/// Times, prints the slopes, draws, and fails where something grows that must not.
pub(crate) fn run() -> Result<()> {
    let said = step("timing what a phone does, at many sizes", || {
        let mut cargo = program("cargo");
        answer(cargo.args(["bench", "--quiet", "--package", "tests", "--bench", "growth"])).context("nothing is timed")
    })?;
    let curves = Curve::read(&said)?;
    ensure!(!curves.is_empty(), "nothing was timed");
    let mut worse = Vec::new();
    println!("\n{:<16}{:<28}{:>12}{:>12}{:>8}{:>8}", "against", "what", "least", "most", "slope", "limit");
    for curve in curves.iter().filter(|curve| curve.kind != "memory") {
        let (slope, limit) = (slope(&curve.points), limit(curve));
        let over = slope > limit;
        println!(
            "{:<16}{:<28}{:>12}{:>12}{slope:>8.2}{limit:>8.1}{}",
            curve.dimension,
            curve.name,
            plot::time(curve.points.first().map_or(0.0, |(_, took)| *took)),
            plot::time(curve.points.last().map_or(0.0, |(_, took)| *took)),
            if over { "  worse" } else { "" }
        );
        if over {
            worse.push(format!("{} against {}: {slope:.2}", curve.name, curve.dimension));
        }
    }
    for curve in curves.iter().filter(|curve| curve.kind == "memory") {
        for (entries, bytes) in &curve.points {
            println!("memory for every 1,000 entries, of {entries:.0}: {}, {:.0} KB", curve.name, bytes / 1_000.0);
        }
    }
    for (name, dimension, _, why) in KNOWN {
        println!("known: {name} against {dimension}: {why}");
    }
    for (name, picture) in plot::pictures(&curves) {
        fs::write(root().join(PICTURES).join(name), picture)?;
    }
    if worse.is_empty() { Ok(()) } else { bail!("grows worse than it may: {}", worse.join("; ")) }
}

/// What a slope must not be over.
fn limit(curve: &Curve) -> f64 {
    let known = KNOWN.iter().find(|(name, dimension, ..)| curve.name == *name && curve.dimension == *dimension);
    if let Some((_, _, limit, _)) = known {
        return *limit;
    }
    if curve.kind == "tap" && curve.dimension == "entries" { FLAT } else { LINEAR }
}
