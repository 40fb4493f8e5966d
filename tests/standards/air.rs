//! VOC limits of the demo shop against the region's numbers that it borrows, and what closes the use of its hood.

use shared_core::air::{Tin, Verdict, against};
use shared_core::rulebook::Rulebook;

use crate::table::rows;

fn demo() -> Rulebook {
    shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml")).0.expect("the demo rulebook")
}

#[test]
fn the_demos_limits_are_numbers_of_their_region() {
    let book = demo();
    let table = rows(include_str!("../data/voc-limits.csv"), 10);
    let rooms = book.rooms.iter().filter_map(|room| room.voc.as_ref());
    let hoods = book.machines.iter().filter_map(|machine| machine.voc.as_ref());
    let limits: Vec<_> = rooms.chain(hoods).collect();
    assert_eq!(limits.len(), 2);
    for limit in limits {
        let borrowed = table.iter().find(|row| {
            let words: Vec<&str> = row.text("product").split(' ').collect();
            row.text("g_per_l") == limit.g_per_l.to_string() && words.iter().all(|word| limit.source.contains(word))
        });
        let row = borrowed.unwrap_or_else(|| panic!("{limit:?} is nobody's number"));
        assert!(limit.source.contains("2004/42/EC"), "{limit:?}");
        assert_eq!(limit.source.contains("from memory"), row.text("mark") == "from memory", "{limit:?}");
    }
}

/// A varnish that California would sell is used in the demo's hood and not in its room; regions do differ.
#[test]
fn a_tin_is_held_against_the_shops_own_limits() {
    let book = demo();
    let room = book.rooms.iter().find_map(|room| room.voc.as_ref()).expect("a room for finishing");
    let hood = book.machines.iter().find_map(|machine| machine.voc.as_ref()).expect("a hood");
    for row in rows(include_str!("../data/voc-limits.csv"), 10) {
        let grams = row.text("g_per_l").parse().expect("whole grams");
        let verdict = |limit, is_hood| against(limit, is_hood, Tin::GramsPerLitre(grams)) == Verdict::Here;
        assert_eq!((verdict(room, false), verdict(hood, true)), (grams <= 130, grams <= 500), "{}", row.name());
    }
}

/// Front down, fan on, a sign-off of its own, and a fan that runs on: common practice, no source.
#[test]
fn the_hood_is_checked_before_and_closed_after() {
    let book = demo();
    for hood in book.machines.iter().filter(|machine| machine.voc.is_some()) {
        let says = |words: &str| hood.start_checks.iter().any(|check| check.contains(words));
        assert!(says("Fan is on") && says("Front is down"), "{:?}", hood.start_checks);
        assert!(book.machines.iter().all(|other| other.id == hood.id || other.training != hood.training));
        let closes =
            hood.chores.iter().find(|chore| chore.text.contains("Fan stays on")).expect("a chore that closes it");
        assert_eq!((closes.hands, closes.after.len()), (0, 2), "the fan runs on alone, after tins and rags");
    }
}
