//! Every prefix of every log folds, one entry at a time or all at once, to the same state; and a session's own order is
//! all that matters: devices may interleave in any way.
//!
//! Each line is also read back from its text, so that what was signed is what is folded.

use std::collections::BTreeMap;

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::jws;
use shared_core::report::report;
use shared_core::state::{State, fold};

use crate::world::World;

pub(crate) fn check(world: &mut World) {
    let mut by_device: BTreeMap<DeviceId, Vec<Entry>> = BTreeMap::new();
    for row in world.hub.store.log.values() {
        let Some(entry) = &row.entry else { continue };
        let read = jws::open(&row.jws).expect("the hub keeps what opens").entry;
        assert_eq!(read, *entry);
        by_device.entry(row.dev.clone()).or_default().push(read);
    }
    let all: Vec<Entry> = world.hub.store.entries().cloned().collect();
    let mut state = State::default();
    for (count, entry) in (1..).zip(&all) {
        fold(&mut state, entry);
        sound(&state);
        if count % 64 == 0 || count == all.len() {
            assert_eq!(state, State::of(&all[..count]), "the first {count} entries");
            report(&world.shop.books[world.hub.book].rules, &state);
        }
    }
    if world.is_honest() {
        let shuffled: Vec<&Entry> = by_device.values().rev().flatten().collect();
        assert_eq!(State::of(shuffled).sessions, state.sessions, "devices one after the other");
    }
    let spoilt = world.expected.rotten.iter().any(|seqs| !seqs.is_empty());
    if world.is_honest() && !spoilt {
        // A phone that is lost stops nothing, and its member may say from another that they have gone.
        let phones = |who: &PersonId| world.phones.iter().filter(|phone| phone.me == *who).count();
        for session in state.sessions.values().filter(|session| !session.is_open() && phones(&session.who) == 1) {
            assert_eq!(session.running_all().next(), None, "whoever leaves has stopped what they ran: {session:?}");
        }
    }
    world.tally.add("prefixes folded", all.len() as u64);
}

/// What holds of every state, however it came about.
fn sound(state: &State) {
    for session in state.sessions.values() {
        assert!(session.from <= session.last_at, "{session:?}");
        assert!(session.left().is_none_or(|left| left <= session.last_at), "{session:?}");
        assert!(session.uses.iter().all(|use_| use_.to.is_none_or(|to| use_.from <= to)), "{session:?}");
        let mut running: Vec<_> = session.running_all().map(|use_| &use_.machine).collect();
        running.sort();
        running.dedup();
        assert_eq!(running.len(), session.running_all().count(), "one machine runs twice: {session:?}");
    }
}
