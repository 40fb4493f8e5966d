//! Folding: whose session it is, in which order, and who stands where.

use super::*;
use crate::estimate::Observed as _;
use crate::testing::at;

fn said(who: &str, minute: i64, fact: Fact) -> Entry {
    Entry { at: at(minute), session: "s1".into(), who: who.into(), fact }
}

fn entered(who: &str, minute: i64) -> Entry {
    said(who, minute, Fact::Entered { room: "forge".into(), out_by: at(90) })
}

#[test]
fn nobody_speaks_in_anothers_session() {
    let honest = [entered("noor", 0), said("noor", 5, Fact::BuddyLeft { buddy: "wout".into() })];
    let plain = State::of(&honest).sessions;
    for lie in [
        Fact::Left,
        Fact::Entered { room: "fitting".into(), out_by: at(500) },
        Fact::OutByMoved { out_by: at(500) },
        Fact::SweepStarted { crew: 2 },
        Fact::BuddyConfirmed { buddy: "wout".into(), machine: None, proof: None, given: Given::OnTheirWord },
        Fact::MachineStarted { machine: "saw".into(), material: None },
        Fact::ChoreDone { chore: "saw/brush".into(), minutes: Some(9.0), photo: None },
    ] {
        let lie = said("joris", 7, lie);
        let state = State::of(honest.iter().chain([&lie]));
        assert_eq!(state.sessions.get(&"s1".into()), plain.get(&"s1".into()), "{lie:?}");
        assert_eq!(state.minutes_of(&"saw/brush".into()), [0.0; 0]);
    }
}

/// A session that was begun on one phone and left on another, its entries in the order in which each phone said them.
#[test]
fn two_phones_of_one_member_may_be_heard_in_any_order() {
    let first = [entered("noor", 0), said("noor", 5, Fact::SweepStarted { crew: 2 }), said("noor", 9, Fact::Left)];
    let other = [said("noor", 7, Fact::Left)];
    let plain = State::of(first.iter().chain(&other)).sessions;
    assert_eq!(plain[&"s1".into()].left(), Some(at(7)));
    for place in 0..=first.len() {
        let mut log = first.to_vec();
        log.splice(place..place, other.clone());
        assert_eq!(State::of(&log).sessions, plain, "the other phone is heard after {place}");
    }
    let borrowed = [entered("joris", 1)];
    for log in [[&other[..], &borrowed, &first], [&borrowed, &other, &first], [&other, &first, &borrowed]] {
        let state = State::of(log.into_iter().flatten());
        let noors = state.sessions.values().find(|session| session.who.as_str() == "noor").expect("she was here");
        assert_eq!((noors.left(), noors.name()), (Some(at(7)), "s1".into()));
    }
}

/// What two phones say of one machine in the same millisecond, and before and after it.
#[test]
fn tags_of_one_instant_are_the_same_in_any_order() {
    let tag = |who, minute, problem: &str| {
        said(who, minute, Fact::TaggedOut { machine: "saw".into(), problem: problem.into(), photo: None })
    };
    let clear = |who, minute| said(who, minute, Fact::TagCleared { machine: "saw".into() });
    for (log, last) in [
        ([tag("noor", 4, "belt"), tag("joris", 4, "guard"), clear("marit", 3)], Some("guard")),
        ([tag("noor", 4, "belt"), clear("marit", 4), tag("joris", 3, "guard")], Some("belt")),
        ([tag("noor", 4, "belt"), tag("joris", 4, "guard"), clear("marit", 5)], None),
    ] {
        for order in [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
            let state = State::of(order.map(|nth: usize| &log[nth]));
            let problem = state.tags.get(&"saw".into()).map(|tag| tag.problem.as_str());
            assert_eq!(problem, last, "{log:?} in the order {order:?}");
        }
    }
}

#[test]
fn a_borrowed_name_takes_nobody_off_the_list() {
    for log in [[entered("noor", 0), entered("joris", 1)], [entered("joris", 1), entered("noor", 0)]] {
        let mut state = State::of(&log);
        assert_eq!(state.sessions.len(), 2);
        fold(&mut state, &said("joris", 2, Fact::Left));
        let open: Vec<&PersonId> = state.sessions.values().filter(|s| s.is_open()).map(|s| &s.who).collect();
        assert_eq!(open, [&PersonId::from("noor")]);
    }
}
