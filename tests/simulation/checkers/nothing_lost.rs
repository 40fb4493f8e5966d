//! Nothing is lost: what a screen showed as done is in that phone's log ever after, and once healed, at the hub.
//!
//! Only what the storage itself spoilt is exempt, and what a second story with the same key pushed out of its place at the
//! hub; that one stays on the phone. And what was erased, or is over: [`super::erased_is_gone`] says what may not be.

use std::collections::BTreeMap;

use shared_core::log::jws;
use shared_core::sync::message::Why;

use crate::world::World;

pub(crate) fn on_phones(world: &World) {
    for (number, phone) in world.phones.iter().enumerate() {
        let kept: BTreeMap<u64, &String> = phone.disk.durable().own.iter().map(|(seq, line)| (*seq, line)).collect();
        for (seq, line) in &world.expected.confirmed[number] {
            let there = kept.get(seq) == Some(&line);
            let rotten = world.expected.rotten[number].contains(seq);
            // A line that has rotted and was not read since is not known to be rotten yet.
            let unread = phone.page.is_none();
            let let_go = world.expected.let_go[number].contains_key(seq);
            assert!(
                there || rotten || unread || let_go,
                "phone {number} lost its entry {seq}, which was shown as done"
            );
        }
    }
}

pub(crate) fn at_the_hub(world: &mut World) {
    let mut found = 0;
    for (number, phone) in world.phones.iter().enumerate() {
        for (seq, line) in &world.expected.confirmed[number] {
            let kept = world.hub.store.line(&phone.dev, *seq).is_some_and(|row| row.hash == jws::hash(line));
            // An older copy asks for it again, and the phone has it no more.
            let let_go = world.hub.put_back > 0 && world.expected.let_go[number].contains_key(seq);
            let rotten = world.expected.rotten[number].contains(seq);
            let forked = world.twin_of == Some(number);
            assert!(kept || rotten || forked || let_go, "the hub never got entry {seq} of phone {number}");
            if kept {
                let row = world.hub.store.line(&phone.dev, *seq).expect("it is kept");
                // Whether its giver might say it is another checker's to ask.
                let aside = row.aside.filter(|why| *why != Why::NotAllowed);
                assert_eq!(aside, None, "the hub set entry {seq} of honest phone {number} aside: {line}");
                found += 1;
            }
        }
    }
    world.tally.add("entries shown as done and at the hub", found);
}
