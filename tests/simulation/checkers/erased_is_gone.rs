//! What was erased is gone, and nothing else is: no phone that has heard of an erasing knows a line of it any more, in memory
//! or on its disk, unless it is its own member's; and nothing that is in force goes by any erasing or dropping.
//!
//! In force is read plainly here: who is inside, every word on a machine's tags behind its last clearing, the last word on each
//! round. A phone has heard of the erasings up to its number, in the life of the log that the number is of.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, MachineId, RoundId, SessionId};
use shared_core::sync::peer;
use shared_core::time::Instant;

use super::plain::{Log, Stay};
use crate::world::World;

/// What is in force, plainly.
#[derive(Debug, Default, PartialEq)]
pub(crate) struct InForce {
    inside: BTreeMap<Stay, usize>,
    tags: BTreeMap<MachineId, (Instant, BTreeSet<String>)>,
    rounds: BTreeMap<RoundId, Instant>,
}

pub(crate) fn in_force<'a>(entries: impl Iterator<Item = &'a Entry>) -> InForce {
    let entries: Vec<Entry> = entries.cloned().collect();
    let mut in_force = InForce::default();
    let log = Log::of(&entries);
    // Outside of any session only liars come in, and each line has its own time.
    let outside = SessionId::outside();
    let inside = log.inside().filter(|(stay, ..)| stay.session != outside);
    in_force.inside.extend(inside.map(|(stay, _, said)| (stay.clone(), said)));
    for entry in &entries {
        match &entry.fact {
            Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => {
                let (newest, words) = in_force.tags.entry(machine.clone()).or_default();
                if entry.at > *newest {
                    (*newest, *words) = (entry.at, BTreeSet::new());
                }
                if entry.at == *newest {
                    words.insert(format!("{:?} {}", entry.fact, entry.who));
                }
            }
            Fact::RoundDone { round } => {
                let newest = in_force.rounds.entry(round.clone()).or_default();
                *newest = entry.at.max(*newest);
            }
            _ => {}
        }
    }
    in_force
}

/// Nothing that was in force went.
pub(crate) fn nothing_in_force<'a>(before: &InForce, after: impl Iterator<Item = &'a Entry>, how: &str) {
    assert_eq!(*before, in_force(after), "something that is in force is gone: {how}");
}

/// What was heard to be erased is not there any more.
pub(crate) fn on_phones(world: &mut World) {
    let mut heard = 0;
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { continue };
        let of_others = |(dev, _): &&(DeviceId, u64)| world.shop.devices.get(dev) != Some(&phone.me);
        let known: BTreeSet<&(DeviceId, u64)> = page.ids.iter().filter(of_others).collect();
        heard += gone(world, &page.sync, &known, &format!("phone {number}"));
        let kept = phone.disk.durable();
        let sync: Option<peer::Phone> = kept.sync.as_ref().and_then(|json| serde_json::from_str(json).ok());
        gone(
            world,
            &sync.unwrap_or_default(),
            &kept.others.keys().filter(of_others).collect(),
            &format!("the disk of phone {number}"),
        );
    }
    world.tally.add("erased: stretches that phones have heard of", heard);
}

fn gone(world: &World, sync: &peer::Phone, known: &BTreeSet<&(DeviceId, u64)>, whose: &str) -> u64 {
    let mut heard = 0;
    for erasure in world.hub.store.told_to_forget(forgot(sync)) {
        let stretch = &erasure.stretch;
        let (from, to) = ((stretch.dev.clone(), stretch.from), (stretch.dev.clone(), stretch.to));
        let left = known.range::<&(DeviceId, u64), _>(&from..=&to).next();
        assert_eq!(left, None, "{whose} knows a line that it heard to be erased, {stretch:?}");
        heard += 1;
    }
    heard
}

/// The number of a phone's half of sync, which is written and read and otherwise its own.
fn forgot(sync: &peer::Phone) -> u64 {
    serde_json::to_value(sync).expect("plain data")["forgot"].as_u64().unwrap_or(0)
}

/// Whether a phone has heard of all that was erased.
pub(crate) fn has_heard_all(world: &World, sync: &peer::Phone) -> bool {
    world.hub.store.all_told(forgot(sync))
}
