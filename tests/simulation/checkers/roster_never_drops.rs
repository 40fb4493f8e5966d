//! A muster list never drops anybody: whoever entered and did not say that they left is on it, however old that is.
//!
//! Held against a plain reading of what each phone has heard, and of what the hub has.

use std::collections::BTreeSet;

use shared_core::entry::Entry;
use shared_core::ids::RoomId;
use shared_core::report::report;
use shared_core::state::State;
use shared_core::view::room::room;

use super::plain::{self, Stay};
use crate::world::World;

pub(crate) fn check(world: &mut World) {
    let mut listed = 0;
    for (number, phone) in world.phones.iter().enumerate() {
        let (Some(viewer), Some(page)) = (phone.viewer(&world.shop), &phone.page) else { continue };
        let people = room(&viewer).rooms.into_iter().flat_map(|room| room.people);
        let shown: BTreeSet<Stay> = people.map(|person| Stay::of(&person.session, &person.who)).collect();
        let inside = inside(&page.entries, |room| world.shop.book.rooms.iter().any(|known| known.id == *room));
        assert_eq!(shown, inside, "the muster list of phone {number}, and who is plainly inside");
        listed += shown.len() as u64;
    }
    let entries: Vec<Entry> = world.hub.entries().cloned().collect();
    let told = report(&world.shop.book, &State::of(&entries)).in_room.len();
    assert_eq!(told, inside(&entries, |_| true).len(), "the hub's muster list, and who is plainly inside");
    world.tally.add("roster: names looked at", listed);
}

fn inside(entries: &[Entry], known: impl Fn(&RoomId) -> bool) -> BTreeSet<Stay> {
    let begun = plain::begun(entries).into_iter().filter(|(_, room)| known(room));
    begun.map(|(stay, _)| stay).filter(|stay| plain::left(entries, stay).is_none()).collect()
}
