//! Awkward cases of cover, as timetables in a small invented shop. The lathe asks for a buddy; a word holds 15 minutes.
//!
//! Worked by hand from DESIGN.md section 4, "Buddy". What is told from facts alone (two phones that did not know of each
//! other) is said straight into the log, since no phone would have allowed it.

use super::*;
use crate::command::Command;
use crate::entry::{Entry, Fact, Given};
use crate::state::fold;
use crate::testing::{World, arrive, at, confirm, start, stop};

/// A line that a phone said although others knew better.
fn say(world: &mut World, who: &str, session: &str, minute: i64, fact: Fact) {
    fold(&mut world.state, &Entry { at: at(minute), session: session.into(), who: who.into(), fact });
}

fn word(buddy: &str) -> Fact {
    Fact::BuddyConfirmed { buddy: buddy.into(), machine: None, proof: None, given: Given::OnTheirWord }
}

fn entered(room: &str) -> Fact {
    Fact::Entered { room: room.into(), out_by: at(300) }
}

fn started() -> Fact {
    Fact::MachineStarted { machine: "lathe".into(), material: None }
}

/// The gaps of a session at minute 100, in minutes.
#[track_caller]
fn check(world: &World, session: &str, expected: &[(i64, i64)]) {
    let session = world.state.sessions.get(&session.into()).expect("a session");
    let minutes = |at_: Instant| (at_ - at(0)).minutes_up();
    let gaps = gaps(&world.book, &Heard::all(&world.state), session, at(100));
    let told: Vec<(i64, i64)> = gaps.iter().map(|gap| (minutes(gap.from), minutes(gap.to))).collect();
    assert_eq!(told, expected, "{}", session.id);
}

/// Lets things happen, each of which a phone allows.
#[track_caller]
fn world_of(acts: Vec<(&str, i64, Command)>) -> World {
    let mut world = World::new();
    for (who, minute, command) in acts {
        let said = format!("{who} at {minute}: {command:?}");
        assert_eq!(world.act(who, minute, command), Ok(()), "{said}");
    }
    world
}

fn enter(who: &str, minute: i64) -> (&str, i64, Command) {
    (who, minute, arrive(who, "forge", minute, 300))
}

/// Noor at the lathe from 10 to 60, Ilse her buddy in the same room.
fn at_the_lathe(words: &[i64]) -> Vec<(&'static str, i64, Command)> {
    let mut acts = vec![enter("noor", 0), enter("ilse", 1)];
    acts.extend(words.iter().map(|minute| ("noor", *minute, confirm("ilse"))));
    acts.push(("noor", 10, start("lathe")));
    acts.push(("noor", 60, stop("lathe")));
    acts.sort_by_key(|(_, minute, _)| *minute);
    acts
}

#[test]
fn renewals_around_the_instant_of_lapse() {
    for (words, gaps) in [
        // At the very instant: no gap. A minute late: that minute.
        (&[10, 25, 40, 55][..], &[][..]),
        (&[10, 26, 41, 55], &[(25, 26)]),
        // Early: the terms overlap, and nothing adds up.
        (&[10, 11, 12, 27, 42], &[(57, 60)]),
        (&[10, 20, 35, 50], &[]),
        // A term that ends with the use, and one that begins there.
        (&[10, 25, 40, 60], &[(55, 60)]),
        (&[0, 10, 25, 40, 55], &[]),
        // Covered to the very end, and spoken for once more after it: no gap of no length.
        (&[0, 15, 30, 45, 70], &[]),
    ] {
        check(&world_of(at_the_lathe(words)), "noor-0", gaps);
    }
}

#[test]
fn whatever_takes_the_buddy_away_ends_the_cover() {
    let renewed = || at_the_lathe(&[10, 25, 40, 55]);
    let and = |act: (&'static str, i64, Command)| {
        let mut acts: Vec<_> = renewed().into_iter().filter(|(_, minute, _)| *minute < act.1).collect();
        acts.push(act);
        acts.push(("noor", 60, Command::Leave));
        world_of(acts)
    };
    check(&and(("ilse", 30, Command::Leave)), "noor-0", &[(30, 60)]);
    check(&and(("noor", 30, Command::EndBuddy { buddy: "ilse".into() })), "noor-0", &[(30, 60)]);
    check(&and(("noor", 59, Command::StartSweep { crew: 1 })), "noor-0", &[]);
    // She starts a machine that asks for a buddy herself. The torch asks for none and changes nothing.
    let mut world = world_of(renewed());
    say(&mut world, "ilse", "ilse-1", 30, started());
    check(&world, "noor-0", &[(30, 60)]);
    world.book.buddy.may_operate = true;
    check(&world, "noor-0", &[]);
    check(&and(("ilse", 50, start("torch"))), "noor-0", &[(55, 60)]);
    // She stopped it again: the word given meanwhile is worth nothing, the next one is.
    let mut world = world_of(renewed());
    say(&mut world, "ilse", "ilse-1", 24, started());
    say(&mut world, "ilse", "ilse-1", 30, Fact::MachineStopped { machine: "lathe".into() });
    check(&world, "noor-0", &[(24, 40)]);
    // Given at the very instant at which she stopped it, a word is good.
    let mut world = world_of(renewed());
    say(&mut world, "ilse", "ilse-1", 24, started());
    say(&mut world, "ilse", "ilse-1", 40, Fact::MachineStopped { machine: "lathe".into() });
    check(&world, "noor-0", &[(24, 40)]);
}

