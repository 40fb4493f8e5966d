//! No answer says "taken" before the commit: what an answer claims to keep of a phone is in the store when it goes out.

use shared_core::sync::message::SyncAnswer;

use crate::world::World;

pub(crate) fn check(world: &World, phone: usize, text: &str) {
    let answer = SyncAnswer::read(text).expect("a hub answers in its own words");
    let kept = world.hub.store.head(&world.phones[phone].dev);
    // Another process may have taken more since.
    let there = answer.head.seq < kept.seq || answer.head == kept;
    assert!(there, "phone {phone} is told that the hub keeps {:?}, and it keeps {kept:?}", answer.head);
}
