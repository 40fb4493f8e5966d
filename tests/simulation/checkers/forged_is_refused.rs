//! Forgeries are refused: nothing is stored as a member's word that their phone did not sign, everything that is not
//! counted is told with its reason, and two stories of one key are always told to the phone.

use shared_core::log::jws;
use shared_core::sync::message::Why;

use crate::adversary::{Fate, Lie, VOUCHED};
use crate::hub::Outcome;
use crate::world::World;

/// What the hub made of a lie, and how many lines it stored.
pub(crate) fn fate(lie: &Lie, outcome: Option<&Outcome>, stored: usize) {
    match (lie.fate, outcome) {
        (Fate::NoQuestion, None) => assert_eq!(stored, 0),
        (Fate::Known, Some(outcome)) => assert!(outcome.rejected.is_empty() && stored == 0, "{lie:?}: {outcome:?}"),
        (Fate::Again, Some(outcome)) => assert!(!outcome.rejected.is_empty() && stored == 0, "{lie:?}: {outcome:?}"),
        (Fate::Vouched, Some(outcome)) => {
            assert!(outcome.rejected.is_empty() && stored == VOUCHED + 1, "{lie:?}: {outcome:?}");
        }
        (Fate::TheirOwn, Some(outcome)) => assert!(outcome.rejected.is_empty() && stored == 1, "{lie:?}: {outcome:?}"),
        (Fate::Rejected(why), Some(outcome)) => {
            assert!(outcome.rejected.iter().any(|told| told.why == why), "{lie:?}: {outcome:?}");
            assert_eq!(stored, usize::from(why.set_aside()), "{lie:?}");
        }
        (_, outcome) => panic!("{lie:?}: {outcome:?}"),
    }
}

/// Nothing counts at the hub that its member's own key did not sign.
pub(crate) fn check(world: &mut World) {
    let handed_to = world.hub.store.handed_to();
    for (place, row) in &world.hub.store.log {
        let Some(entry) = &row.entry else { continue };
        assert_eq!(world.hub.devices.get(&row.dev), Some(&entry.who), "someone else's word: {row:?}");
        let signed = world.expected.signed.get(&row.dev).is_some_and(|lines| lines.contains(&row.jws));
        assert!(signed || world.is_liars(&row.dev), "no honest phone signed this: {row:?}");
        assert!(signed || *place > handed_to || jws::open(&row.jws).is_ok(), "handed out and not signed: {row:?}");
    }
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { continue };
        let foreign = page.entries.iter().find(|entry| !world.shop.devices.values().any(|who| *who == entry.who));
        assert_eq!(foreign, None, "phone {number} believes a stranger");
    }
}

/// A phone whose lines the hub has no place for has been told; else why not.
pub(crate) fn forks_are_told(world: &World) -> Result<bool, String> {
    let Some(victim) = world.twin_of else {
        let told = world.phones.iter().position(|phone| phone.told_fork);
        assert_eq!(told, None, "a phone was told of a fork that nobody made");
        return Ok(false);
    };
    let phone = &world.phones[victim];
    let own = &phone.disk.durable().own;
    // What the storage spoilt is no story, and lies there while there is no room to note it.
    let rotten = &world.expected.rotten[victim];
    let other_story = |(seq, line): &&(u64, String)| {
        !rotten.contains(seq) && world.hub.store.line(&phone.dev, *seq).is_none_or(|row| row.hash != jws::hash(line))
    };
    let lost_place = own.iter().filter(other_story).count();
    let longer = world.hub.store.head(&phone.dev).seq > phone.disk.durable().head.seq;
    let told = phone.told_fork || phone.told.values().any(|why| *why == Why::Fork);
    if (lost_place > 0 || longer) && !told {
        return Err(format!("phone {victim} has a twin and was not told; {lost_place} of its lines have no place"));
    }
    Ok(told)
}

/// No honest phone was told for good that a line of its does not count: a gap closes by itself.
pub(crate) fn honest_lines_count(world: &World) {
    for (number, phone) in world.phones.iter().enumerate() {
        if world.twin_of == Some(number) || !world.expected.rotten[number].is_empty() {
            continue;
        }
        let told = phone.told.iter().find(|(_, why)| !matches!(why, Why::Gap | Why::NotAllowed));
        assert_eq!(told, None, "phone {number} was told that an honest line of its does not count");
    }
}
