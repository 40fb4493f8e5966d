//! The module itself: compiled, bound to JavaScript, shrunk.
//!
//! `wasm-bindgen` runs as a library of the version that the app is built with, so that the two cannot disagree.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use super::Build;
use crate::debian;
use crate::program::{program, run};
use crate::root::web_target;
use crate::toolchain::{TARGET, Toolchain};

/// What the compiler may have used, which the optimiser is to be told: older ones refuse what they are not told of.
const FEATURES: &[&str] = &[
    "--enable-bulk-memory",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// Compiles the app and returns where the module is.
pub(super) fn compile(toolchain: Toolchain, build: Build) -> Result<PathBuf> {
    let profile = match build {
        Build::Release => "web",
        Build::Dev => "web-dev",
    };
    run(toolchain.cargo("build").args(["--package", "app", "--profile", profile]))?;
    Ok(web_target().join(TARGET).join(profile).join("app.wasm"))
}

/// Writes `app.js`, `app_bg.wasm` and the snippets of the crates into an emptied folder.
pub(super) fn bind(module: &Path, glue: &Path, build: Build) -> Result<()> {
    if glue.exists() {
        fs::remove_dir_all(glue)?;
    }
    let mut bindgen = Bindgen::new();
    bindgen.input_path(module).web(true)?.out_name("app").typescript(false).remove_producers_section(true);
    // Names of functions make a developer's traces readable and a phone's download larger.
    bindgen.remove_name_section(build == Build::Release);
    bindgen.generate(glue).context("the module cannot be bound to JavaScript")
}

/// Makes sure that the optimiser is there.
pub(super) fn need_optimiser() -> Result<()> {
    debian::need(&["wasm-opt"], &["binaryen"])
}

/// Makes the bound module as small as the optimiser can, in place.
pub(super) fn shrink(glue: &Path) -> Result<()> {
    let (bound, small) = (glue.join("app_bg.wasm"), glue.join("small.wasm"));
    run(program("wasm-opt").arg("-Oz").args(FEATURES).arg(&bound).arg("-o").arg(&small))?;
    fs::rename(&small, &bound)?;
    Ok(())
}
