//! One evening, told by a phone whose clock is wrong, as everybody else's phones show it. What counts for safety must not hang
//! on that clock: who is in the room, what is tagged out, what came back into service.
//!
//! What does hang on it, and may be wrong by as much: the instants themselves, and so whether somebody is past their out-by,
//! who could have left a mess, and in which month a session is counted. Nothing here makes a clock right.

use super::*;
use crate::command::Command;
use crate::entry::{Condition, Place, Step, Undone};
use crate::figures::Reach;
use crate::ids::{MachineId, PersonId};
use crate::repair;
use crate::testing::{World, arrive, at, start, stop};
use crate::time::Instant;

const DAY: i64 = 24 * 60;
/// How far a clock is ahead, in minutes.
const AHEAD: [i64; 7] = [-28 * DAY, -3 * DAY, -10, 0, 10, 3 * DAY, 28 * DAY];

fn names_in_room(world: &World, minute: i64) -> Vec<String> {
    let bram = PersonId::from("bram");
    let shown = room::room(&world.viewer(&bram, at(minute)));
    shown.rooms.into_iter().flat_map(|room| room.people).map(|person| person.name).collect()
}

#[test]
fn who_is_in_the_room_is_known_whatever_their_clock_says() {
    for ahead in AHEAD {
        let mut world = World::new();
        assert_eq!(world.act("ilse", ahead, arrive("ilse", "forge", ahead, ahead + 120)), Ok(()), "{ahead}");
        assert_eq!(world.act("ilse", ahead + 1, start("saw")), Ok(()), "{ahead}");
        assert_eq!(names_in_room(&world, 30), ["ILSE"], "ahead by {ahead} min");
        assert_eq!(world.act("ilse", ahead + 40, stop("saw")), Ok(()));
        assert_eq!(world.act("ilse", ahead + 41, Command::StartSweep { crew: 1 }), Ok(()));
        let undone = Command::LeaveUndone { why: Undone::HadToGo };
        assert_eq!(world.act("ilse", ahead + 60, undone), Ok(()), "{ahead}");
        assert_eq!(names_in_room(&world, 61), [""; 0], "ahead by {ahead} min");
        let bram = PersonId::from("bram");
        let mess = Command::ReportFound { place: Place::Room("forge".into()), condition: Condition::Mess, note: None };
        assert_eq!(world.act("bram", 90, mess), Ok(()));
        // A month later, whatever was said with a clock of the future is past too.
        let viewer = world.viewer(&bram, at(60 * DAY));
        let past = |need: &today::Need| matches!(need, today::Need::PastOutBy { .. });
        assert!(!today::today(&viewer).needs.iter().any(past), "who has left is not waited for: {ahead}");
        let figures = figures::figures(&viewer, &[], Reach::All).own.sessions;
        assert_eq!((figures.begun, figures.open, figures.minutes), (1, 0, 60), "ahead by {ahead} min");
    }
}

#[test]
fn a_machine_is_out_or_back_whatever_the_clocks_of_those_who_say_so_are() {
    let saw = MachineId::from("saw");
    let tag = || Command::TagOut { machine: "saw".into(), problem: "bent".into(), photo: None };
    let is_out = |world: &World| {
        let mut world = world.clone();
        assert_eq!(world.act("noor", 900, arrive("noor", "forge", 900, 960)), Ok(()));
        world.act("noor", 901, start("saw")).is_err()
    };
    for first in AHEAD {
        for second in AHEAD {
            let mut world = World::new();
            // Put on, mended, checked, by three phones of which two are wrong; and put on once more.
            assert_eq!(world.act("noor", first, tag()), Ok(()));
            assert!(is_out(&world), "put on by a clock ahead by {first} min");
            let of = |world: &World| repair::current(&world.state, &saw).expect("it is out").newest();
            let mended = Command::Note { of: of(&world), step: Step::Mended, note: None };
            assert_eq!(world.act("ilse", second + 10, mended), Ok(()));
            assert_eq!(world.act("bram", 20, Command::ClearTag { machine: saw.clone() }), Ok(()), "{first} {second}");
            assert!(!is_out(&world), "checked after clocks ahead by {first} and {second} min");
            assert_eq!(world.act("noor", second + 30, tag()), Ok(()));
            assert!(is_out(&world), "put on once more by a clock ahead by {second} min, after {first}");
        }
    }
}

#[test]
fn a_tag_by_a_wrong_clock_leaves_the_times_of_a_session_as_they_are() {
    let mut world = World::new();
    let tag = || Command::TagOut { machine: "drill".into(), problem: "belt".into(), photo: None };
    assert_eq!(world.act("ilse", 3 * DAY, tag()), Ok(()));
    assert_eq!(world.act("noor", 0, arrive("noor", "forge", 0, 120)), Ok(()));
    assert_eq!(world.act("noor", 10, tag()), Ok(()));
    let session = world.state.sessions.values().next().expect("noor's");
    assert_eq!(session.last_at, at(0), "its last entry is the arrival");
    assert_eq!(world.act("noor", 11, start("saw")), Ok(()));
    let session = world.state.sessions.values().next().expect("noor's");
    assert_eq!(session.last_at, at(11));
}

#[test]
fn a_tag_of_the_last_instant_of_all_is_answered_by_words_that_can_be_read_again() {
    let mut world = World::new();
    let last = Instant::parse("9999-12-31T23:59:59.999Z").expect("a literal instant");
    let tag = |problem: &str| Command::TagOut { machine: "saw".into(), problem: problem.into(), photo: None };
    assert_eq!(world.act_at("ilse", last, tag("bent")), Ok(()));
    assert_eq!(world.act("noor", 0, tag("still bent")), Ok(()));
    assert!(world.state.tags.contains_key(&MachineId::from("saw")));
    for entry in &world.log {
        assert_eq!(Instant::parse(&entry.at.to_string()), Some(entry.at));
    }
}
