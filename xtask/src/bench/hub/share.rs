//! A share of the processor that a process is held to, by the control groups of Linux: so that on a machine of two cores it can be seen what a
//! second hub adds, while the database and the phones have what they need.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// In so short a time its share is used up and given anew: what waits for the next waits for no longer.
const PERIOD_US: u32 = 20_000;
/// Where the groups are: of the second version, or of the first.
const ROOTS: [&str; 2] = ["/sys/fs/cgroup", "/sys/fs/cgroup/cpu"];

/// A group of one process.
pub(crate) struct Share(PathBuf);

impl Share {
    /// Holds a process to so many thousandths of one core.
    pub(crate) fn hold(process: u32, thousandths: u32) -> Result<Self> {
        let quota_us = PERIOD_US / 1_000 * thousandths;
        let is_second = Path::new(ROOTS[0]).join("cgroup.controllers").is_file();
        let root = Path::new(ROOTS[usize::from(!is_second)]);
        let group = Self(root.join(format!("sweepbell-{process}")));
        let write = |file: &str, text: String| {
            fs::write(group.0.join(file), text)
                .with_context(|| format!("{file} of {} cannot be set", group.0.display()))
        };
        fs::create_dir(&group.0).with_context(|| format!("no group of processes can be made in {}", root.display()))?;
        if is_second {
            write("cpu.max", format!("{quota_us} {PERIOD_US}"))?;
        } else {
            write("cpu.cfs_period_us", PERIOD_US.to_string())?;
            write("cpu.cfs_quota_us", quota_us.to_string())?;
        }
        write("cgroup.procs", process.to_string())?;
        Ok(group)
    }
}

impl Drop for Share {
    fn drop(&mut self) {
        // It goes once its process is gone; a group that stays holds nobody.
        let _ = fs::remove_dir(&self.0);
    }
}
