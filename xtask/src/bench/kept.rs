//! `cargo xtask bench --check`: the ratios of the last measurement that was kept, and whether today's are as good.
//!
//! A ratio, not a rate: both sides ran in turns on the same machine at the same time, so that another machine, or a busy one,
//! says nearly the same. What is kept is the lowest median of ten that was measured: in, of the hub as it is built now;
//! out, which swings by a sixth from hour to hour, of that before too. More than a tenth below it is a regression.

use anyhow::{Result, bail};

use super::table::ACTS;

/// How many times as quick as the peer the hub was, both forced to the disk, by act; on the machine and date of DEVELOPERS.md.
const KEPT: [(&str, f64); 2] = [("in", 22.1), ("out", 24.1)];
/// So much of a kept ratio may be missing.
const SLACK: f64 = 0.1;

/// Fails if a ratio has become worse by more than a tenth. `measured` is by act, in the order of [`ACTS`].
pub(super) fn check(measured: &[f64]) -> Result<()> {
    let mut worse = Vec::new();
    for (act, kept) in KEPT {
        let Some(now) = ACTS.iter().position(|(known, ..)| *known == act).and_then(|at| measured.get(at)) else {
            bail!("`{act}` was not measured");
        };
        println!("{act}: {now:.1} times the peer, {kept:.1} when it was last kept");
        if *now < kept * (1.0 - SLACK) {
            worse.push(act);
        }
    }
    if worse.is_empty() {
        return Ok(());
    }
    bail!("slower by more than a tenth than when it was last kept: {}", worse.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tenth_is_let_through_and_more_is_not() {
        let all = |share: f64| -> Vec<f64> {
            let kept = |act: &str| KEPT.iter().find(|(known, _)| *known == act).map_or(1.0, |(_, kept)| *kept);
            ACTS.iter().map(|(act, ..)| kept(act) * share).collect()
        };
        for (share, is_good) in [(1.0, true), (0.91, true), (3.0, true), (0.89, false), (0.0, false)] {
            assert_eq!(check(&all(share)).is_ok(), is_good, "{share}");
        }
        assert!(check(&[]).is_err(), "what was not measured is not good");
    }
}
