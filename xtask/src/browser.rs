//! `cargo xtask browser`: the tests that need a real browser.
//!
//! Installs what they run on (Node.js, Chromium, readers of printed codes and of PDF, the packages of the lock file), builds
//! app and hub, and hands the runner their places.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result};
use words::Book;

use crate::bundle::{self, Build};
use crate::program::{Tally, counted, program, run as run_program};
use crate::root::{root, target};
use crate::{debian, hub, npm};

/// Programs that must be there, with the Debian package that has each.
const NEEDED: &[(&str, &str)] = &[
    ("node", "nodejs"),
    ("npm", "npm"),
    ("chromium", "chromium"),
    ("zbarimg", "zbar-tools"),
    ("pdftoppm", "poppler-utils"),
];

/// The two kinds of tests (playwright.config.js), and how many of each run at once: what looks at screens waits for no clock.
const KINDS: [(&str, &str); 2] = [("--project=looks", "--workers=2"), ("--project=acts", "--workers=2")];

/// Runs the tests, each kind after the other; `words` go to the runner, which then picks by itself.
pub(crate) fn run(words: &[String]) -> Result<Tally> {
    let runner = || -> Result<Command> {
        let mut runner = node()?;
        runner.arg("node_modules/@playwright/test/cli.js").arg("test");
        Ok(runner)
    };
    if !words.is_empty() {
        return counted(runner()?.args(words));
    }
    let mut all = Tally::default();
    for (kind, workers) in KINDS {
        let Tally { passed, failed } = counted(runner()?.args([kind, workers]))?;
        all = Tally { passed: all.passed + passed, failed: all.failed + failed };
    }
    Ok(all)
}

/// Makes the README's pictures anew, in the tree.
pub(crate) fn pictures() -> Result<()> {
    let mut runner = node()?;
    runner.args(["node_modules/@playwright/test/cli.js", "test", "pictures"]).env("PICTURES", "1");
    run_program(&mut runner)
}

/// Builds what is looked at in a browser, and returns what runs a script of `tests/browser` on it.
pub(crate) fn node() -> Result<Command> {
    let dist = bundle::run(Build::Release)?;
    let gallery = bundle::run(Build::Gallery)?;
    let sweepbell = hub::build()?;
    for (name, package) in NEEDED {
        debian::need(&[name], &[package])?;
    }
    let folder = root().join("tests/browser");
    npm::install("tests/browser")?;
    let mut node = program("node");
    node.current_dir(folder).env("SWEEPBELL_BIN", sweepbell).env("SWEEPBELL_DIST", dist);
    // Hubs under test keep their own files, whatever database the person's own hub has.
    node.env_remove("SWEEPBELL_DATABASE");
    node.env("SWEEPBELL_PSEUDO", pseudo()?);
    node.env("SWEEPBELL_GALLERY", gallery);
    Ok(node)
}

/// Writes the catalogue that no bundle holds, and returns where it is.
fn pseudo() -> Result<PathBuf> {
    let file = target().join("pseudo.txt");
    let book = Book::open().context("the words cannot be read")?;
    fs::write(&file, book.pseudo()).with_context(|| format!("{} cannot be written", file.display()))?;
    Ok(file)
}
