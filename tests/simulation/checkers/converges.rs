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

const DAY_MS: i64 = 24 * 3_600_000;

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
        let gone = phone.disk.durable().own.iter().find(|(seq, _)| world.hub.store.line(&phone.dev, *seq).is_none());
        if let Some((seq, _)) = gone {
            return Err(format!("the hub has no entry {seq} of phone {number}"));
        }
        same(world, number, phone)?;
    }
    super::forged_is_refused::forks_are_told(world).map(drop)
}

fn same(world: &World, number: usize, phone: &Phone) -> Result<(), String> {
    let twin = world.twin_of.map(|victim| world.phones[victim].me.clone());
    // What a liar told a hub of which an older copy was put back, they do not tell again.
    let liar = world.liar().filter(|_| world.hub.put_back > 0);
    // What a phone's storage has spoilt of its own words nobody hands back to it; others may have them.
    let spoilt = (!world.expected.rotten[number].is_empty()).then_some(&phone.me);
    let shared = |entry: &&Entry| {
        let whose = Some(&entry.who);
        members_may_see(&entry.fact) && whose != twin.as_ref() && whose != spoilt && whose != liar
    };
    let page = phone.page.as_ref().expect("it is on");
    // Who was out of reach for more than a day is not told everything of the days before.
    let seen = if world.true_ms > DAY_MS { lasting } else { everything };
    let there = seen(&State::of(world.hub.store.entries().filter(shared)));
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
fn everything(state: &State) -> Vec<String> {
    let sessions = state.sessions.values().map(|session| {
        // Which of two stays bears a borrowed name alone depends on which was heard of first.
        let stay = Stay::of(&session.id, &session.who);
        format!("{stay:?} {:?}", Session { id: SessionId::outside(), ..session.clone() })
    });
    let found = state.found.iter().map(|found| format!("{found:?}"));
    sorted(sessions.chain(found).chain(standing(state)).collect())
}

/// What is seen however old it is: who is in, what is tagged out, which rounds were done.
fn lasting(state: &State) -> Vec<String> {
    let inside = state.sessions.values().filter(|session| session.is_open());
    let inside = inside.map(|session| format!("{:?} {:?}", Stay::of(&session.id, &session.who), session.out_by));
    sorted(inside.chain(standing(state)).collect())
}

fn standing(state: &State) -> impl Iterator<Item = String> {
    let tags = state.tags.iter().map(|tag| format!("{tag:?}"));
    tags.chain(state.rounds.iter().map(|round| format!("{round:?}")))
}

fn sorted(mut seen: Vec<String>) -> Vec<String> {
    seen.sort();
    seen
}
