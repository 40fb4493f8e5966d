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

/// The runner of the tests, from their folder.
const RUNNER: &str = "node_modules/@playwright/test/cli.js";

/// Programs that must be there, with the Debian package that has each.
const NEEDED: &[(&str, &str)] = &[
    ("node", "nodejs"),
    ("npm", "npm"),
    ("chromium", "chromium"),
    ("chromium-headless-shell", "chromium-headless-shell"),
    ("zbarimg", "zbar-tools"),
    ("pdftoppm", "poppler-utils"),
];

/// How many files of tests run at once, of all: they wait for bells, answers and one another, and three of them keep two cores
/// busy. A fourth would come too late for its touches and notices.
const AT_ONCE: &str = "--workers=3";

/// Runs the tests; `words` go to the runner, which then picks by itself.
pub(crate) fn run(words: &[String]) -> Result<Tally> {
    let mut runner = Ready::made()?.node();
    runner.arg(RUNNER).arg("test");
    if words.is_empty() {
        runner.arg(AT_ONCE);
    }
    counted(runner.args(words))
}

/// Makes the README's pictures anew, in the tree.
pub(crate) fn pictures() -> Result<()> {
    let mut runner = node()?;
    runner.args([RUNNER, "test", "pictures"]).env("PICTURES", "1");
    run_program(&mut runner)
}

/// Builds what is looked at in a browser, and returns what runs a script of `tests/browser` on it.
pub(crate) fn node() -> Result<Command> {
    Ok(Ready::made()?.node())
}

/// What is looked at in a browser, built.
struct Ready {
    dist: PathBuf,
    gallery: PathBuf,
    sweepbell: PathBuf,
    pseudo: PathBuf,
}

impl Ready {
    /// Builds it, and installs what it is looked at with.
    fn made() -> Result<Self> {
        let dist = bundle::run(Build::Release)?;
        let gallery = bundle::run(Build::Gallery)?;
        let sweepbell = hub::build()?;
        for (name, package) in NEEDED {
            debian::need(&[name], &[package])?;
        }
        npm::install("tests/browser")?;
        Ok(Self { dist, gallery, sweepbell, pseudo: pseudo()? })
    }

    /// What runs a script of `tests/browser` on it.
    fn node(&self) -> Command {
        let mut node = program("node");
        node.current_dir(root().join("tests/browser"));
        // Hubs under test keep their own files, whatever database the person's own hub has.
        node.env_remove("SWEEPBELL_DATABASE");
        node.env("SWEEPBELL_BIN", &self.sweepbell).env("SWEEPBELL_DIST", &self.dist);
        node.env("SWEEPBELL_GALLERY", &self.gallery).env("SWEEPBELL_PSEUDO", &self.pseudo);
        node
    }
}

/// Writes the catalogue that no bundle holds, and returns where it is.
fn pseudo() -> Result<PathBuf> {
    let file = target().join("pseudo.txt");
    let book = Book::open().context("the words cannot be read")?;
    fs::write(&file, book.pseudo()).with_context(|| format!("{} cannot be written", file.display()))?;
    Ok(file)
}
