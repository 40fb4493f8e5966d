//! What a process used, by Linux's own account (proc(5)).

use std::fs;

use anyhow::{Context, Result};

/// Ticks of `/proc/PID/stat` in a second: the same on every Linux that people use.
const TICKS: f64 = 100.0;

/// Seconds of processor time so far, in the process and the kernel for it.
pub(crate) fn cpu_s(process: u32) -> Result<f64> {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).context("this needs Linux")?;
    // The name stands in parentheses and may hold anything.
    let behind = stat.rsplit_once(") ").map_or("", |(_, behind)| behind);
    let fields: Vec<&str> = behind.split(' ').collect();
    let ticks = |at: usize| fields.get(at).and_then(|field| field.parse::<f64>().ok()).unwrap_or_default();
    Ok((ticks(11) + ticks(12)) / TICKS)
}

/// The most memory that it held, in MiB.
pub(crate) fn peak_mib(process: u32) -> Result<f64> {
    let status = fs::read_to_string(format!("/proc/{process}/status")).context("this needs Linux")?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).context("no peak")?;
    let kib: f64 = line.trim().trim_end_matches(" kB").parse().context("no number")?;
    Ok(kib / 1024.0)
}
