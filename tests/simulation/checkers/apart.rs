//! What both ends need not agree on, of one phone and the hub: words of whom one cannot hold to their story, and words that
//! whoever said them has not any more.
//!
//! A hub that was put back to an older copy asks each phone for its own words again. What a liar told it they do not tell
//! again; what a phone's storage has spoilt meanwhile that phone cannot, nor what it let go of, and others, who were handed it,
//! are not asked. What somebody wanted erased is no part of what both know: it may lie on the phone that said it, and in an older
//! copy. What was erased because it is over makes no difference to what lasts, wherever it still lies.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::jws;

use crate::phone::Phone;
use crate::store::Gone;
use crate::world::World;

const DAY_MS: i64 = 24 * 3_600_000;

pub(crate) struct Apart<'a> {
    me: &'a PersonId,
    own: &'a DeviceId,
    /// What this phone said and has not any more. Of it the hub may keep what was in force there when it was to be erased.
    let_go: &'a BTreeMap<u64, Entry>,
    /// What its member said on another phone and it has not any more: over by all that it had heard, and perhaps in force at a
    /// hub that was put back.
    let_go_elsewhere: &'a BTreeSet<(DeviceId, u64)>,
    erased: &'a BTreeMap<(DeviceId, u64), (Gone, Option<Entry>)>,
    whose: Vec<PersonId>,
    words: Vec<Entry>,
    /// Once a day is over: where the last word may be one of these, nobody is handed the word before it.
    in_doubt: BTreeSet<String>,
}

impl<'a> Apart<'a> {
    pub(crate) fn of(world: &'a World, number: usize, phone: &'a Phone) -> Self {
        let put_back = world.hub.put_back > 0;
        let twin = world.twin_of.map(|victim| world.phones[victim].me.clone());
        // Who left a stay and a day later begins it is in for whoever was away in between, and is not for the hub.
        let liar = world.liar().filter(|_| put_back || world.true_ms > DAY_MS).cloned();
        let whose = twin.into_iter().chain(liar).collect();
        // Nobody hands a phone its own words back; once there was another copy, others' may be nowhere but on some phones.
        let mut words = spoilt(world, number);
        if put_back {
            words.extend(
                (0..world.phones.len()).filter(|other| *other != number).flat_map(|other| spoilt(world, other)),
            );
            words.extend(world.expected.let_go.iter().flat_map(BTreeMap::values).cloned());
        }
        let mut apart = Self {
            me: &phone.me,
            own: &phone.dev,
            let_go: &world.expected.let_go[number],
            let_go_elsewhere: &world.expected.let_go_elsewhere[number],
            erased: &world.expected.erased,
            whose,
            words,
            in_doubt: BTreeSet::new(),
        };
        if world.true_ms > DAY_MS {
            let page = phone.page.as_ref().expect("it is on");
            let said = world.hub.store.entries().chain(&page.entries).filter(|entry| apart.holds(entry));
            apart.in_doubt = said.chain(&apart.words).filter_map(last_word_on).collect();
        }
        if put_back {
            // An older copy may have what was in force before the word that was last, and that word may be let go of.
            let gone = apart.erased.values().filter_map(|(_, said)| said.as_ref());
            let gone = gone.chain(world.expected.let_go.iter().flat_map(BTreeMap::values));
            apart.in_doubt.extend(gone.filter_map(last_word_on));
        }
        apart
    }

    /// Whether a word need not be known to both.
    pub(crate) fn has(&self, dev: &DeviceId, seq: u64, entry: &Entry) -> bool {
        let id = (dev.clone(), seq);
        let gone = self.erased.get(&id);
        // Their own phones keep what a member said until they let go of it by themselves.
        gone.is_some_and(|(why, _)| *why == Gone::Wanted || entry.who == *self.me)
            || (dev == self.own && self.let_go.contains_key(&seq))
            || self.let_go_elsewhere.contains(&id)
            || self.holds(entry)
            || last_word_on(entry).is_some_and(|on| self.in_doubt.contains(&on))
    }

    fn holds(&self, entry: &Entry) -> bool {
        self.whose.contains(&entry.who) || self.words.contains(entry)
    }
}

/// What a phone once said and its storage has spoilt.
fn spoilt(world: &World, number: usize) -> Vec<Entry> {
    let rotten = &world.expected.rotten[number];
    let lines = world.expected.signed.get(&world.phones[number].dev).filter(|_| !rotten.is_empty());
    let said = lines.into_iter().flatten().filter_map(|line| jws::unproved(line));
    said.filter(|(link, _)| rotten.contains(&link.seq)).map(|(_, entry)| entry).collect()
}

/// What of which a phone is handed the last word alone, however old.
fn last_word_on(entry: &Entry) -> Option<String> {
    match &entry.fact {
        Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => Some(format!("tag {machine}")),
        Fact::RoundDone { round } => Some(format!("round {round}")),
        Fact::Entered { .. } | Fact::OutByMoved { .. } | Fact::Left => {
            Some(format!("stay {} {}", entry.session, entry.who))
        }
        _ => None,
    }
}
