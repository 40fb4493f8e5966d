//! Whose word holds, who may give one, what is fresh, and the walk: tables.

use proptest::prelude::*;

use super::act::{Act, decide};
use super::fresh::days_span;
use super::walk::{Walked, mark, walked};
use super::{Key, Says, Words};
use crate::card::Role;
use crate::decide::start_machine;
use crate::entry::{Entry, Fact, Point};
use crate::ids::{PersonId, SessionId};
use crate::members::{Member, Members};
use crate::refusal::Refusal;
use crate::rulebook::{Question, Stop, Training};
use crate::state::State;
use crate::testing::{World, at};

fn said(by: &str, minute: i64, fact: Fact) -> Entry {
    Entry { at: at(minute), session: SessionId::outside(), who: by.into(), fact }
}

fn off(person: &str, until: Option<i64>) -> Fact {
    Fact::SignedOff { person: person.into(), training: "lathe".into(), until: until.map(at) }
}

fn role(person: &str, role: Role) -> Fact {
    Fact::RoleGiven { person: person.into(), role }
}

fn training(signers: &[&str], use_within_days: Option<u32>) -> Training {
    Training {
        id: "lathe".into(),
        name: "Lathe work".into(),
        checklist: vec!["Chuck key out.".into()],
        valid_days: 30,
        use_within_days,
        signers: signers.iter().map(|&signer| signer.into()).collect(),
    }
}

/// What the members' list says of `teun` and the lathe after these words, in minutes; the base says 50,000 as of minute `base`.
fn check(base: Option<i64>, words: &[Entry], expected: Option<i64>) {
    let mut members = World::new().members;
    if let (Some(minute), Some(teun)) = (base, members.get_mut(&"teun".into())) {
        teun.said.insert(Key::Training("lathe".into()).name(), at(minute));
    }
    let mut folded = Words::default();
    for word in words {
        folded.take(word);
    }
    let once = |members: &Members| {
        let mut members = members.clone();
        folded.apply(&mut members);
        members
    };
    let applied = once(&members);
    assert_eq!(once(&applied), applied, "done twice it is as done once");
    let until = applied.get(&"teun".into()).and_then(|teun| teun.signed_off.get("lathe").copied());
    assert_eq!(until, expected.map(at), "{base:?} {words:?}");
}

#[test]
fn the_later_word_holds_and_of_two_at_once_the_one_that_lets_less_be_done() {
    let (gives, longer, back) =
        (said("bram", 5, off("teun", Some(900))), said("bram", 7, off("teun", Some(950))), off("teun", None));
    check(None, &[], Some(50_000));
    check(None, std::slice::from_ref(&gives), Some(900));
    check(None, &[longer.clone(), gives.clone()], Some(950));
    check(None, &[said("ada", 7, back.clone()), longer.clone()], None);
    check(None, &[longer.clone(), said("ada", 7, back.clone())], None);
    check(None, &[said("ada", 6, back), longer], Some(950));
    // The file says of itself when it was written: words before that are known to it.
    check(Some(5), std::slice::from_ref(&gives), Some(50_000));
    check(Some(4), &[gives], Some(900));
}

fn any_word() -> impl Strategy<Value = Entry> {
    let fact = (0..4_u8, 0..3_i64).prop_map(|(kind, n)| match kind {
        0 => off("teun", Some(900 + n)),
        1 => off("teun", None),
        2 => Fact::Inducted { person: "teun".into(), until: (n > 0).then(|| at(n)) },
        _ => role("teun", if n > 1 { Role::Signer } else { Role::Steward }),
    });
    (prop::sample::select(vec!["bram", "noor"]), 0..3_i64, fact).prop_map(|(by, minute, fact)| said(by, minute, fact))
}

proptest! {
    #[test]
    fn words_fold_to_the_same_in_any_order(words in prop::collection::vec(any_word(), 0..8), turn in 0..8_usize) {
        let mut other = words.clone();
        other.rotate_left(turn.min(words.len()));
        other.reverse();
        prop_assert_eq!(State::of(&words), State::of(&other));
    }
}

