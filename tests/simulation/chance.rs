//! Chance from a seed: the only source of it in the simulation, so that a seed is a run.
//!
//! `SplitMix64` (Steele, Lea and Flood, 2014): eight lines, no state but a counter, the same on every machine. It is not
//! for secrets.

/// A stream of chance.
#[derive(Clone, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From 0 to `bound` - 1; 0 if `bound` is 0.
    pub(crate) fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.next() % bound.max(1) as u64).unwrap_or(0)
    }

    /// From `low` to `high`, both included.
    pub(crate) fn range(&mut self, low: i64, high: i64) -> i64 {
        low + i64::try_from(self.next() % (high - low + 1).unsigned_abs().max(1)).unwrap_or(0)
    }

    /// True `per_mille` times in a thousand.
    pub(crate) fn hit(&mut self, per_mille: i64) -> bool {
        self.range(0, 999) < per_mille
    }

    /// One of a list that is not empty.
    pub(crate) fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }

    /// Eight random bytes.
    pub(crate) fn bytes(&mut self) -> [u8; 8] {
        self.next().to_be_bytes()
    }

    /// Thirty-two random bytes.
    pub(crate) fn key_bytes(&mut self) -> [u8; 32] {
        let mut bytes = [0; 32];
        for part in bytes.chunks_exact_mut(8) {
            part.copy_from_slice(&self.bytes());
        }
        bytes
    }

    /// Thirty-two random bits.
    pub(crate) fn jitter(&mut self) -> u32 {
        u32::try_from(self.next() >> 32).unwrap_or(0)
    }
}
