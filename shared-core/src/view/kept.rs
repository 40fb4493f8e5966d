//! Rounds as an inspector reads them: what is due, and every time that each was done, with the clause that asks for it.
//!
//! As far as this phone's log reaches. What nobody wrote down was not done, as far as anybody can show.

use crate::figures::{RoundSaid, histories};
use crate::ids::PersonId;
use crate::round::Every;
use crate::view::Viewer;
use crate::view::rounds::{RoundRow, rounds_everywhere};

/// What the page shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoundsKept {
    /// Every round, the most pressing first.
    pub rounds: Vec<RoundKept>,
    /// What people are called, in the order of their ids.
    pub names: Vec<(PersonId, String)>,
}

/// One round.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundKept {
    /// What it is, and how it stands.
    pub row: RoundRow,
    /// How often it is due.
    pub every: Every,
    /// Every time that it was done, the newest first.
    pub done: Vec<RoundSaid>,
}

/// The rounds of all rooms.
pub fn kept(viewer: &Viewer) -> RoundsKept {
    let mut histories = histories(viewer.book, viewer.state);
    let rounds = rounds_everywhere(viewer).into_iter().filter_map(|row| {
        let every = Every::parse(&viewer.book.round(&row.id)?.every)?;
        let history = histories.iter_mut().find(|history| history.round == row.id);
        let done = history.map(|history| std::mem::take(&mut history.done)).unwrap_or_default();
        Some(RoundKept { row, every, done })
    });
    let names = viewer.members.iter().map(|member| (member.id.clone(), member.name.clone()));
    let mut kept = RoundsKept { rounds: rounds.collect(), names: names.collect() };
    kept.names.sort();
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::testing::{World, at};

    #[test]
    fn every_time_is_kept_the_newest_first() {
        let mut world = World::new();
        for (who, minute) in [("noor", 0), ("ilse", 900), ("noor", 2_000)] {
            assert_eq!(world.act(who, minute, Command::FinishRound { round: "bin".into() }), Ok(()));
        }
        let me = PersonId::from("bram");
        let said = kept(&world.viewer(&me, at(2_100)));
        let bin = said.rounds.iter().find(|kept| kept.row.id.as_str() == "bin").expect("a round of the book");
        let done: Vec<_> = bin.done.iter().map(|done| ((done.at - at(0)).minutes_up(), done.by.as_str())).collect();
        assert_eq!(done, [(2_000, "noor"), (900, "ilse"), (0, "noor")]);
        assert_eq!(said.rounds.len(), world.book.rounds.len());
    }
}
