//! The figures of one reach, as a page asks for them, and who did which round when.
//!
//! Two years of a large shop take a while: what is not looked at is not reckoned.

use super::{Figures, Reach, Stretch, figures};
use crate::ids::{PersonId, RoundId};
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::sync::shop::UtcOffset;
use crate::time::Instant;

/// A round's history.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoundHistory {
    /// Which.
    pub round: RoundId,
    /// The newest first.
    pub done: Vec<RoundSaid>,
}

/// A round that somebody says was done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoundSaid {
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
}

/// The figures of a reach, as a log says them at `now`.
pub fn of_reach(book: &Rulebook, state: &State, offsets: &[UtcOffset], now: Instant, reach: Reach) -> Figures {
    figures(book, state, offsets, Stretch::of(reach, state, offsets, now))
}

/// Every time that each round of the rulebook was done, as far as the log reaches.
pub fn histories(book: &Rulebook, state: &State) -> Vec<RoundHistory> {
    let history = |round: &crate::rulebook::Round| RoundHistory {
        round: round.id.clone(),
        done: (state.rounds_done.get(&round.id).into_iter().flatten().rev())
            .map(|done| RoundSaid { at: done.at, by: done.by.clone() })
            .collect(),
    };
    book.rounds.iter().map(history).collect()
}
