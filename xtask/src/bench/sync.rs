//! `cargo xtask bench --sync`: 10,000 entries from 50 phones into the hub and out to readers, beside `PouchDB` replicating the
//! same documents to the server of its protocol that npm has: general-purpose, what a web developer would take instead.
//!
//! Sides take turns, so that a busy minute meets all of them. The peer signs and chains nothing and keeps trees of
//! revisions, which the hub does not. It never forces a write to the disk, the hub each commit: so it runs as it ships, made to
//! force its writes too, and both on a disk of memory, where there is nothing to force. Bytes are counted in a run of their own.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use super::sides::{Built, Ran, Side, run as run_side};
use super::table::{ACTS, Spread, compare, print};
use crate::program::{answer, program, run as run_program};
use crate::root::target;
use crate::steps::step;
use crate::{debian, npm};

/// A disk of memory, as Linux has it.
const MEMORY: &str = "/dev/shm";

/// What runs, where, and how it is called in the table.
const SERIES: [(Side, bool, &str); 5] = [
    (Side::Hub, false, "hub, disk, every commit forced"),
    (Side::PeerForced, false, "peer, disk, every write forced"),
    (Side::Peer, false, "peer, disk, nothing forced"),
    (Side::Hub, true, "hub, disk of memory"),
    (Side::Peer, true, "peer, disk of memory"),
];

/// Builds both sides, runs each `runs` times, prints what came of it. Returns how many times as quick as the peer the hub was, both
/// forced to the disk, act by act.
pub(crate) fn run(runs: u32) -> Result<Vec<f64>> {
    let built = build()?;
    let curve = Spread::of((0..runs).map(|_| curve(&built)).collect::<Result<Vec<_>>>()?.into_iter());
    let acts: Vec<&str> = ACTS.iter().map(|(act, ..)| *act).collect();
    let mut ran: Vec<Vec<Ran>> = SERIES.iter().map(|_| Vec::new()).collect();
    for nth in 1..=runs {
        step(&format!("run {nth} of {runs} of each"), || {
            for ((side, in_memory, _), ran) in SERIES.iter().zip(&mut ran) {
                ran.push(run_side(*side, &built, &folder(*in_memory), &acts, false)?);
            }
            Ok(())
        })?;
    }
    let counted = |side| run_side(side, &built, &folder(false), &acts, true);
    let (hub, peer) = (counted(Side::Hub)?, counted(Side::Peer)?);
    for ((side, _, name), ran) in SERIES.iter().zip(&ran) {
        print(name, ran, Some(if *side == Side::Hub { &hub } else { &peer }));
    }
    let forced = compare("both forced to the disk", &ran[0], &ran[1]);
    compare("each as it ships", &ran[0], &ran[2]);
    compare("both on a disk of memory", &ran[3], &ran[4]);
    println!(
        "\nbare verification of ed25519 on one core: {:.0} a second ({:.0}-{:.0})",
        curve.median, curve.least, curve.most
    );
    Ok(forced)
}

/// Optimised, as a release is.
fn build() -> Result<Built> {
    debian::need(&["node"], &["nodejs"])?;
    debian::need(&["npm"], &["npm"])?;
    npm::install("tests/side_by_side")?;
    step("building hub and phones, optimised", || {
        run_program(program("cargo").args(["build", "--quiet", "--release", "--package", "hub"]))?;
        let mut phones = program("cargo");
        phones.args(["build", "--quiet", "--release", "--package", "tests", "--features", "fast-curve"]);
        run_program(phones.args(["--example", "side_by_side"]))
    })?;
    let (release, end) = (target().join("release"), std::env::consts::EXE_SUFFIX);
    let sweepbell = release.join(format!("sweepbell{end}"));
    let phones = release.join("examples").join(format!("side_by_side{end}"));
    let documents = target().join("documents.jsonl");
    let said = answer(program(&phones).arg("documents")).context("the phones have nothing to say")?;
    fs::write(&documents, said)?;
    Ok(Built { sweepbell, phones, documents })
}

fn curve(built: &Built) -> Result<f64> {
    let said = answer(program(&built.phones).arg("curve")).context("the curve is not timed")?;
    said.trim().strip_prefix("curve ").and_then(|rate| rate.parse().ok()).context("no number")
}

fn folder(in_memory: bool) -> PathBuf {
    let parent = if in_memory { Path::new(MEMORY).to_path_buf() } else { target() };
    parent.join(format!("side-by-side-{}", std::process::id()))
}
