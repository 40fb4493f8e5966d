//! `cargo xtask serve`: from a fresh clone to a shop that phones can join.
//!
//! Bundles the app and builds the hub, both at once, and becomes the hub, which says its address, its join code and a code to scan.

use anyhow::{Context, Result, bail};

use crate::bundle::{self, Build};
use crate::hub;
use crate::program::program;

/// Serves the demo shop, or the one that the passed words name.
pub(crate) fn run(build: Build, words: &[String]) -> Result<()> {
    // Each keeps one core busy for most of its time, and they share no folder.
    let (dist, binary) = std::thread::scope(|both| {
        let hub = both.spawn(hub::build);
        (bundle::run(build), hub.join().unwrap_or_else(|_| bail!("building the hub was broken off")))
    });
    let (dist, binary) = (dist?, binary?);
    println!("- starting the hub; Ctrl-C stops it\n");
    let mut command = program(binary);
    // Files that a person names are meant from where they stand.
    command.current_dir(std::env::current_dir().context("there is no current folder")?);
    command.arg("serve").arg("--dist").arg(dist).args(words);
    become_it(command)
}

#[cfg(unix)]
fn become_it(mut command: std::process::Command) -> Result<()> {
    use std::os::unix::process::CommandExt as _;
    Err(command.exec()).context("the hub cannot be started")
}

#[cfg(not(unix))]
fn become_it(mut command: std::process::Command) -> Result<()> {
    crate::program::run(&mut command)
}
