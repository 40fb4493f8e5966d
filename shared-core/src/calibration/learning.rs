//! What the reserve has learned of one chore: how far the minutes that the rulebook writes were from those that it takes
//! in the asked share of evenings, and how far the planned ones are now.
//!
//! What the rulebook writes may be too short or too long; the plan comes to the mark from its own side. It never gets
//! quite there: the rulebook's minutes go on counting `prior_weight` times, and what is planned is rounded up.
//!
//! Reckons with what it is handed; reads no log and plans nothing.

use crate::estimate::{believable, learnt_minutes, quantile_type7};
use crate::rulebook::Reserve;

use super::Tally;

/// A chore of one sweep that was timed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timed {
    /// What the rulebook's formula gave that evening, in whole minutes.
    pub written_minutes: i64,
    /// What was planned, in whole minutes.
    pub planned_minutes: i64,
    /// What it took.
    pub took_minutes: f64,
}

impl Timed {
    /// Whether it took no longer than planned.
    #[expect(clippy::cast_precision_loss, reason = "minutes of a chore are few")]
    pub fn within(&self) -> bool {
        self.took_minutes <= self.planned_minutes as f64
    }
}

/// From which side the plan comes to what was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// The rulebook writes less than the chore takes in the asked share of evenings.
    TooShort,
    /// It writes that, or more.
    TooLong,
}

/// What was learned of one chore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learning {
    /// What the rulebook writes: its formula on the last evening, in whole minutes.
    pub written_minutes: i64,
    /// The asked quantile (type 7) of what it took; of the same evenings that the estimate looks at.
    pub seen_minutes: f64,
    /// What the log makes of the rulebook's minutes, before it is rounded up.
    pub learnt_minutes: f64,
    /// How often it ended in time as long as the rulebook weighed at least as much as what was seen: `prior_weight` times.
    pub at_first: Tally,
    /// How often since.
    pub since: Tally,
}

impl Learning {
    /// What a chore's evenings, oldest first, have taught; none of none.
    pub fn of(timed: &[Timed], reserve: &Reserve) -> Option<Self> {
        let written_minutes = timed.last()?.written_minutes;
        let took: Vec<f64> = timed.iter().map(|one| one.took_minutes).collect();
        let mut seen: Vec<f64> = believable(&took).collect();
        seen.sort_by(f64::total_cmp);
        let (first, since) = timed.split_at(timed.len().min(reserve.prior_weight as usize));
        Some(Self {
            written_minutes,
            seen_minutes: quantile_type7(&seen, reserve.quantile)?,
            learnt_minutes: learnt_minutes(written_minutes, &took, reserve)?,
            at_first: Tally::of(first),
            since: Tally::of(since),
        })
    }

    /// From which side the plan comes.
    pub fn written(&self) -> Written {
        if self.off_at_first() < 0.0 { Written::TooShort } else { Written::TooLong }
    }

    /// By how many minutes the rulebook writes too much; below 0, too little.
    #[expect(clippy::cast_precision_loss, reason = "minutes of a chore are few")]
    pub fn off_at_first(&self) -> f64 {
        self.written_minutes as f64 - self.seen_minutes
    }

    /// By how many minutes what was learned is too much; below 0, too little.
    pub fn off_now(&self) -> f64 {
        self.learnt_minutes - self.seen_minutes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The quantile 0.75 with a weight of 2, so that places are easily worked by hand: of n seen and 2 written, place
    /// 0.75 (n + 1) of 0 to n + 1.
    #[track_caller]
    fn check(written: i64, took: &[f64], seen: f64, learnt: f64, at_first: (u64, u64), since: (u64, u64)) {
        let reserve = Reserve { floor_minutes: 10, first_bell_minutes: 10, quantile: 0.75, prior_weight: 2 };
        let timed: Vec<Timed> = took
            .iter()
            .map(|&took_minutes| Timed { written_minutes: written, planned_minutes: written, took_minutes })
            .collect();
        let said = Learning::of(&timed, &reserve).expect("some evenings");
        let pair = |tally: Tally| (tally.within, tally.of);
        assert_eq!((said.seen_minutes, said.learnt_minutes), (seen, learnt));
        assert_eq!((pair(said.at_first), pair(said.since)), (at_first, since));
    }

    #[test]
    fn the_plan_comes_from_its_own_side() {
        // 4 written, 10 seen thrice: place 3 of 4 4 10 10 10.
        check(4, &[10.0; 3], 10.0, 10.0, (0, 2), (0, 1));
        // 4 written, 10 seen once: place 1.5 of 4 4 10.
        check(4, &[10.0], 10.0, 7.0, (0, 1), (0, 0));
        // 12 written, 2 seen thrice: place 3 of 2 2 2 12 12; seven times: place 6 of seven 2s and two 12s.
        check(12, &[2.0; 3], 2.0, 12.0, (2, 2), (1, 1));
        check(12, &[2.0; 7], 2.0, 2.0, (2, 2), (5, 5));
        // A mark between two: place 2.25 of 1 2 3 4 alone; with two 9s, place 3.75 of 1 2 3 4 9 9.
        check(9, &[1.0, 2.0, 3.0, 4.0], 3.25, 7.75, (2, 2), (2, 2));
    }

    #[test]
    fn nothing_seen_teaches_nothing() {
        let reserve = Reserve { floor_minutes: 10, first_bell_minutes: 10, quantile: 0.8, prior_weight: 5 };
        assert_eq!(Learning::of(&[], &reserve), None);
    }
}