#[test]
fn who_may_give_a_word() {
    let mut world = World::new();
    world.book.trainings = vec![training(&["ilse"], None)];
    let signer = |id: &str| Member { signer: true, ..world.members.get(&id.into()).cloned().unwrap_or_default() };
    let (noor, ilse) = (signer("noor"), signer("ilse"));
    world.members.put(noor);
    world.members.put(ilse);
    let lathe = || Refusal::NotASigner { training: "Lathe work".into() };
    let drill = |person: &str| Fact::SignedOff { person: person.into(), training: "drill".into(), until: Some(at(9)) };
    let inducted = |until| Fact::Inducted { person: "teun".into(), until };
    for (giver, fact, expected) in [
        ("bram", off("teun", Some(9)), Ok(())),
        ("ilse", off("teun", Some(9)), Ok(())),
        ("ilse", off("teun", None), Ok(())),
        // A signer whom the training does not name; one where it names nobody.
        ("noor", off("teun", Some(9)), Err(lathe())),
        ("noor", drill("teun"), Ok(())),
        ("teun", off("noor", Some(9)), Err(lathe())),
        ("bram", off("bram", Some(9)), Err(Refusal::OwnSignOff)),
        ("ilse", off("ilse", None), Ok(())),
        ("bram", inducted(Some(at(9))), Ok(())),
        ("ilse", inducted(Some(at(9))), Err(Refusal::StewardsAct)),
        ("ilse", role("teun", Role::Signer), Err(Refusal::StewardsAct)),
        ("bram", role("teun", Role::Steward), Ok(())),
        ("bram", role("bram", Role::Steward), Ok(())),
        ("bram", role("bram", Role::Member), Err(Refusal::LastSteward)),
        ("bram", off("nobody", Some(9)), Err(Refusal::NoSuchMember { person: "nobody".into() })),
        ("nobody", off("teun", Some(9)), Err(Refusal::NotAMember)),
        ("teun", Fact::WatchRound, Ok(())),
    ] {
        assert_eq!(Words::may_give(&giver.into(), &fact, &world.book, &world.members), expected, "{giver} {fact:?}");
    }
    let two = said("bram", 1, role("noor", Role::Steward));
    let mut words = Words::default();
    words.take(&two);
    words.apply(&mut world.members);
    let gives_up = role("bram", Role::Member);
    assert_eq!(Words::may_give(&"bram".into(), &gives_up, &world.book, &world.members), Ok(()));
}

#[test]
fn a_sign_off_is_made_for_as_long_as_its_training_says() {
    let mut world = World::new();
    world.book.trainings = vec![training(&[], None)];
    let bram = PersonId::from("bram");
    for (act, says) in [
        (Act::SignOff("teun".into(), "lathe".into()), Says::Until(Some(at(5) + days_span(30)))),
        (Act::SignOff("teun".into(), "saw".into()), Says::Until(Some(at(5) + days_span(365)))),
        (Act::Induct("teun".into()), Says::Until(Some(at(5) + days_span(365)))),
        (Act::TakeBack("teun".into(), Key::Training("saw".into())), Says::Until(None)),
        (Act::TakeBack("teun".into(), Key::Induction), Says::Until(None)),
        (Act::TakeBack("teun".into(), Key::Role), Says::Role(Role::Member)),
        (Act::GiveRole("teun".into(), Role::Signer), Says::Role(Role::Signer)),
    ] {
        let entries = decide(&world.viewer(&bram, at(5)), act.clone()).expect("a steward may");
        let said = entries.iter().filter_map(|entry| super::said_by(&entry.fact)).map(|(_, _, says)| says);
        assert_eq!(said.collect::<Vec<_>>(), [says], "{act:?}");
        assert_eq!(entries[0].session, SessionId::outside());
    }
    let odd = Act::SignOff("teun".into(), "loom".into());
    let refused = decide(&world.viewer(&bram, at(5)), odd);
    assert_eq!(refused, Err(Refusal::NoSuchTraining { training: "loom".into() }));
}

