//! A Python with what a list of requirements says, and no other, beside the build.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result};

use crate::debian;
use crate::program::{answer, program, run};
use crate::root::{root, target};
use crate::steps::step;

/// The Python of `folder` under the folder of builds, with the packages of `list`, a file of the tree. Installed once, and again
/// when the list changes; that needs a network.
pub(crate) fn python(folder: &str, list: &str) -> Result<PathBuf> {
    let wanted = root().join(list);
    let packages = fs::read(&wanted).with_context(|| format!("{list} cannot be read"))?;
    let folder = target().join(folder);
    let (python, installed) = (folder.join("bin/python"), folder.join(".installed"));
    if fs::read(&installed).is_ok_and(|of| of == packages) {
        return Ok(python);
    }
    if answer(program("python3").args(["-c", "import venv, ensurepip"])).is_none() {
        debian::install(&["python3", "python3-venv"])?;
    }
    step(&format!("installing the packages of {list}"), || {
        run(program("python3").args(["-m", "venv", "--clear"]).arg(&folder))?;
        let mut pip = program(&python);
        pip.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--requirement"]).arg(&wanted);
        run(&mut pip).context("this needs a network once, for its packages")
    })?;
    fs::write(installed, packages).context("the folder of builds cannot be written to")?;
    Ok(python)
}
