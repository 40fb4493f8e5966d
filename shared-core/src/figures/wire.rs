//! Figures as a hub tells them to a steward's phone: all stretches at once, and who did which round when.
//!
//! Written by what is derived, read field by field as everything that a phone reads. Fields may be added.

use serde::Serialize;

use super::{
    ChoreLeft, Cover, Figures, MachineUse, Mess, PlaceFound, Reach, Reserve, RoundFigures, Sessions, Stretch, Sweeps,
    TagFigures, Watches, figures,
};
use crate::ids::{PersonId, RoundId};
use crate::json::from_json;
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::sync::shop::UtcOffset;
use crate::time::Instant;

/// `GET /api/figures`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct AllFigures {
    /// The month so far.
    pub this_month: Figures,
    /// The month before.
    pub last_month: Figures,
    /// All that is kept.
    pub all: Figures,
    /// The rulebook's rounds, each with every time that it was done.
    pub rounds: Vec<RoundHistory>,
}

/// A round's history.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RoundHistory {
    /// Which.
    pub round: RoundId,
    /// The newest first.
    pub done: Vec<RoundSaid>,
}

/// A round that somebody says was done.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RoundSaid {
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
}

impl AllFigures {
    /// What a log says at `now`.
    pub fn of(book: &Rulebook, state: &State, offsets: &[UtcOffset], now: Instant) -> Self {
        let stretch = |reach| figures(book, state, offsets, Stretch::of(reach, state, offsets, now));
        Self {
            this_month: stretch(Reach::ThisMonth),
            last_month: stretch(Reach::LastMonth),
            all: stretch(Reach::All),
            rounds: histories(book, state),
        }
    }

    /// Those of one stretch.
    pub fn take(self, reach: Reach) -> Figures {
        match reach {
            Reach::ThisMonth => self.this_month,
            Reach::LastMonth => self.last_month,
            Reach::All => self.all,
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

from_json! {
    AllFigures { this_month, last_month, all, rounds }
    RoundHistory { round, done }
    RoundSaid { at, by }
    Figures { stretch, sessions, machines, sweeps, reserve, cover, watches, mess, tags, rounds }
    Stretch { from, to }
    Sessions { begun, people, open, minutes, hours }
    MachineUse { machine, uses, minutes }
    Sweeps { complete, incomplete, not_begun, chores_left }
    ChoreLeft { chore, times }
    Reserve { within, of, unplanned, late, chores_within, chores_of }
    Cover { uses, minutes, gaps, gap_minutes }
    Watches { needed, kept, cut_short_minutes }
    Mess { places, hours }
    PlaceFound { place, is_room, clean, mess }
    TagFigures { machine, times, minutes, still_out }
    RoundFigures { round, done, late, overdue }
}
