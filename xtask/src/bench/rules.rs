//! `cargo xtask bench [FILTER]`: how fast the rules are, here and on wasm32.
//!
//! Here criterion times `tests/benches/rules`; on wasm32 the module of `tests/parity.rs` is timed under Node.js,
//! compiled as the app is. That is no phone and no browser, only the same engine as one of theirs.

use anyhow::Result;

use crate::debian;
use crate::parity;
use crate::program::{program, run as run_program};
use crate::steps::step;
use crate::toolchain::Toolchain;

/// Times what the filter matches (a part of a name), or all of it and wasm32 too.
pub(crate) fn run(filter: Option<&str>) -> Result<()> {
    let mut cargo = program("cargo");
    cargo.args(["bench", "--quiet", "--package", "tests", "--bench", "rules", "--"]);
    step("timing the rules here", || run_program(cargo.args(filter)))?;
    if filter.is_some() {
        return Ok(());
    }
    debian::need(&["node"], &["nodejs"])?;
    let module = parity::wasm_module(Toolchain::find()?)?;
    step("timing the rules on wasm32, under Node.js", || {
        run_program(program("node").arg("tests/examples/timed.mjs").arg(module))
    })
}
