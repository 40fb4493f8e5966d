//! Chance from a seed: the same seed tells the same story. Not for secrets.

use shared_core::time::Span;

/// A splitmix64 generator (Steele, Lea and Flood 2014; constants from memory, the test pins the outcome).
#[derive(Clone, Debug)]
pub(super) struct Chance(u64);

impl Chance {
    /// Chance of this seed.
    pub(super) fn of(seed: u64) -> Self {
        Self(seed)
    }

    /// 64 bits.
    pub(super) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub(super) fn between(&mut self, low: i64, high: i64) -> i64 {
        let width = u64::try_from(high - low).unwrap_or(0) + 1;
        low + i64::try_from(self.bits() % width).unwrap_or(0)
    }

    /// True in `percent` of a hundred cases.
    pub(super) fn happens(&mut self, percent: i64) -> bool {
        self.between(1, 100) <= percent
    }

    /// Whole minutes from `low` to `high`.
    pub(super) fn minutes(&mut self, low: i64, high: i64) -> Span {
        Span::from_minutes(self.between(low, high))
    }

    /// Whole seconds from `low` to `high`.
    pub(super) fn seconds(&mut self, low: i64, high: i64) -> Span {
        Span::from_ms(self.between(low, high) * 1000)
    }

    /// One of them, if there is any.
    pub(super) fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        let last = i64::try_from(from.len()).ok()? - 1;
        if last < 0 {
            return None;
        }
        from.get(usize::try_from(self.between(0, last)).ok()?)
    }

    /// Puts them in another order.
    pub(super) fn shuffle<T>(&mut self, them: &mut [T]) {
        for upper in (1..them.len()).rev() {
            let other = self.between(0, i64::try_from(upper).unwrap_or(0));
            them.swap(upper, usize::try_from(other).unwrap_or(0));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_tells_the_same_story_and_stays_in_range() {
        let (mut one, mut other) = (Chance::of(7), Chance::of(7));
        let mut seen = [0; 7];
        for _ in 0..700 {
            let drawn = one.between(-3, 3);
            assert_eq!(drawn, other.between(-3, 3));
            seen[usize::try_from(drawn + 3).expect("in range")] += 1;
        }
        assert!(seen.iter().all(|count| (60..150).contains(count)), "{seen:?}");
        assert_ne!(Chance::of(7).bits(), Chance::of(8).bits());
    }
}
