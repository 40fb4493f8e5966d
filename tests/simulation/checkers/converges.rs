//! Healed, all ends come to the same story: every phone and the hub know the same sessions, tags and finds, as far as
//! members may see them.
//!
//! Both sides are folded by the shipping code; what differs is the way on which the entries came.

use shared_core::entry::Entry;
use shared_core::ids::SessionId;
use shared_core::state::{Session, State};
use shared_core::sync::hub::members_may_see;

use super::plain::Stay;
use crate::phone::Phone;
use crate::world::World;

/// Whether all has come together; else what has not.
pub(crate) fn converged(world: &World) -> Result<(), String> {
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { return Err(format!("phone {number} is off")) };
        let forked = world.twin_of == Some(number);
        if page.pending.is_some() || !page.jumps.is_empty() {
            return Err(format!("phone {number} is busy"));
        }
        if forked {
            continue;
        }
        if page.waits() {
            return Err(format!("phone {number} has lines to send"));
        }
        same(world, number, phone)?;
    }
    super::forged_is_refused::forks_are_told(world).map(drop)
}

fn same(world: &World, number: usize, phone: &Phone) -> Result<(), String> {
    let twin = world.twin_of.map(|victim| world.phones[victim].me.clone());
    // What a phone's storage has spoilt of its own words nobody hands back to it; others may have them.
    let spoilt = (!world.expected.rotten[number].is_empty()).then_some(&phone.me);
    let shared = |entry: &&Entry| {
        members_may_see(&entry.fact) && Some(&entry.who) != twin.as_ref() && Some(&entry.who) != spoilt
    };
    let page = phone.page.as_ref().expect("it is on");
    let there = seen(&State::of(world.hub.entries().filter(shared)));
    let here = seen(&State::of(page.entries.iter().filter(shared)));
    if here == there {
        return Ok(());
    }
    let differs =
        here.iter().filter(|line| !there.contains(line)).chain(there.iter().filter(|line| !here.contains(line)));
    let differs: Vec<&String> = differs.take(4).collect();
    Err(format!("phone {number} and the hub tell different stories: {differs:#?}"))
}

/// What is seen of a state, in an order of its own.
fn seen(state: &State) -> Vec<String> {
    let sessions = state.sessions.values().map(|session| {
        // Which of two stays bears a borrowed name alone depends on which was heard of first.
        let stay = Stay::of(&session.id, &session.who);
        format!("{stay:?} {:?}", Session { id: SessionId::outside(), ..session.clone() })
    });
    let tags = state.tags.iter().map(|tag| format!("{tag:?}"));
    let found = state.found.iter().map(|found| format!("{found:?}"));
    let mut seen: Vec<String> = sessions.chain(tags).chain(found).collect();
    seen.sort();
    seen
}
