//! `cargo xtask lighthouse`: how quickly the app opens on a slow phone, and what the browser's own auditor asks of it.
//!
//! Not a step of `cargo xtask test`: whatever else the machine does goes into its numbers.

use anyhow::Result;

use crate::browser;
use crate::program::run as run_program;

/// Builds what is looked at, prints the table, and fails where a category is under its least.
pub(crate) fn run() -> Result<()> {
    run_program(browser::node()?.arg("lighthouse.js"))
}
