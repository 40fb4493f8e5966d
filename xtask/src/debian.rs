//! Installing Debian's packages when something is missing.
//!
//! Only what is missing is installed, only from the machine's own package sources, and only as root or where `sudo`
//! asks for no password. Elsewhere the answer is one line that says what to install by hand.

use std::fs::File;
use std::process::{Command, Stdio};

use anyhow::{Result, bail};

use crate::program::{answer, exists, program};
use crate::root::target;
use crate::steps::step;

/// Another step, or the machine itself, may be installing: its turn is waited for, in seconds.
const LOCK: &str = "--option=DPkg::Lock::Timeout=300";

/// Makes sure that `wanted` programs exist, installing `packages` when one does not.
pub(crate) fn need(wanted: &[&str], packages: &[&str]) -> Result<()> {
    if wanted.iter().all(|name| exists(name)) {
        return Ok(());
    }
    install(packages)?;
    match wanted.iter().find(|name| !exists(name)) {
        Some(missing) => bail!("`{missing}` is still missing after installing {}", packages.join(" ")),
        None => Ok(()),
    }
}

/// Installs packages, refreshing the package lists first if that is what it takes.
pub(crate) fn install(packages: &[&str]) -> Result<()> {
    let by_hand = format!("apt-get install --no-install-recommends {}", packages.join(" "));
    if !exists("apt-get") {
        bail!("missing here: {}; install their like with this machine's package manager", packages.join(" "));
    }
    let Some(rights) = rights() else {
        bail!("missing here: {}; run `sudo {by_hand}` and try again", packages.join(" "));
    };
    step(&format!("installing {}", packages.join(" ")), || {
        // The package lists are locked apart, and nothing waits for that lock: of our own steps one asks after the other.
        let turn = File::create(target().join("installing"))?;
        turn.lock()?;
        let mut wanted = vec!["install", "--yes", "--no-install-recommends"];
        wanted.extend(packages);
        if apt(&rights, &wanted) || (apt(&rights, &["update"]) && apt(&rights, &wanted)) {
            return Ok(());
        }
        bail!("the package manager could not install them; run `sudo apt-get update && sudo {by_hand}` to see why")
    })
}

/// The words before `apt-get` that give the right to install; `None` when there is no such right.
fn rights() -> Option<Vec<&'static str>> {
    if answer(program("id").arg("-u"))? == "0" {
        return Some(Vec::new());
    }
    let asks_nothing = answer(program("sudo").args(["-n", "true"])).is_some();
    asks_nothing.then(|| vec!["sudo", "-n"])
}

fn apt(rights: &[&str], arguments: &[&str]) -> bool {
    let mut words = rights.to_vec();
    words.extend(["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", LOCK]);
    words.extend(arguments);
    let Some((first, rest)) = words.split_first() else { return false };
    let mut command: Command = program(first);
    command.args(rest).stdin(Stdio::null()).stdout(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}
