//! The figures as a page shows them, and what things are called.
//!
//! Counted from what this phone has been told: a steward's is handed the whole log. Names are the rulebook's; what it no
//! longer has is called by its id.

use crate::figures::{Figures, Reach, of_reach};
use crate::ids::ChoreId;
use crate::sync::shop::UtcOffset;
use crate::view::Viewer;

/// What the page shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FiguresShown {
    /// Which stretch was asked for.
    pub reach: Reach,
    /// Its figures.
    pub own: Figures,
    /// Of 100 chores, how many the rulebook wants in time.
    pub asked_of_100: i64,
    /// Names by id: of machines.
    pub machines: Vec<(String, String)>,
    /// Of rooms.
    pub rooms: Vec<(String, String)>,
    /// Of chores: what to do.
    pub chores: Vec<(String, String)>,
    /// Of rounds: what to do.
    pub rounds: Vec<(String, String)>,
}

/// What this phone can count.
#[expect(clippy::cast_possible_truncation, reason = "a share of 100")]
pub fn figures(viewer: &Viewer, offsets: &[UtcOffset], reach: Reach) -> FiguresShown {
    let book = viewer.book;
    // Two rooms may ask for the same in the same words.
    let owned = |owner: &str, text: &str| {
        let machine = book.machines.iter().find(|machine| machine.id.as_str() == owner).map(|machine| &machine.name);
        let room = book.rooms.iter().find(|room| room.id.as_str() == owner).map(|room| &room.name);
        let name = machine.or(room).map_or(owner, String::as_str);
        [name, ": ", text].concat()
    };
    let of_machines =
        book.machines.iter().flat_map(|machine| machine.chores.iter().map(|chore| (machine.id.as_str(), chore)));
    let of_rooms = book.rooms.iter().flat_map(|room| room.chores.iter().map(|chore| (room.id.as_str(), chore)));
    let chore = |(owner, chore): (&str, &crate::rulebook::Chore)| {
        (ChoreId::of(owner, &chore.id).to_string(), owned(owner, &chore.text))
    };
    FiguresShown {
        reach,
        own: of_reach(book, viewer.state, offsets, viewer.now, reach),
        asked_of_100: (book.reserve.quantile * 100.0).round() as i64,
        machines: book.machines.iter().map(|machine| (machine.id.to_string(), machine.name.clone())).collect(),
        rooms: book.rooms.iter().map(|room| (room.id.to_string(), room.name.clone())).collect(),
        chores: of_machines.chain(of_rooms).map(chore).collect(),
        rounds: (book.rounds.iter())
            .map(|round| (round.id.to_string(), owned(round.room.as_str(), &round.text)))
            .collect(),
    }
}

/// What something is called.
pub fn name_of(names: &[(String, String)], id: &str) -> String {
    names.iter().find(|(known, _)| known == id).map_or_else(|| id.to_owned(), |(_, name)| name.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    #[test]
    fn things_are_called_as_the_rulebook_has_them() {
        let mut world = World::new();
        assert_eq!(world.enter("noor", 0, 60), Ok(()));
        let me = PersonId::from("bram");
        let shown = figures(&world.viewer(&me, at(30)), &[], Reach::All);
        assert_eq!((shown.own.sessions.begun, shown.asked_of_100), (1, 80));
        for (names, id, name) in [
            (&shown.machines, "saw", "The saw"),
            (&shown.rooms, "forge", "Room forge"),
            (&shown.chores, "saw/brush", "The saw: Do brush."),
            (&shown.rounds, "bin", "Room forge: See to the bin."),
            (&shown.rounds, "gone", "gone"),
        ] {
            assert_eq!(name_of(names, id), name);
        }
    }
}
