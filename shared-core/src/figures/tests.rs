//! Small logs counted by hand. Invented; the rules behind each number have tests of their own.

use super::*;
use crate::entry::{Condition, Entry, Fact, Given, Place};
use crate::testing::{at, book};
use crate::time::Span;

/// UTC, so that the tests' zero (Sunday, 9 September 2001, 01:46:40) is the shop's too.
const OFFSETS: [UtcOffset; 0] = [];

fn said(session: &str, minute: i64, fact: Fact) -> Entry {
    Entry { at: at(minute), session: session.into(), who: session.into(), fact }
}

/// An evening of two people at the forge: a lathe, covered for 15 of 40 minutes; a torch, its watch cut short by 10.
fn evening() -> Vec<Entry> {
    let entered = |who: &str, minute| said(who, minute, Fact::Entered { room: "forge".into(), out_by: at(120) });
    let start = |who: &str, minute, machine: &str| {
        said(who, minute, Fact::MachineStarted { machine: machine.into(), material: None })
    };
    let stop = |who: &str, minute, machine: &str| said(who, minute, Fact::MachineStopped { machine: machine.into() });
    let done = |who: &str, minute, chore: &str| {
        said(who, minute, Fact::ChoreDone { chore: chore.into(), minutes: Some(5.0), photo: None })
    };
    let buddy = Fact::BuddyConfirmed { buddy: "ilse".into(), machine: None, proof: None, given: Given::OnTheirWord };
    let mut log = vec![
        entered("noor", 0),
        entered("ilse", 5),
        said("noor", 10, buddy),
        start("noor", 10, "lathe"),
        stop("noor", 50, "lathe"),
        start("ilse", 20, "torch"),
        stop("ilse", 40, "torch"),
        said("ilse", 55, Fact::SweepStarted { crew: 1 }),
        done("ilse", 58, "torch/brush"),
        said("ilse", 60, Fact::Left),
        said("noor", 60, Fact::SweepStarted { crew: 1 }),
        done("noor", 64, "lathe/brush"),
        done("noor", 70, "forge/floor"),
        done("noor", 71, "forge/lights"),
        said("noor", 72, Fact::Left),
    ];
    log.sort_by_key(|entry| entry.at);
    log
}

fn counted(log: &[Entry], from: i64, to: i64) -> Figures {
    figures(&book(), &State::of(log), &OFFSETS, Stretch { from: at(from), to: at(to) })
}

#[test]
fn an_evening_is_counted() {
    let said = counted(&evening(), 0, 1_000);
    let Sessions { begun, people, open, minutes, hours } = &said.sessions;
    assert_eq!((*begun, *people, *open, *minutes), (2, 2, 0, 72 + 55));
    assert_eq!(hours.iter().flatten().sum::<i64>(), 72 + 55 + 1, "each hour is rounded up by itself");
    let used: Vec<_> = said.machines.iter().map(|one| (one.machine.as_str(), one.uses, one.minutes)).collect();
    assert_eq!(used, [("lathe", 1, 40), ("torch", 1, 20)]);
    // ilse left the floor; noor, last out, left nothing.
    assert_eq!((said.sweeps.complete, said.sweeps.incomplete, said.sweeps.not_begun), (1, 1, 0));
    let left: Vec<_> = said.sweeps.chores_left.iter().map(|one| (one.chore.as_str(), one.times)).collect();
    assert_eq!(left, [("forge/floor", 1)]);
    assert_eq!(said.cover, Cover { uses: 1, minutes: 40, gaps: 1, gap_minutes: 25 });
    // The torch stopped at 40, so embers were to be looked for until 70; ilse left at 60.
    assert_eq!(said.watches, Watches { needed: 1, kept: 0, cut_short_minutes: 10 });
    // Planned: brush 4, floor 6, lights 1 after 60; done at 71.
    assert_eq!((said.reserve.within, said.reserve.of), (1, 1));
    assert_eq!(said.reserve.late.iter().sum::<u32>(), 1);
}

#[test]
fn a_session_belongs_to_the_stretch_in_which_it_began() {
    for (from, to, sessions) in [(0, 5, 1), (0, 6, 2), (1, 6, 1), (6, 1_000, 0)] {
        assert_eq!(counted(&evening(), from, to).sessions.begun, sessions, "{from} to {to}");
    }
}

