//! What hangs in the shop, for the page that prints it: each door, machine, stop and round, with what stands beside its code.
//!
//! Words of the rulebook alone; where a code leads is [`crate::code::door`]'s to say, and what a sign looks like the screen's.

use crate::code::door::{door_url, machine_url, round_url, stop_url};
use crate::rulebook::Rulebook;
use crate::view::Viewer;
use crate::view::door::room_name;

/// What a card hangs at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A room's door.
    Door,
    /// A machine.
    Machine,
    /// A stop of the induction walk: its number, and of how many in its room.
    Stop(u32, u32),
    /// A round.
    Round,
}

/// One card.
#[derive(Clone, Debug, PartialEq)]
pub struct Posted {
    /// What it hangs at.
    pub kind: Kind,
    /// The room.
    pub room: String,
    /// What it is called; a stop's is its number.
    pub name: String,
    /// What the rulebook says of it: a stop's lines, a round's duty.
    pub text: String,
    /// Its signs: words of the rulebook for what must be worn or done, and for what must not.
    pub signs: (Vec<String>, Vec<String>),
    /// Whether sparks fly there.
    pub hot_work: bool,
    /// Its address without the shop's own.
    pub path: String,
}

/// All cards, in the rulebook's order.
pub fn posted(viewer: &Viewer) -> Vec<Posted> {
    let book = viewer.book;
    let blank = |kind, room: &crate::ids::RoomId, name: String, path| Posted {
        kind,
        room: room_name(viewer, room),
        name,
        text: String::new(),
        signs: (Vec::new(), Vec::new()),
        hot_work: false,
        path,
    };
    let doors = book.rooms.iter().map(|room| {
        let signs =
            book.statements.iter().map(|statement| statement.sign.clone().unwrap_or_else(|| statement.id.to_string()));
        let door = blank(Kind::Door, &room.id, room.name.clone(), door_url("", &room.id));
        Posted { signs: (signs.collect(), Vec::new()), ..door }
    });
    let machines = book.machines.iter().map(|machine| Posted {
        signs: (machine.wear.clone(), machine.never_wear.clone()),
        hot_work: machine.hot_work,
        ..blank(Kind::Machine, &machine.room, machine.name.clone(), machine_url("", &machine.id))
    });
    let stops = book.stops.iter().map(|stop| {
        let (number, of) = place(book, stop);
        let card = blank(Kind::Stop(number, of), &stop.room, String::new(), stop_url("", &stop.id));
        Posted { text: stop.text.clone(), ..card }
    });
    let rounds = book.rounds.iter().map(|round| {
        let card = blank(Kind::Round, &round.room, String::new(), round_url("", &round.id));
        Posted { text: round.text.clone(), ..card }
    });
    doors.chain(machines).chain(stops).chain(rounds).collect()
}

/// A stop's number among those of its room, and how many there are.
fn place(book: &Rulebook, stop: &crate::rulebook::Stop) -> (u32, u32) {
    let beside = || book.stops.iter().filter(|other| other.room == stop.room);
    let count = |many: usize| u32::try_from(many).unwrap_or(u32::MAX);
    let before = beside().take_while(|other| other.id != stop.id).count();
    (count(before).saturating_add(1), count(beside().count()))
}

#[cfg(all(test, feature = "toml"))]
mod tests {
    use super::*;
    use crate::code::{Scanned, read};
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    #[test]
    fn every_thing_of_the_rulebook_has_a_card_that_leads_to_it() {
        let mut world = World::new();
        let (book, problems) = crate::rulebook::parse::read(include_str!("../../../hub/demo/shop.toml"));
        assert_eq!(problems, []);
        world.book = book.expect("the demo's rulebook");
        let me = PersonId::from("bram");
        let cards = posted(&world.viewer(&me, at(0)));
        let book = &world.book;
        assert_eq!(cards.len(), book.rooms.len() + book.machines.len() + book.stops.len() + book.rounds.len());
        for card in &cards {
            let found = match read(&["https://yard.example", &card.path].concat(), "https://yard.example") {
                Ok(Scanned::Door { room, .. }) => card.kind == Kind::Door && book.room(&room).is_some(),
                Ok(Scanned::Machine { machine }) => card.kind == Kind::Machine && book.machine(&machine).is_some(),
                Ok(Scanned::Stop { stop }) => {
                    book.stops.iter().any(|known| known.id == stop && known.text == card.text)
                }
                Ok(Scanned::Round { round }) => book.round(&round).is_some_and(|known| known.text == card.text),
                _ => false,
            };
            assert!(found, "{card:?}");
            if let Kind::Stop(number, of) = card.kind {
                assert!((1..=of).contains(&number), "{card:?}");
            }
        }
    }
}
