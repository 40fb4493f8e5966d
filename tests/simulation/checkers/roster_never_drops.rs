//! A muster list never drops anybody: whoever entered and did not say that they left is on it, however old that is.
//!
//! Held against a plain reading of what each phone has heard, and of what the hub has.

use std::collections::BTreeSet;

use shared_core::entry::Entry;
use shared_core::ids::{RoomId, SessionId};
use shared_core::report::report;
use shared_core::state::State;
use shared_core::view::board::board;
use shared_core::view::room::room;

use super::plain::{Log, Stay};
use crate::world::World;

pub(crate) fn check(world: &mut World) {
    let (mut listed, mut boards) = (0, 0);
    for (number, phone) in world.phones.iter().enumerate() {
        let (Some(viewer), Some(page)) = (phone.viewer(&world.shop), &phone.page) else { continue };
        let people = room(&viewer).rooms.into_iter().flat_map(|room| room.people);
        let shown: BTreeSet<Stay> = people.map(|person| Stay::of(&person.session, &person.who)).collect();
        let rooms = &world.shop.books[page.book].rules.rooms;
        let inside = inside(&page.entries, |room| rooms.iter().any(|known| known.id == *room));
        assert_eq!(shown, inside, "the muster list of phone {number}, and who is plainly inside");
        listed += shown.len() as u64;
        if phone.kind.board {
            let rows = rooms.iter().filter_map(|room| board(&viewer, &room.id)).flat_map(|board| board.sessions);
            let on_the_wall: BTreeSet<SessionId> = rows.map(|row| row.id).collect();
            let known: BTreeSet<SessionId> =
                viewer.state.sessions.values().filter(|s| s.is_open()).map(|s| s.id.clone()).collect();
            assert_eq!(on_the_wall, known, "the boards of phone {number}, and who is inside");
            assert_eq!(on_the_wall.len(), shown.len(), "the boards of phone {number}, and its muster list");
            boards += 1;
        }
    }
    world.tally.add("roster: boards looked at", boards);
    let entries: Vec<Entry> = world.hub.store.entries().cloned().collect();
    let told = report(&world.shop.books[world.hub.book].rules, &State::of(&entries)).in_room.len();
    assert_eq!(told, inside(&entries, |_| true).len(), "the hub's muster list, and who is plainly inside");
    world.tally.add("roster: names looked at", listed);
}

fn inside(entries: &[Entry], known: impl Fn(&RoomId) -> bool) -> BTreeSet<Stay> {
    let log = Log::of(entries);
    log.inside().filter(|(_, room, _)| known(room)).map(|(stay, ..)| stay.clone()).collect()
}
