//! `cargo xtask bundle`: the app, as the hub serves it and a phone keeps it.
//!
//! Compiled to wasm32, bound to JavaScript, shrunk; every file but the few that must keep their names is named by
//! its content, so that it may be cached for ever; the service worker is told which files make up this build. When
//! no input changed nothing is done. Nothing is edited by hand in `dist/`: it is made whole, then put in place.

mod graph;
mod linked;
mod names;
mod order;
mod references;
mod scripts;
mod site;
mod sizes;
mod sources;
mod split;
mod stamp;
mod styles;
mod unused;
mod wasm;
pub(crate) mod weight;
mod whole;

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use crate::root::{dist, web_target};
use crate::steps::step;
use crate::toolchain::Toolchain;

/// Which build.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Build {
    /// What phones download: small, slow to build.
    Release,
    /// For the inner loop: quick to build, several times the size, not held to the budget.
    Dev,
    /// The page of all parts, for the browser tests: compiled like a release, neither shrunk nor held to the budget.
    Gallery,
}

impl Build {
    /// Where it goes.
    fn folder(self) -> PathBuf {
        match self {
            Self::Release | Self::Dev => dist(),
            Self::Gallery => web_target().join("gallery"),
        }
    }
}

/// Builds the app's files if their inputs changed, and returns where they are.
pub(crate) fn run(build: Build) -> Result<PathBuf> {
    let dist = build.folder();
    let inputs = stamp::inputs(build)?;
    if stamp::holds(&dist, &inputs) {
        println!("- the bundle is up to date");
        return Ok(dist);
    }
    let toolchain = Toolchain::find()?;
    let module =
        step(&format!("compiling the app to WebAssembly ({})", toolchain.name()), || wasm::compile(toolchain, build))?;
    let glue = web_target().join("glue");
    step("binding it to JavaScript", || wasm::bind(&module, &glue, build))?;
    if build == Build::Release {
        wasm::need_optimiser()?;
        step("shrinking it", || wasm::shrink(&module, &glue))?;
    }
    step("compiling the reader of codes", || wasm::reader(toolchain, build, &glue))?;
    let mut files = sources::gather(&glue, build)?;
    if build == Build::Release {
        scripts::join(&mut files)?;
        names::lean(&mut files)?;
        styles::join(&mut files)?;
    }
    let site = step("naming files by their content", || site::assemble(&files))?;
    let copies = match build {
        Build::Release => step("compressing", || Ok(sizes::compress(&site)))?,
        Build::Dev | Build::Gallery => Vec::new(),
    };
    let made = dist.with_extension("new");
    write(&made, site.iter().chain(copies.iter().flat_map(sizes::Copies::files)))?;
    if build == Build::Release {
        print!("{}", sizes::table(&copies, toolchain));
        sizes::check_budget(&copies, toolchain)?;
    }
    stamp::put(&made, &inputs)?;
    put_in_place(&made, &dist)?;
    Ok(dist)
}

fn write<'a>(folder: &Path, files: impl Iterator<Item = (&'a String, &'a Vec<u8>)>) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder).with_context(|| format!("{} cannot be emptied", folder.display()))?;
    }
    for (path, bytes) in files {
        let file = folder.join(path.trim_start_matches('/'));
        if let Some(parent) = file.parent() {
            fs::create_dir_all(parent).with_context(|| format!("{} cannot be made", parent.display()))?;
        }
        fs::write(&file, bytes).with_context(|| format!("{} cannot be written", file.display()))?;
    }
    Ok(())
}

/// Swaps the finished folder in, so that a running hub never serves half of one.
fn put_in_place(made: &Path, dist: &Path) -> Result<()> {
    let old = dist.with_extension("old");
    if old.exists() {
        fs::remove_dir_all(&old)?;
    }
    if dist.exists() {
        fs::rename(dist, &old)?;
    }
    fs::rename(made, dist).with_context(|| format!("{} cannot be put in place", dist.display()))?;
    if old.exists() {
        fs::remove_dir_all(&old)?;
    }
    Ok(())
}
