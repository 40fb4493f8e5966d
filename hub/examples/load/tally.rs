//! How long things took: the middle, and what few, fewer and one took longer than.

use std::fmt;
use std::time::Duration;

/// Some durations, sorted.
pub(crate) struct Tally(Vec<Duration>);

impl Tally {
    /// Of any number of them.
    pub(crate) fn of(mut took: Vec<Duration>) -> Self {
        took.sort_unstable();
        Self(took)
    }

    /// What so many of a thousand took at most (nearest rank).
    fn of_thousand(&self, share: usize) -> Duration {
        let rank = (self.0.len() * share).div_ceil(1_000).max(1);
        self.0.get(rank - 1).copied().unwrap_or_default()
    }
}

/// As `cargo xtask bench --hub` reads it, in milliseconds.
impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (name, share) in [("p50", 500), ("p99", 990), ("p999", 999), ("most", 1_000)] {
            write!(f, " {name}={:.2}", self.of_thousand(share).as_secs_f64() * 1_000.0)?;
        }
        Ok(())
    }
}
