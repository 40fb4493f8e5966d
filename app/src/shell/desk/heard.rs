//! Which lines were folded: of each phone its numbers, as runs, because nearly all of them follow each other.
//!
//! Knows no line.

use borsh::{BorshDeserialize, BorshSerialize};
use shared_core::ids::DeviceId;
use shared_core::ordered::Map;

/// Numbers in runs: the first and the last of each, in order, none touching the next.
#[derive(Clone, Debug, Default, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Runs(Vec<(u64, u64)>);

impl Runs {
    /// Adds a number; whether it was not there.
    pub fn add(&mut self, seq: u64) -> bool {
        let Self(runs) = self;
        // The first run that does not end before it.
        let place = runs.partition_point(|(_, last)| *last < seq);
        if runs.get(place).is_some_and(|(first, _)| *first <= seq) {
            return false;
        }
        let follows = place > 0 && runs[place - 1].1.checked_add(1) == Some(seq);
        let leads = runs.get(place).is_some_and(|(first, _)| first.checked_sub(1) == Some(seq));
        match (follows, leads) {
            (true, true) => {
                let (_, last) = runs.remove(place);
                runs[place - 1].1 = last;
            }
            (true, false) => runs[place - 1].1 = seq,
            (false, true) => runs[place].0 = seq,
            (false, false) => runs.insert(place, (seq, seq)),
        }
        true
    }

    /// Those of it that lie in `from..=to`, in order.
    pub fn between(&self, from: u64, to: u64) -> impl Iterator<Item = u64> {
        self.0.iter().flat_map(move |(first, last)| (*first).max(from)..=(*last).min(to))
    }

    /// How many.
    pub fn count(&self) -> u64 {
        self.0.iter().map(|(first, last)| last - first + 1).sum()
    }
}

/// Of other phones.
pub type Heard = Map<DeviceId, Runs>;

#[cfg(test)]
mod tests {
    use super::*;
    use shared_core::ordered::Set;

    /// Beside a plain set, whatever the order.
    #[test]
    fn runs_hold_what_a_set_of_numbers_holds() {
        let mut seed = 7_u64;
        for _ in 0..200 {
            let (mut runs, mut set) = (Runs::default(), Set::new());
            for _ in 0..60 {
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                let seq = 1 + (seed >> 33) % 40;
                assert_eq!(runs.add(seq), set.insert(seq));
                assert_eq!(runs.between(0, u64::MAX).collect::<Set<_>>(), set);
                assert_eq!(
                    runs.between(9, 21).collect::<Vec<_>>(),
                    set.iter().filter(|seq| (9..=21).contains(*seq)).copied().collect::<Vec<_>>()
                );
                assert_eq!(runs.count(), set.len() as u64);
                assert!(runs.0.windows(2).all(|pair| pair[0].1 + 1 < pair[1].0), "{runs:?}");
            }
        }
    }
}
