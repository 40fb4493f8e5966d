//! The shop that is served: its members, the phones that have joined, the log that they wrote. Made once for all parts.

use std::fs;
use std::path::PathBuf;

use anyhow::Result;

use super::PHONES;
use super::serving::Hub;
use crate::program::{program, run as run_program};
use crate::root::target;
use crate::steps::step;

/// What is run, optimised.
pub(crate) struct Programs {
    pub(crate) sweepbell: PathBuf,
    pub(crate) load: PathBuf,
}

/// Optimised, as a release is.
pub(crate) fn build() -> Result<Programs> {
    step("building hub and phones, optimised", || {
        let cargo = |what: &[&str]| {
            let mut cargo = program("cargo");
            cargo.args(["build", "--quiet", "--release", "--package", "hub"]).args(what);
            run_program(&mut cargo)
        };
        // Apart, so that the hub is compiled with nothing that only its tests and these phones need.
        cargo(&["--bins"])?;
        cargo(&["--example", "load"])
    })?;
    let (release, end) = (target().join("release"), std::env::consts::EXE_SUFFIX);
    let load = release.join("examples").join(format!("load{end}"));
    Ok(Programs { sweepbell: release.join(format!("sweepbell{end}")), load })
}

/// A shop in a folder, and the programs that serve and visit it.
pub(crate) struct Shop<'a> {
    pub(crate) programs: &'a Programs,
    pub(crate) folder: PathBuf,
}

impl<'a> Shop<'a> {
    /// The one that is there with so many entries, or a new one. Of another day it is made anew: what is old would be older.
    pub(crate) fn kept(programs: &'a Programs, entries: u32) -> Result<Self> {
        let shop = Self { programs, folder: folder().join(entries.to_string()) };
        if !shop.folder.join("whole").is_file() {
            step(&format!("{PHONES} phones join and say {entries} entries"), || shop.make(entries))?;
        }
        Ok(shop)
    }

    /// Removes what was made.
    pub(crate) fn forget() -> Result<()> {
        Ok(fs::remove_dir_all(folder())?)
    }

    /// The folder of its database.
    pub(crate) fn data(&self) -> PathBuf {
        self.folder.join("data")
    }

    /// Its database, a file.
    pub(crate) fn file(&self) -> PathBuf {
        self.data().join("hub.sqlite")
    }

    fn make(&self, entries: u32) -> Result<()> {
        if self.folder.exists() {
            fs::remove_dir_all(&self.folder)?;
        }
        fs::create_dir_all(&self.folder)?;
        let phones = PHONES.to_string();
        let members = program(&self.programs.load).args(["members", &phones]).output()?.stdout;
        fs::write(self.folder.join("members.toml"), members)?;
        // The hub makes its tables, and then a card for everybody.
        Hub::start(self, None)?.stop()?;
        run_program(program(&self.programs.load).arg("fill").arg(self.file()).args([&phones, &entries.to_string()]))?;
        let first = Hub::start(self, None)?;
        println!("  the first start, which makes {PHONES} cards: {:.2} s", first.answered_s);
        first.stop()?;
        Ok(fs::write(self.folder.join("whole"), "")?)
    }
}

fn folder() -> PathBuf {
    target().join("hub-load")
}
