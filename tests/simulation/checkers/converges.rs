//! Healed, all ends come to the same story: every phone and the hub know the same sessions, tags and finds, as far as
//! members may see them.
//!
//! Both sides are folded by the shipping code; what differs is the way on which the entries came.

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, SessionId};
use shared_core::state::{Session, State};
use shared_core::sync::hub::members_may_see;

use super::apart::Apart;
use super::plain::Stay;
use crate::phone::Phone;
use crate::world::World;

const DAY_MS: i64 = 24 * 3_600_000;

/// Whether all has come together; else what has not.
pub(crate) fn converged(world: &World) -> Result<(), String> {
    if world.hub.store.owes_proof() {
        return Err("the hub has lines to prove".to_owned());
    }
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { return Err(format!("phone {number} is off")) };
        let forked = world.twin_of == Some(number);
        if page.pending.is_some() || !page.jumps.is_empty() {
            return Err(format!("phone {number} is busy"));
        }
        if forked {
            continue;
        }
        if !super::erased_is_gone::has_heard_all(world, &page.sync) {
            return Err(format!("phone {number} has not heard of all that was erased"));
        }
        if page.waits() {
            return Err(format!("phone {number} has lines to send"));
        }
        // What the storage spoilt it cannot send, and keeps as it is while there is no room to note that.
        let sound = |seq: &&u64| !world.expected.rotten[number].contains(*seq);
        let mut own = phone.disk.durable().own.iter().map(|(seq, _)| seq).filter(sound);
        if let Some(seq) = own.find(|seq| world.hub.store.line(&phone.dev, **seq).is_none()) {
            return Err(format!("the hub has no entry {seq} of phone {number}"));
        }
        same(world, number, phone)?;
    }
    super::words_count::on_phones(world)?;
    super::forged_is_refused::forks_are_told(world).map(drop)
}

fn same(world: &World, number: usize, phone: &Phone) -> Result<(), String> {
    let page = phone.page.as_ref().expect("it is on");
    let apart = Apart::of(world, number, phone);
    let shared = |dev: &DeviceId, seq: u64, entry: &Entry| members_may_see(&entry.fact) && !apart.has(dev, seq, entry);
    // Who was out of reach for more than a day is not told everything of the days before.
    let seen = if world.true_ms > DAY_MS { lasting } else { everything };
    let at_the_hub = world.hub.store.counted().filter(|(dev, seq, entry)| shared(dev, *seq, entry));
    let there = State::of(at_the_hub.map(|(_, _, entry)| entry));
    let on_it = page.ids.iter().zip(&page.entries).filter(|((dev, seq), entry)| shared(dev, *seq, entry));
    let here = State::of(on_it.map(|(_, entry)| entry));
    if is_alike(&here, &there) {
        return Ok(());
    }
    let (here, there) = (seen(&here), seen(&there));
    if here == there {
        return Ok(());
    }
    let only = |one: &[String], other: &[String]| -> Vec<String> {
        one.iter().filter(|line| !other.contains(line)).take(4).cloned().collect()
    };
    let (phone_only, hub_only) = (only(&here, &there), only(&there, &here));
    Err(format!(
        "phone {number} of {} and the hub tell different stories: the phone alone {phone_only:#?}, the hub alone {hub_only:#?}",
        phone.me
    ))
}

/// Whether nothing tells two states apart: most of the time, and quicker to see than [`everything`].
fn is_alike(one: &State, other: &State) -> bool {
    let found = |state: &State| {
        let mut found = state.found.clone();
        found.sort_by(|a, b| (a.at, &a.by).cmp(&(b.at, &b.by)));
        found
    };
    (&one.sessions, &one.tags, &one.rounds, &one.notes) == (&other.sessions, &other.tags, &other.rounds, &other.notes)
        && one.clear_calls == other.clear_calls
        && found(one) == found(other)
}

/// What is seen of a state, in an order of its own.
fn everything(state: &State) -> Vec<String> {
    let sessions = state.sessions.values().map(|session| {
        // Which of two stays bears a borrowed name alone depends on which was heard of first.
        let stay = Stay::of(&session.id, &session.who);
        format!("{stay:?} {:?}", Session { id: SessionId::outside(), ..session.clone() })
    });
    let found = state.found.iter().map(|found| format!("{found:?}"));
    let notes = state.notes.iter().map(|notes| format!("{notes:?}"));
    let calls = state.clear_calls.iter().map(|call| format!("{call:?}"));
    sorted(sessions.chain(found).chain(notes).chain(calls).chain(standing(state)).collect())
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
