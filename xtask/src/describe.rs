//! `cargo xtask describe`: a running hub is held against its own description, hub/openapi.json.
//!
//! Schemathesis, from `PyPI`, sends what the description allows and what it does not, and looks whether each answer is one
//! that the description names. It is installed beside the build, in the versions of `tests/api/requirements.txt`; so is
//! what signs in for it, which is not the hub's own library.

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use std::thread;

use anyhow::{Context, Result, bail};

use crate::hub;
use crate::program::{program, run as run_program};
use crate::python::python;
use crate::root::{root, target};

/// Just under what the hub grants a device for good; more would meet refusals alone.
const RATE: &str = "18/s";
/// Requests made up for each operation, besides those that cover its corners.
const EXAMPLES: &str = "100";

/// Starts a hub, sends, and fails if an answer was not as described.
pub(crate) fn run() -> Result<()> {
    let python = python("python", "tests/api/requirements.txt")?;
    let running = Running::start(&hub::build()?, "described")?;
    let hooks = root().join("tests/api");
    let mut sent = program(python);
    // What it remembers of failures goes with the hub's folder.
    sent.current_dir(&running.folder).args([
        "-m",
        "schemathesis.cli",
        "run",
        &format!("{}/api/openapi.json", running.address),
    ]);
    sent.args(["--checks", "all", "--max-examples", EXAMPLES, "--rate-limit", RATE, "--seed", "1", "--no-color"]);
    // A stream does not end by itself; the hub's own tests listen to it.
    sent.args(["--exclude-path", "/api/live", "--generation-database", "none"]);
    sent.env("SWEEPBELL_ADDRESS", &running.address).env("SWEEPBELL_JOIN_CODE", &running.code);
    sent.env("SCHEMATHESIS_HOOKS", "hooks").env("PYTHONPATH", &hooks).env("PYTHONDONTWRITEBYTECODE", "1");
    run_program(&mut sent)
}

/// A hub with the demo shop and a folder of its own; dropped, it is ended and the folder removed.
pub(crate) struct Running {
    child: Child,
    /// Its folder.
    pub(crate) folder: PathBuf,
    address: String,
    code: String,
}

impl Running {
    /// Starts it, and waits until it listens.
    pub(crate) fn start(sweepbell: &Path, folder: &str) -> Result<Self> {
        let folder = target().join(folder);
        if folder.exists() {
            fs::remove_dir_all(&folder)?;
        }
        let mut serve = program(sweepbell);
        serve.args(["serve", "--listen", "127.0.0.1:0", "--data"]).arg(&folder).env_remove("SWEEPBELL_DATABASE");
        let mut child = serve.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().context("the hub does not start")?;
        let Some(out) = child.stdout.take() else { bail!("the hub says nothing") };
        let mut running = Self { child, folder, address: String::new(), code: String::new() };
        let mut lines = BufReader::new(out).lines();
        while running.address.is_empty() || running.code.is_empty() {
            let Some(line) = lines.next().transpose()? else { bail!("the hub ended before it listened") };
            if let Some(address) = line.strip_prefix("listening on ") {
                address.clone_into(&mut running.address);
            } else if let Some(code) = line.strip_prefix("join code ") {
                running.code = code.replace('-', "");
            }
        }
        // It is not to wait for somebody to read on.
        thread::spawn(move || lines.for_each(drop));
        Ok(running)
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // Either may fail only because it is gone already, which is all that is wanted.
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = fs::remove_dir_all(&self.folder);
    }
}