/// She gave her word before she came in by the door, and went before it lapsed.
#[test]
fn who_came_after_the_word_and_left_again_is_gone() {
    let words = |lost: bool| {
        let mut world = World::new();
        say(&mut world, "noor", "noor", 0, entered("forge"));
        if lost {
            say(&mut world, "ilse", "ilse-lost", -500, entered("fitting"));
        }
        say(&mut world, "noor", "noor", 10, word("ilse"));
        say(&mut world, "noor", "noor", 10, started());
        say(&mut world, "noor", "noor", 30, Fact::MachineStopped { machine: "lathe".into() });
        say(&mut world, "ilse", "ilse", if lost { 9 } else { 12 }, entered("forge"));
        world
    };
    let mut world = words(false);
    check(&world, "noor", &[(25, 30)]);
    say(&mut world, "ilse", "ilse", 18, Fact::Left);
    check(&world, "noor", &[(18, 30)]);
    // What ends elsewhere, on a phone that she lost, takes her nowhere.
    let mut world = words(true);
    say(&mut world, "ilse", "ilse-lost", 18, Fact::Left);
    check(&world, "noor", &[(25, 30)]);
}

/// What a phone says at a moment: until when the lathe is covered or since when not, which words hold, who is bare.
#[test]
fn cover_is_told_at_every_moment() {
    let until = |minute| Cover::Until(at(minute));
    let since = |minute| Cover::GapSince(at(minute));
    for (words, now, cover, holding, bare) in [
        (&[10][..], 12, until(25), &[25][..], false),
        (&[10, 20], 22, until(35), &[25, 35], false),
        (&[10, 20], 34, until(35), &[35], false),
        // At the very instant of the lapse there is none.
        (&[10, 20], 35, since(35), &[], true),
        (&[10], 40, since(25), &[], true),
        // A renewal at the very instant.
        (&[10, 25], 25, until(40), &[40], false),
        // A word that lies ahead of this phone's clock covers nothing, and nothing has lapsed yet.
        (&[30], 20, since(10), &[], true),
    ] {
        let mut world = world_of(vec![enter("noor", 0), enter("ilse", 1)]);
        for minute in words {
            say(&mut world, "noor", "noor-0", *minute, word("ilse"));
        }
        say(&mut world, "noor", "noor-0", 10, started());
        let session = world.state.sessions.get(&"noor-0".into()).expect("a session");
        let told = cover_now(&world.book, &world.state, session, &"lathe".into(), at(now));
        assert_eq!(told, cover, "{words:?} at {now}");
        let held: Vec<Instant> =
            standing(&world.book, &world.state, session, at(now)).into_iter().map(|(_, until)| until).collect();
        assert_eq!(held, holding.iter().map(|minute| at(*minute)).collect::<Vec<_>>(), "{words:?} at {now}");
        let me = PersonId::from("noor");
        let viewer = world.viewer(&me, at(now));
        assert_eq!(is_bare(&viewer, &Heard::now(&viewer), session), bare, "{words:?} at {now}");
    }
}

#[test]
fn a_word_about_a_room_one_is_not_in_is_worth_nothing() {
    // Ilse goes over to the fitting room at 30 without a word, as far as Noor's phone knows.
    let mut world = world_of(at_the_lathe(&[10, 25, 40, 55]));
    say(&mut world, "ilse", "ilse-b", 30, entered("fitting"));
    check(&world, "noor-0", &[(30, 60)]);
    say(&mut world, "ilse", "ilse-b", 50, Fact::Left);
    // Where she entered last is where she is: back in the forge, or nowhere that anybody knows of.
    check(&world, "noor-0", &[(30, 55)]);
    // A session on a lost phone, never left, does not keep her out of the room where she is now.
    let mut world = world_of(at_the_lathe(&[10, 25, 40, 55]));
    say(&mut world, "ilse", "ilse-lost", -500, entered("fitting"));
    check(&world, "noor-0", &[]);
    // Gone from there at the very instant of the word: it counts.
    let mut world = world_of(at_the_lathe(&[10, 25, 40, 55]).into_iter().filter(|(who, ..)| *who == "noor").collect());
    say(&mut world, "ilse", "ilse-b", 0, entered("fitting"));
    check(&world, "noor-0", &[(10, 60)]);
    say(&mut world, "ilse", "ilse-b", 10, Fact::Left);
    check(&world, "noor-0", &[]);
}

