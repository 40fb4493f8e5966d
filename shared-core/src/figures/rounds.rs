//! Rounds: how often each was done within the stretch, and how often late.
//!
//! Late is what was done after it was due again, counted from the time before, wherever that lies. What the log no longer
//! reaches back to is not late.

use serde::Serialize;

use super::stretch::Stretch;
use crate::ids::RoundId;
use crate::round::Every;
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::time::Instant;

/// A round of the rulebook.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RoundFigures {
    /// Which.
    pub round: RoundId,
    /// How often it was done.
    pub done: u32,
    /// How often of that late.
    pub late: u32,
    /// Whether it was due, and not done, when the stretch ended.
    pub overdue: bool,
}

pub(super) fn of(book: &Rulebook, state: &State, stretch: Stretch) -> Vec<RoundFigures> {
    let told = book.rounds.iter().filter_map(|round| {
        let every = Every::parse(&round.every)?;
        let mut said = RoundFigures { round: round.id.clone(), ..RoundFigures::default() };
        let mut due = None::<Instant>;
        for done in state.rounds_done.get(&round.id).into_iter().flatten().filter(|done| done.at < stretch.to) {
            if stretch.holds(done.at) {
                said.done += 1;
                said.late += u32::from(due.is_some_and(|due| done.at > due));
            }
            due = Some(every.after(done.at));
        }
        said.overdue = due.is_some_and(|due| due < stretch.to);
        Some(said)
    });
    told.collect()
}
