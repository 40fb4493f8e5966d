//! Learning how long chores take from how long they took.
//!
//! The estimate is the type-7 quantile (Hyndman and Fan 1996; numpy's default) of the last 50 observed minutes and of
//! `prior_weight` copies of what the rulebook says, rounded up: a few slow evenings move it, one does not.
//!
//! Never trusts a number that no chore can take: what is negative or not finite is left out. See DESIGN.md section 4,
//! "Chore minutes".

use std::fmt;

use crate::ids::ChoreId;
use crate::ordered::Map;
use crate::rulebook::Reserve;

/// Only so many of the latest observations count.
pub const OBSERVED_MAX: usize = 50;

/// Below this a fraction of a minute is an error of arithmetic and is not rounded up.
const FRACTION_MIN: f64 = 1e-9;

/// Whatever knows how long chores took.
pub trait Observed {
    /// The last observed minutes of a chore, oldest first; none of one that nobody did.
    fn minutes_of(&self, chore: &ChoreId) -> Vec<f64>;
}

/// Without what it knows: a whole log may lie behind it.
impl fmt::Debug for dyn Observed + '_ {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Observed")
    }
}

/// Observed minutes by chore, where they come from no log.
pub type History = Map<ChoreId, Vec<f64>>;

impl Observed for History {
    fn minutes_of(&self, chore: &ChoreId) -> Vec<f64> {
        self.get(chore).cloned().unwrap_or_default()
    }
}

/// The type-7 quantile of numbers in ascending order at `p` (0 to 1); none of no numbers.
pub fn quantile_type7(sorted: &[f64], p: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    #[expect(clippy::cast_precision_loss, reason = "no list here has 2^53 numbers")]
    let place = last as f64 * p.clamp(0.0, 1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and last; NaN becomes 0")]
    let below = (place.floor() as usize).min(last);
    let (low, high) = (sorted.get(below)?, sorted.get((below + 1).min(last))?);
    let share = place - place.floor();
    // From the nearer end, so that a share of one gives exactly `high`.
    Some(if share < 0.5 { low + (high - low) * share } else { high - (high - low) * (1.0 - share) })
}

/// The observations that count, latest first, of those given oldest first.
pub fn believable(observed: &[f64]) -> impl Iterator<Item = f64> {
    let can_be = |minutes: &f64| minutes.is_finite() && *minutes >= 0.0;
    observed.iter().rev().copied().filter(can_be).take(OBSERVED_MAX)
}

/// Whole minutes to plan for a chore: its formula's value, or what the observations (oldest first) make of it.
pub fn chore_minutes(formula: i64, observed: &[f64], reserve: &Reserve) -> i64 {
    let Some(minutes) = learnt_minutes(formula, observed, reserve) else { return formula };
    #[expect(clippy::cast_possible_truncation, reason = "saturates, and a chore of so many minutes is nobody's")]
    let up = (minutes - FRACTION_MIN).ceil() as i64;
    up.max(0)
}

/// What the observations (oldest first) make of a formula's value, before it is rounded up; none without any.
pub fn learnt_minutes(formula: i64, observed: &[f64], reserve: &Reserve) -> Option<f64> {
    let mut minutes: Vec<f64> = believable(observed).collect();
    if minutes.is_empty() {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "minutes of a chore fit a double exactly")]
    minutes.extend((0..reserve.prior_weight).map(|_| formula as f64));
    minutes.sort_unstable_by(f64::total_cmp);
    quantile_type7(&minutes, reserve.quantile)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reserve(quantile: f64, prior_weight: u32) -> Reserve {
        Reserve { floor_minutes: 10, first_bell_minutes: 10, quantile, prior_weight }
    }

    /// Hyndman and Fan 1996, definition 7: the k-th of n numbers is the quantile at (k - 1) / (n - 1); between two
    /// of them it is linear. Worked by hand from that definition.
    #[test]
    fn quantiles_of_type_7() {
        let numbers = [1.0, 2.0, 4.0, 8.0, 16.0];
        for (p, want) in
            [(0.0, 1.0), (0.25, 2.0), (0.5, 4.0), (0.75, 8.0), (1.0, 16.0), (0.125, 1.5), (0.875, 12.0), (2.0, 16.0)]
        {
            assert_eq!(quantile_type7(&numbers, p), Some(want), "{p}");
        }
        assert_eq!(quantile_type7(&[], 0.5), None);
        assert_eq!(quantile_type7(&[3.0], 0.8), Some(3.0));
    }

    /// DESIGN.md section 4, "Chore minutes"; worked by hand.
    #[test]
    fn observations_pull_the_estimate() {
        let one_slow = [30.0];
        let slow = [12.0; 60];
        let old_then_new: Vec<f64> = [100.0; 10].into_iter().chain([6.0; 50]).collect();
        for (formula, observed, quantile, prior, want) in [
            (8, &[][..], 0.8, 5, 8),
            // Five eights and a thirty: place 4.0 of 0..=5 is the last eight.
            (8, &one_slow, 0.8, 5, 8),
            // Place 4.5: half way from 8 to 30.
            (8, &one_slow, 0.9, 5, 19),
            (8, &slow, 0.8, 5, 12),
            (8, &[7.2, 7.4], 1.0, 0, 8),
            (8, &[7.0, 7.0], 0.5, 0, 7),
            // Only the last fifty count.
            (6, &old_then_new, 1.0, 5, 6),
            (8, &[f64::NAN, -3.0, f64::INFINITY], 0.8, 5, 8),
            (8, &[9.0, f64::NAN], 1.0, 5, 9),
        ] {
            assert_eq!(chore_minutes(formula, observed, &reserve(quantile, prior)), want, "{formula} {observed:?}");
        }
    }
}
