//! Evenings as tables: what happens, when the hub looks, and what it says then.

use super::*;
use crate::command::Command;
use crate::ordered::Set;
use crate::testing::{World, arrive, at, confirm, start, stop};

/// One step of an evening.
enum Step {
    /// Somebody acts.
    Act(&'static str, i64, Command),
    /// The hub looks at this minute and says this: what, to whom, which saying, how many minutes late.
    Look(i64, &'static [(What, &'static str, u32, i64)]),
    /// The hub would next look at this minute.
    Next(i64, Option<i64>),
}

use Step::{Act, Look, Next};

/// The forge's floor (6 min) and lights (1 min) of whoever is last are swept from 80 on for an out-by of 90: the floor of
/// the reserve is 10 minutes. First bell at 70.
#[track_caller]
fn check(steps: Vec<Step>) {
    let (mut world, mut said) = (World::new(), Set::new());
    for step in steps {
        match step {
            Act(who, minute, command) => assert_eq!(world.act(who, minute, command), Ok(()), "{who} at {minute}"),
            Look(minute, expected) => {
                let calls = calls(&world.book, &world.members, &world.state, &said, at(minute));
                let to = |call: &Call| call.to.iter().map(PersonId::as_str).collect::<Vec<_>>().join(" ");
                let told: Vec<_> = calls
                    .due
                    .iter()
                    .map(|call| (call.said.what, to(call), call.said.nth, call.late.minutes_up()))
                    .collect();
                let told: Vec<_> = told.iter().map(|(what, to, nth, late)| (*what, to.as_str(), *nth, *late)).collect();
                assert_eq!(told, expected, "at {minute}");
                said.extend(calls.due.into_iter().map(|call| call.said));
            }
            Next(minute, expected) => {
                let calls = calls(&world.book, &world.members, &world.state, &said, at(minute));
                assert_eq!(calls.next, expected.map(at), "next, at {minute}");
            }
        }
    }
}

fn enter(who: &'static str, minute: i64, out_by: i64) -> Step {
    Act(who, minute, arrive(who, "forge", minute, out_by))
}

const SWEEP: Command = Command::StartSweep { crew: 1 };

#[test]
fn the_bells_are_said_at_their_instants_and_repeated_until_they_are_answered() {
    check(vec![
        enter("noor", 0, 90),
        Next(1, Some(70)),
        Look(69, &[]),
        Look(70, &[(What::FirstBell, "noor", 0, 0)]),
        Look(71, &[]),
        Next(71, Some(80)),
        Look(80, &[(What::SweepBell, "noor", 0, 0)]),
        Look(81, &[]),
        Next(81, Some(82)),
        Look(82, &[(What::SweepBell, "noor", 1, 0)]),
        Act("noor", 83, SWEEP),
        Look(85, &[]),
        Next(85, Some(90)),
        Look(90, &[(What::LastBell, "noor", 0, 0)]),
        Act("noor", 91, Command::Leave),
        Look(95, &[]),
        Look(125, &[]),
        Next(125, None),
    ]);
}

#[test]
fn a_bell_that_was_heard_is_not_said_again_nor_told_to_stewards() {
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 80, SWEEP),
        Look(90, &[(What::LastBell, "noor", 0, 0)]),
        Act("noor", 91, Command::HearBell),
        Look(95, &[]),
        // Who stays half an hour past it is told to the stewards all the same.
        Look(120, &[(What::LongPast, "bram", 0, 0)]),
    ]);
}

#[test]
fn a_room_that_is_to_be_cleared_is_told_to_all_in_it_but_who_called() {
    let call = || Command::CallClear { room: "forge".into() };
    check(vec![
        enter("noor", 0, 300),
        enter("ilse", 0, 300),
        Act("bram", 0, arrive("bram", "fitting", 0, 300)),
        Act("ilse", 10, call()),
        Look(10, &[(What::Clear, "noor", 0, 0)]),
        Look(11, &[]),
        Next(11, Some(12)),
        Act("noor", 11, Command::Leave),
        Look(12, &[]),
        // Whoever comes in after it was called has seen for themselves.
        Act("noor", 13, arrive("noor", "forge", 13, 300)),
        Look(13, &[]),
        // From anywhere.
        Act("bram", 20, call()),
        Look(21, &[(What::Clear, "ilse", 0, 1), (What::Clear, "noor", 0, 1)]),
        Look(40, &[]),
    ]);
}

#[test]
fn what_nobody_answers_goes_to_people() {
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 79, confirm("teun")),
        enter("ilse", 5, 300),
        Look(80, &[(What::SweepBell, "noor", 0, 0)]),
        Look(82, &[(What::SweepBell, "noor", 1, 0)]),
        Next(82, Some(83)),
        Look(83, &[(What::NotSweeping, "ilse teun", 0, 0)]),
        Look(85, &[(What::SweepBell, "noor", 2, 0)]),
        Look(90, &[(What::LastBell, "noor", 0, 0)]),
        Look(92, &[(What::LastBell, "noor", 1, 0)]),
        Look(93, &[(What::NotOut, "bram", 0, 0)]),
        Look(95, &[(What::LastBell, "noor", 2, 0)]),
        Next(96, Some(120)),
        Look(120, &[(What::LongPast, "bram", 0, 0)]),
        Look(200, &[]),
    ]);
    // Nobody else is there, and the only steward is the one who stays: there is nobody to tell.
    check(vec![
        enter("bram", 0, 90),
        Look(83, &[(What::SweepBell, "bram", 1, 1)]),
        Look(93, &[(What::LastBell, "bram", 1, 1)]),
        Look(121, &[(What::LastBell, "bram", 2, 26)]),
    ]);
}

