//! Healed, all ends come to the same story: every phone and the hub know the same sessions, tags and finds, as far as
//! members may see them.
//!
//! Both sides are folded by the shipping code; what differs is the way on which the entries came.

use std::collections::BTreeSet;

use shared_core::entry::{Entry, Fact};
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
    let set_apart = |entry: &Entry| {
        let whose = Some(&entry.who);
        whose == twin.as_ref() || whose == spoilt || whose == liar
    };
    // Where the last word may be one of these, nobody is handed the word before it once that is a day old.
    let page = phone.page.as_ref().expect("it is on");
    let theirs = world.hub.store.entries().chain(&page.entries).filter(|entry| set_apart(entry));
    let in_doubt: BTreeSet<String> = theirs.filter_map(|entry| last_word_on(&entry.fact)).collect();
    let shared = |entry: &&Entry| {
        let doubtful = || last_word_on(&entry.fact).is_some_and(|on| in_doubt.contains(&on));
        members_may_see(&entry.fact) && !set_apart(entry) && !(world.true_ms > DAY_MS && doubtful())
    };
    // Who was out of reach for more than a day is not told everything of the days before.
    let seen = if world.true_ms > DAY_MS { lasting } else { everything };
    let there = seen(&State::of(world.hub.store.entries().filter(shared)));
    let here = seen(&State::of(page.entries.iter().filter(shared)));
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

/// What of which a phone is handed the last word alone, however old.
fn last_word_on(fact: &Fact) -> Option<String> {
    match fact {
        Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => Some(format!("tag {machine}")),
        Fact::RoundDone { round } => Some(format!("round {round}")),
        _ => None,
    }
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
    sorted(sessions.chain(found).chain(notes).chain(standing(state)).collect())
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
