//! The figures of every stretch at once, as a page shows them, and who did which round when.

use super::{Figures, Reach, Stretch, of_groups, together};
use crate::ids::{PersonId, RoundId};
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::sync::shop::UtcOffset;
use crate::time::Instant;

/// All of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AllFigures {
    /// The month so far.
    pub this_month: Figures,
    /// The month before.
    pub last_month: Figures,
    /// All that is kept.
    pub all: Figures,
}

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

impl AllFigures {
    /// What a log says at `now`.
    pub fn of(book: &Rulebook, state: &State, offsets: &[UtcOffset], now: Instant) -> Self {
        let groups = together::groups(state);
        let stretch = |reach| of_groups(book, state, &groups, offsets, Stretch::of(reach, state, offsets, now));
        Self { this_month: stretch(Reach::ThisMonth), last_month: stretch(Reach::LastMonth), all: stretch(Reach::All) }
    }

    /// Those of one stretch.
    pub fn of_reach(&self, reach: Reach) -> &Figures {
        match reach {
            Reach::ThisMonth => &self.this_month,
            Reach::LastMonth => &self.last_month,
            Reach::All => &self.all,
        }
    }
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
