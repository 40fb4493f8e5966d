//! Saying what is being done, and how long it took.
//!
//! Every act that can take more than a second is a step. A step never swallows an error.

use std::time::{Duration, Instant};

use anyhow::Result;

/// Does one thing, saying so before and how long it took after.
pub(crate) fn step<T>(what: &str, act: impl FnOnce() -> Result<T>) -> Result<T> {
    println!("- {what}");
    let started = Instant::now();
    let done = act();
    let verdict = if done.is_ok() { "done" } else { "failed" };
    println!("  {what}: {verdict} in {}", seconds(started.elapsed()));
    done
}

/// A duration as people read it: `0.4 s`, `12 s`, `3 min 20 s`.
pub(crate) fn seconds(took: Duration) -> String {
    match took.as_secs() {
        0..10 => format!("{:.1} s", took.as_secs_f64()),
        whole @ 10..60 => format!("{whole} s"),
        whole => format!("{} min {} s", whole / 60, whole % 60),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_read_well() {
        for (ms, text) in
            [(0, "0.0 s"), (430, "0.4 s"), (12_900, "12 s"), (60_000, "1 min 0 s"), (200_000, "3 min 20 s")]
        {
            assert_eq!(seconds(Duration::from_millis(ms)), text);
        }
    }
}