#[test]
fn a_sign_off_stays_fresh_by_use() {
    const DAY: i64 = 24 * 60;
    let fresh = |used: &[(&str, i64)], told: Option<i64>, said_on: Option<i64>, now_day: i64| {
        let mut world = World::new();
        world.book.trainings = vec![training(&[], Some(20))];
        let log: Vec<Entry> = (used.iter())
            .map(|(machine, day)| {
                let machine = (*machine).into();
                said("noor", day * DAY, Fact::MachineStarted { machine, material: None })
            })
            .collect();
        world.state = State::of(&log);
        let noor = PersonId::from("noor");
        if let Some(member) = world.members.get_mut(&noor) {
            member.signed_off.insert("lathe".into(), at(1_000 * DAY));
            member.card_until = None;
            member.used.extend(told.map(|day| ("lathe".to_owned(), at(day * DAY))));
            member.said.extend(said_on.map(|day| (Key::Training("lathe".into()).name(), at(day * DAY))));
        }
        let viewer = world.viewer(&noor, at(now_day * DAY));
        let (member, machine) = (world.members.get(&noor).expect("noor"), &world.book.machines[0]);
        match start_machine::signed_off(&viewer, member, machine) {
            Ok(()) => true,
            Err(Refusal::SignOffStale { within_days: 20, .. }) => false,
            other => panic!("{other:?}"),
        }
    };
    for (used, told, said_on, now, expected) in [
        // A use 19 and 20 days ago; of another training's machine; the hub's word for a phone without a log.
        (&[("lathe", 10)][..], None, None, 29, true),
        (&[("lathe", 10)], None, None, 30, false),
        (&[("lathe", 10), ("lathe", 15)], None, None, 30, true),
        (&[("saw", 29)], None, None, 30, false),
        (&[], Some(15), None, 30, true),
        (&[], Some(5), None, 30, false),
        (&[], None, Some(15), 30, true),
        (&[], None, Some(5), 30, false),
        (&[], None, None, 30, false),
    ] {
        assert_eq!(fresh(used, told, said_on, now), expected, "{used:?} {told:?} {said_on:?} on day {now}");
    }
}

fn stop(id: &str, mark: &str, right: Option<u32>) -> Stop {
    let question = right.map(|right| Question {
        text: "Which?".into(),
        answers: vec!["This".into(), "That".into()],
        right,
        because: "That one.".into(),
    });
    let mark = Some(mark.to_owned());
    Stop { id: id.into(), room: "forge".into(), text: id.into(), says: vec![], sign: None, question, mark }
}

#[test]
fn the_walk_is_done_with_its_last_point_and_begins_again_where_it_changed() {
    let mut world = World::new();
    world.book.stops = vec![stop("bin", "a", None), stop("fire", "b", Some(2))];
    world.book.statements.truncate(1);
    let teun = PersonId::from("teun");
    let bin = || Point::Stop("bin".into());
    let walk = |world: &mut World, minute: i64, point: Point, answer| {
        let entries = decide(&world.viewer(&teun, at(minute)), Act::Walk { point, answer })?;
        for entry in &entries {
            crate::state::fold(&mut world.state, entry);
        }
        Ok(entries.len())
    };
    let fire = || Point::Stop("fire".into());
    let door = || Point::Statement("loose".into());
    let wrong = || Err(Refusal::OtherAnswer { because: "That one.".into() });
    assert_eq!(walk(&mut world, 1, door(), None), Ok(1));
    assert_eq!(walk(&mut world, 2, fire(), Some(1)), wrong());
    assert_eq!(walk(&mut world, 2, fire(), None), wrong());
    assert_eq!(walk(&mut world, 3, fire(), Some(2)), Ok(1));
    assert_eq!(walk(&mut world, 4, Point::Stop("well".into()), None), Err(Refusal::NoSuchStop));
    assert!(world.state.walks.is_empty());
    assert_eq!(walk(&mut world, 5, bin(), None), Ok(2));
    assert_eq!(world.state.walks.get(&teun).map(|(at, _)| *at), Some(at(5)));
    // What it says changes: that stop alone is to be walked again.
    world.book.stops[0] = stop("bin", "c", None);
    let stands = |world: &World, point: &Point, mark: &str| walked(&world.state, &teun, point, mark);
    assert_eq!(stands(&world, &bin(), "c"), Walked::Changed);
    assert_eq!(stands(&world, &fire(), "b"), Walked::Behind);
    assert_eq!(stands(&world, &Point::Stop("new".into()), "n"), Walked::Ahead);
    assert_eq!(walk(&mut world, 9, bin(), None), Ok(2));
}

#[test]
fn a_mark_tells_texts_apart_and_where_they_end() {
    assert_eq!(mark(["ab", "c"]), mark(["ab".to_owned(), "c".to_owned()]));
    assert_ne!(mark(["ab", "c"]), mark(["a", "bc"]));
    assert_ne!(mark([""; 2]), mark([""; 3]));
    assert_eq!(mark(["x"]).len(), 16);
}