/// Two phones that could not hear each other took down the same buddy.
#[test]
fn the_limit_is_asked_again_of_the_log() {
    let both = |words: &[(&str, i64)]| {
        let mut world = World::new();
        for who in ["noor", "bram"] {
            say(&mut world, who, who, 0, entered("forge"));
        }
        for (who, minute) in words {
            say(&mut world, who, who, *minute, word("ilse"));
        }
        for who in ["noor", "bram"] {
            say(&mut world, who, who, 12, started());
            say(&mut world, who, who, 40, Fact::MachineStopped { machine: "lathe".into() });
        }
        world
    };
    for (words, noor, bram) in [
        // The earlier word counts, and the later does not come to life when the earlier lapses.
        (&[("noor", 10), ("bram", 11)][..], &[(25, 40)][..], &[(12, 40)][..]),
        // At the very instant of the lapse she is free again.
        (&[("noor", 10), ("bram", 25)], &[(25, 40)], &[(12, 25)]),
        (&[("noor", 10), ("bram", 24), ("bram", 26)], &[(25, 40)], &[(12, 26)]),
        // A renewal is nobody's second operator.
        (&[("noor", 10), ("noor", 24), ("bram", 26)], &[(39, 40)], &[(12, 40)]),
        // Taken from somebody whose word did not count: still free.
        (&[("noor", 5), ("bram", 12), ("noor", 20), ("bram", 21)], &[(35, 40)], &[(12, 40)]),
        // Somebody else's in between: what was said before it is not forgotten.
        (&[("noor", 10), ("bram", 30), ("noor", 41)], &[(25, 40)], &[(12, 30)]),
        // Both at once: one of the two, the same on every phone.
        (&[("noor", 10), ("bram", 10)], &[(12, 40)], &[(25, 40)]),
    ] {
        let mut world = both(words);
        check(&world, "noor", noor);
        check(&world, "bram", bram);
        world.book.buddy.covers = 2;
        let gaps =
            |who: &str| gaps(&world.book, &Heard::all(&world.state), &world.state.sessions[&who.into()], at(100));
        let plain: i64 = ["noor", "bram"].iter().flat_map(|who| gaps(who)).map(|gap| (gap.to - gap.from).ms()).sum();
        let limited: i64 = noor.iter().chain(bram).map(|(from, to)| (to - from) * 60_000).sum();
        assert!(plain <= limited, "more places never make more gaps");
    }
    // The first operator left: the buddy is free from then on, for a word that is given from then on.
    let mut world = both(&[("noor", 10), ("bram", 31)]);
    say(&mut world, "noor", "noor", 45, Fact::Left);
    let mut early = both(&[("noor", 20), ("bram", 30)]);
    say(&mut early, "noor", "noor", 28, Fact::Left);
    check(&world, "bram", &[(12, 31)]);
    check(&early, "bram", &[(12, 30)]);
    let mut at_once = both(&[("noor", 20), ("bram", 28)]);
    say(&mut at_once, "noor", "noor", 28, Fact::Left);
    check(&at_once, "bram", &[(12, 28)]);
}

#[test]
fn a_word_for_one_machine_covers_no_other() {
    let mut world = World::new();
    world.book.machines[2].buddy = true;
    say(&mut world, "noor", "s", 0, entered("forge"));
    let only = Some("saw".into());
    say(
        &mut world,
        "noor",
        "s",
        5,
        Fact::BuddyConfirmed { buddy: "ilse".into(), machine: only, proof: None, given: Given::OnTheirWord },
    );
    for machine in ["lathe", "saw"] {
        say(&mut world, "noor", "s", 6, Fact::MachineStarted { machine: machine.into(), material: None });
        say(&mut world, "noor", "s", 16, Fact::MachineStopped { machine: machine.into() });
    }
    let told = gaps(&world.book, &Heard::all(&world.state), &world.state.sessions[&"s".into()], at(100));
    assert_eq!(told, [Gap { machine: "lathe".into(), from: at(6), to: at(16) }]);
}

/// Her phone was lost at the lathe, and from another she said that she had gone: nobody stopped it, and it runs no more.
#[test]
fn a_machine_stops_with_its_session() {
    let mut world = World::new();
    for (who, session, minute, fact) in [
        ("ilse", "i1", 0, entered("forge")),
        ("ilse", "i1", 2, started()),
        ("ilse", "i1", 5, Fact::Left),
        ("ilse", "i2", 8, entered("forge")),
        ("noor", "n", 9, entered("forge")),
        ("noor", "n", 10, word("ilse")),
        ("noor", "n", 10, started()),
        ("noor", "n", 30, Fact::MachineStopped { machine: "lathe".into() }),
    ] {
        say(&mut world, who, session, minute, fact);
    }
    check(&world, "n", &[(25, 30)]);
}
