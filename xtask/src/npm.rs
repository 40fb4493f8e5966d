//! Packages of npm for what runs under Node.js in the tests: exactly those of a folder's lock file. None of them ships.

use std::fs;

use anyhow::{Context, Result};

use crate::program::{program, run};
use crate::root::root;
use crate::steps::step;

/// Installs what the lock file of a folder says, unless that is what is installed.
pub(crate) fn install(folder: &str) -> Result<()> {
    let path = root().join(folder);
    let lock = fs::read(path.join("package-lock.json"))
        .with_context(|| format!("{folder}/package-lock.json cannot be read"))?;
    let installed = path.join("node_modules/.installed-lock");
    if fs::read(&installed).is_ok_and(|of| of == lock) {
        return Ok(());
    }
    step(&format!("installing the packages of {folder}/package-lock.json"), || {
        let mut npm = program("npm");
        npm.args(["ci", "--loglevel=error"]).current_dir(&path).env("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1");
        run(&mut npm).context("this needs a network once, for its packages")
    })?;
    fs::write(installed, lock).context("node_modules cannot be written to")
}