#[test]
fn moving_out_by_answers_and_the_later_bell_rings_anew() {
    check(vec![
        enter("noor", 0, 90),
        Look(80, &[(What::SweepBell, "noor", 0, 0)]),
        Act("noor", 81, Command::MoveOutBy { out_by: at(120) }),
        Look(85, &[]),
        Next(85, Some(100)),
        Look(100, &[(What::FirstBell, "noor", 0, 0)]),
        Look(110, &[(What::SweepBell, "noor", 0, 0)]),
        // Earlier again: what rang already stays silent, and is not repeated, since it was answered by moving.
        Act("noor", 111, Command::MoveOutBy { out_by: at(115) }),
        Look(113, &[]),
        Look(115, &[(What::LastBell, "noor", 0, 0)]),
    ]);
}

#[test]
fn a_plan_that_moves_under_a_bell_does_not_answer_it() {
    // Two machines' chores and the floor take 14 minutes: the sweep is now to begin at 76, and its bell was said at 80.
    check(vec![
        enter("noor", 0, 90),
        enter("ilse", 0, 300),
        Act("noor", 79, confirm("ilse")),
        Look(80, &[(What::SweepBell, "noor", 0, 0)]),
        Act("noor", 81, start("saw")),
        Act("noor", 81, start("lathe")),
        Act("noor", 81, stop("saw")),
        Act("noor", 81, stop("lathe")),
        Look(82, &[(What::SweepBell, "noor", 1, 0)]),
        Look(83, &[(What::NotSweeping, "ilse", 0, 0)]),
    ]);
}

#[test]
fn hot_work_has_its_bells_and_a_watch_cut_short_is_told() {
    // 30 minutes of watch, then 4 + 6 + 1 of chores: last spark at 49 for an out-by of 90.
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 5, start("torch")),
        Look(48, &[]),
        Next(48, Some(49)),
        Look(49, &[(What::LastSpark, "noor", 0, 0)]),
        Look(51, &[(What::LastSpark, "noor", 1, 0)]),
        Act("noor", 52, stop("torch")),
        Look(54, &[]),
        // The watch holds the only person, so the sweep comes after it.
        Look(72, &[(What::FirstBell, "noor", 0, 0)]),
        Look(82, &[(What::SweepBell, "noor", 0, 0), (What::WatchOver, "noor", 0, 0)]),
    ]);
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 5, start("torch")),
        Act("noor", 20, stop("torch")),
        Act("noor", 30, Command::Leave),
        Look(31, &[(What::WatchCutShort, "bram", 0, 1)]),
        Look(32, &[]),
        Next(32, None),
    ]);
    // Heard of when the embers are out: over.
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 5, start("torch")),
        Act("noor", 20, stop("torch")),
        Act("noor", 30, Command::Leave),
        Look(50, &[]),
    ]);
}

#[test]
fn a_hub_that_was_down_says_what_is_of_use_and_how_late() {
    check(vec![enter("noor", 0, 90), Look(75, &[(What::FirstBell, "noor", 0, 5)])]);
    check(vec![enter("noor", 0, 90), Look(84, &[(What::SweepBell, "noor", 1, 2)])]);
    check(vec![enter("noor", 0, 90), Look(94, &[(What::LastBell, "noor", 1, 2), (What::NotOut, "bram", 0, 1)])]);
    check(vec![enter("noor", 0, 90), Look(151, &[(What::LongPast, "bram", 0, 31)])]);
    check(vec![enter("noor", 0, 90), Look(400, &[]), Next(400, None)]);
}

#[test]
fn whoever_is_seen_to_be_about_is_not_called_for() {
    check(vec![
        enter("noor", 0, 90),
        Act("noor", 80, SWEEP),
        Look(90, &[(What::LastBell, "noor", 0, 0)]),
        Act("noor", 91, Command::FinishChore { chore: "forge/floor".into(), photo: None }),
        Look(93, &[]),
        Look(95, &[]),
        // But not for ever.
        Look(120, &[(What::LongPast, "bram", 0, 0)]),
    ]);
}

#[test]
fn a_bell_is_never_about_an_instant_before_the_session() {
    check(vec![
        enter("noor", 0, 15),
        Look(1, &[]),
        Look(5, &[(What::SweepBell, "noor", 0, 0)]),
        Look(15, &[(What::LastBell, "noor", 0, 0)]),
    ]);
}

#[test]
fn names_come_back_as_what_they_name() {
    for what in What::ALL {
        assert_eq!(What::of_name(what.name()), Some(what));
        assert_eq!(serde_json::to_value(what).expect("a name"), what.name());
    }
}
