//! `cargo xtask fuzz TARGET [SECONDS]`: looks for bytes that break a property of `tests/properties`.
//!
//! libFuzzer (the crate `libfuzzer-sys`) with coverage counted by the stable compiler: what is asked of it here are
//! LLVM's own options. Begins with `tests/data/fuzzed/<target>`, and goes on from what earlier runs learned, which is
//! kept in the target directory. An input that breaks something is written there too, and the command fails.
//!
//! Needs a C++ compiler. Whoever mends what was found keeps the input: see DEVELOPERS.md.

use std::fs;

use anyhow::{Context, Result};

use crate::debian;
use crate::program::{answer, program, run as run_program};
use crate::root::{root, target};
use crate::steps::step;

/// How long it looks unless told otherwise, in seconds.
pub(crate) const SECONDS: u32 = 600;

/// Each edge of the control flow is counted, and each comparison told to the fuzzer. `fuzzing` is the name by which
/// crates everywhere know that they are fuzzed; nothing of this repository asks for it.
const COVERAGE: &str = "--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares -Ccodegen-units=1";

/// Looks for so long; an error if something was found.
pub(crate) fn run(name: &str, seconds: u32) -> Result<()> {
    debian::need(&["c++"], &["g++"])?;
    let about = answer(program("rustc").arg("-vV")).context("rustc cannot be started")?;
    let host = about.lines().find_map(|line| line.strip_prefix("host: ")).context("rustc names no host")?;
    let home = target().join("fuzz");
    step(&format!("building the fuzz target {name}"), || {
        let mut cargo = program("cargo");
        // For a named target, so that build scripts and macros are not counted along.
        cargo.args(["build", "--release", "--manifest-path", "tests/fuzz/Cargo.toml", "--bin", name, "--target", host]);
        run_program(cargo.env("RUSTFLAGS", COVERAGE).arg("--target-dir").arg(&home))
    })?;
    let (learned, found) = (home.join("learned").join(name), home.join("found").join(name));
    for folder in [&learned, &found] {
        fs::create_dir_all(folder).with_context(|| format!("{} cannot be made", folder.display()))?;
    }
    step(&format!("looking for {seconds} s; what breaks is written to {}", found.display()), || {
        let mut fuzzer = program(home.join(host).join("release").join(name));
        fuzzer.arg(&learned).arg(root().join("tests/data/fuzzed").join(name));
        fuzzer.args(["-timeout=20", "-rss_limit_mb=2048", "-print_final_stats=1", "-verbosity=1"]);
        fuzzer.arg(format!("-max_total_time={seconds}")).arg(format!("-artifact_prefix={}/", found.display()));
        run_program(&mut fuzzer)
    })
}
