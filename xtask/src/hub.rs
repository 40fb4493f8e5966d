//! Building the hub, and where its program is.
//!
//! Built as the tests build it: with checks of arithmetic, its dependencies optimised. That shares every compiled
//! dependency with `cargo xtask test`.

use std::path::PathBuf;

use anyhow::{Result, ensure};

use crate::program::{program, run};
use crate::root::target;
use crate::steps::step;

/// Builds the `sweepbell` command and returns where it is.
pub(crate) fn build() -> Result<PathBuf> {
    step("building the hub", || run(program("cargo").args(["build", "--quiet", "--package", "hub"])))?;
    let binary = target().join("debug").join(format!("sweepbell{}", std::env::consts::EXE_SUFFIX));
    ensure!(binary.is_file(), "{} is not there after building the hub", binary.display());
    Ok(binary)
}