#[test]
fn an_open_session_is_neither_complete_nor_cut_short() {
    let log: Vec<Entry> = evening().into_iter().filter(|entry| entry.fact != Fact::Left).collect();
    let said = counted(&log, 0, 1_000);
    assert_eq!((said.sessions.open, said.sweeps.complete + said.sweeps.incomplete, said.watches.needed), (2, 0, 0));
    assert_eq!((said.sessions.minutes, said.reserve.of), (71 + 53, 0));
}

#[test]
fn what_was_found_is_counted_by_place_and_hour() {
    let found = |minute, place: Place, condition| said("noor", minute, Fact::Found { place, condition, note: None });
    let (saw, forge) = (|| Place::Machine("saw".into()), || Place::Room("forge".into()));
    let log = [
        found(0, forge(), Condition::Clean),
        found(20, saw(), Condition::Mess),
        found(30, saw(), Condition::Mess),
        found(40, saw(), Condition::Clean),
        found(2_000, saw(), Condition::Mess),
    ];
    let said = counted(&log, 0, 1_000).mess;
    let places: Vec<_> = said.places.iter().map(|one| (one.place.as_str(), one.is_room, one.clean, one.mess)).collect();
    assert_eq!(places, [("saw", false, 1, 2), ("forge", true, 1, 0)]);
    assert_eq!(said.totals(), (2, 2));
    // 01:46 and twenty minutes is 02:06.
    assert_eq!((said.hours[2], said.hours.iter().sum::<i64>()), (2, 2));
}

#[test]
fn a_tag_is_out_from_its_first_word_to_its_last() {
    let on =
        |minute| said("noor", minute, Fact::TaggedOut { machine: "saw".into(), problem: "guard".into(), photo: None });
    let off = |minute| said("bram", minute, Fact::TagCleared { machine: "saw".into() });
    for (log, from, to, told) in [
        (vec![on(10), off(40)], 0, 100, Some((1, 30, false))),
        (vec![on(10), on(20), off(40), off(50)], 0, 100, Some((1, 30, false))),
        (vec![off(40), on(10)], 0, 100, Some((1, 30, false))),
        (vec![on(10), off(40), on(60)], 0, 100, Some((2, 70, true))),
        (vec![on(10), off(40)], 20, 100, Some((0, 20, false))),
        (vec![on(10), off(40)], 20, 30, Some((0, 10, true))),
        (vec![on(10), off(40)], 50, 100, None),
        (vec![off(40)], 0, 100, None),
    ] {
        let said = counted(&log, from, to).tags;
        let said = said.first().map(|one| (one.times, one.minutes, one.still_out));
        assert_eq!(said, told, "{from} to {to}: {log:?}");
    }
}

#[test]
fn a_round_is_late_past_its_time() {
    const DAY: i64 = 24 * 60;
    let done = |minute| said("noor", minute, Fact::RoundDone { round: "bin".into() });
    for (log, from, to, told) in [
        (vec![], 0, 10 * DAY, (0, 0, false)),
        (vec![done(0), done(DAY), done(3 * DAY)], 0, 3 * DAY + 1, (3, 1, false)),
        (vec![done(3 * DAY), done(0), done(DAY)], 1, 3 * DAY + 1, (2, 1, false)),
        (vec![done(0)], 0, DAY, (1, 0, false)),
        (vec![done(0)], 0, DAY + 1, (1, 0, true)),
    ] {
        let said = counted(&log, from, to).rounds;
        let bin = said.iter().find(|one| one.round.as_str() == "bin").expect("a round of the rulebook");
        assert_eq!((bin.done, bin.late, bin.overdue), told, "{from} to {to}: {log:?}");
    }
}

#[test]
fn minutes_after_the_planned_end_fall_into_bins() {
    assert_eq!(late_bins([-40, -15, -14, -10, -1, 0, 1, 5, 6, 10, 11, 90].into_iter()), [2, 2, 0, 2, 2, 2, 2]);
}

#[test]
fn each_reach_is_a_stretch() {
    let state = State::of(&evening());
    let begun = Reach::ALL.map(|reach| of_reach(&book(), &state, &OFFSETS, at(1_000), reach).sessions.begun);
    assert_eq!(begun, [2, 0, 2]);
    // From the midnight before 01:46:40.
    let all = of_reach(&book(), &state, &OFFSETS, at(1_000), Reach::All);
    assert_eq!(all.stretch.from, at(0) - Span::from_ms(6_400_000));
    assert_eq!(all, figures(&book(), &state, &OFFSETS, all.stretch));
}
