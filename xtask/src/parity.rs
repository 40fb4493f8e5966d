//! `cargo xtask parity`: the rules say the same bytes on wasm32 as on this machine.
//!
//! The evenings of `tests/parity.rs` are lived on both: by a module that Node.js runs, compiled as the app is, and by
//! a native program. Where they differ the first differing line of each is shown.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail, ensure};

use crate::debian;
use crate::program::{Tally, program, run as run_program};
use crate::root::{target, web_target};
use crate::steps::step;
use crate::toolchain::{TARGET, Toolchain};

/// How many evenings are compared.
const SEEDS: u32 = 40;

/// Compares; each evening counts as one test.
pub(crate) fn run() -> Result<Tally> {
    let toolchain = Toolchain::find()?;
    debian::need(&["node"], &["nodejs"])?;
    let here = step("living the evenings here", || {
        let mut evenings = program("cargo");
        evenings.args(["run", "--quiet", "--package", "tests", "--example", "evenings", "--", &SEEDS.to_string()]);
        let output = evenings.output().context("cargo cannot be started")?;
        ensure!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        Ok(output.stdout)
    })?;
    let module = wasm_module(toolchain)?;
    let there = step("living the evenings on wasm32", || wasm_evenings(&module, &target().join("evenings.txt")))?;
    ensure!(here.len() > 10_000, "the evenings hold nothing");
    if let Some((number, one, other)) = first_difference(&here, &there) {
        bail!("line {number} differs\n  here:   {one}\n  wasm32: {other}");
    }
    println!("  {SEEDS} evenings, {} bytes, the same on both", here.len());
    Ok(Tally { passed: SEEDS, failed: 0 })
}

/// Compiles `tests/parity.rs` and says where the module is.
pub(crate) fn wasm_module(toolchain: Toolchain) -> Result<PathBuf> {
    let folder = web_target().join("evenings");
    step(&format!("compiling the rules to WebAssembly ({})", toolchain.name()), || {
        let library = ["--package", "tests", "--lib", "--profile", "web", "--crate-type", "cdylib"];
        let mut cargo = toolchain.cargo("rustc");
        // The evenings are told by `Debug`, which the app's own build leaves blank: flags and folder of their own.
        cargo.env_remove("RUSTFLAGS").env("CARGO_TARGET_DIR", &folder);
        run_program(cargo.args(library))
    })?;
    Ok(folder.join(TARGET).join("web/tests.wasm"))
}

fn wasm_evenings(module: &Path, out: &Path) -> Result<Vec<u8>> {
    let mut node = program("node");
    run_program(node.arg("tests/examples/evenings.mjs").arg(module).arg(SEEDS.to_string()).arg(out))?;
    fs::read(out).with_context(|| format!("{} cannot be read", out.display()))
}

/// The first line that differs, from 1, with both its forms.
fn first_difference(here: &[u8], there: &[u8]) -> Option<(usize, String, String)> {
    if here == there {
        return None;
    }
    let mut pairs = (here.split(|b| *b == b'\n'), there.split(|b| *b == b'\n'));
    for number in 1.. {
        let (one, other) = (pairs.0.next(), pairs.1.next());
        if one != other {
            let shown =
                |line: Option<&[u8]>| line.map_or("the end".into(), |line| String::from_utf8_lossy(line).into());
            return Some((number, shown(one), shown(other)));
        }
        if one.is_none() {
            break;
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_is_found_where_it_is() {
        for (here, there, found) in [
            ("a\nb\n", "a\nb\n", None),
            ("a\nb\n", "a\nc\n", Some((2, "b", "c"))),
            ("a\n", "a\nb", Some((2, "", "b"))),
            ("a", "a\nb", Some((2, "the end", "b"))),
        ] {
            let found = found.map(|(number, one, other)| (number, one.to_owned(), other.to_owned()));
            assert_eq!(first_difference(here.as_bytes(), there.as_bytes()), found, "{here:?} {there:?}");
        }
    }
}
