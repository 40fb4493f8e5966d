//! Noise and vibration adding up over a session or a day, as the published formulas add them.
//!
//! Advice, reckoned from typical values that the rulebook names and the time at each machine. It is never a
//! measurement, says nothing about peaks, and decides nothing: no rule asks here before it allows or refuses.
//! Implements DESIGN.md, "Exposure".

pub mod day;
pub mod noise;
pub mod vibration;

/// Hours as whole minutes, rounded down and never below 0: what is left is never overstated. A billionth of a minute
/// is given back, because 8 h reckoned in floats may come out a hair under 480 minutes.
#[expect(clippy::cast_possible_truncation, reason = "clamped to a year of minutes")]
fn whole_minutes_down(hours: f64) -> i64 {
    (hours * 60.0 + 1e-9).floor().clamp(0.0, 525_600.0) as i64
}

/// A sum that is 0 when there is nothing to add: the standard one is -0, which people would be shown.
fn sum(parts: impl Iterator<Item = f64>) -> f64 {
    parts.fold(0.0, |sum, part| sum + part)
}
