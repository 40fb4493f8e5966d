//! What an entry moved: which times of a session are others now, and why.
//!
//! Times are asked for twice, before the entry and after it, at the same now, so that only the entry can have moved
//! them; what time itself moves (a machine that runs on) is nobody's act and is not told here. Every entry that can move
//! a time has a cause. Knows no words: how it is said is the app's.

use crate::entry::{Entry, Fact};
use crate::ids::{ChoreId, MachineId};
use crate::plan::explain::Mark;
use crate::session_plan;
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::bench::Times;

/// Times that moved, and what moved them.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// What did.
    pub cause: Cause,
    /// What moved, in the order of [`Mark`]; never none.
    pub times: Vec<MovedTime>,
}

/// A time that moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MovedTime {
    /// Which.
    pub mark: Mark,
    /// When it was; none if there was none.
    pub from: Option<Instant>,
    /// When it is now; none if there is none any more.
    pub to: Option<Instant>,
}

/// Why a time moved. Names are people's and machines' own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The member started a machine.
    Started {
        /// Its name.
        machine: String,
    },
    /// The member stopped a machine.
    Stopped {
        /// Its name.
        machine: String,
    },
    /// The member moved out-by.
    OutByMoved,
    /// The sweep began, or more of them sweep.
    SweepStarted {
        /// How many sweep.
        crew: u32,
    },
    /// The member did a chore, sooner or later than planned.
    ChoreDone {
        /// Its words, if the rulebook has it.
        text: String,
    },
    /// Another came: the room's last chores are no longer this session's.
    OtherCame {
        /// Their name.
        who: String,
    },
    /// Another left: the room's last chores may be this session's now.
    OtherLeft {
        /// Their name.
        who: String,
    },
    /// Another did a chore, and it was learned how long it takes.
    Learned {
        /// Its words, if the rulebook has it.
        text: String,
    },
}

/// A session's times at a moment, to be compared with those a moment later; those that cannot be planned are none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks([(Mark, Option<Instant>); 5]);

/// The times of the viewer's session; `None` without an open one.
pub fn marks(viewer: &Viewer) -> Option<Marks> {
    let session = viewer.open_session()?;
    let times = session_plan::plan_of(viewer, session).ok().map(|plan| Times::of(viewer.book, &plan));
    let of = |pick: fn(&Times) -> Option<Instant>| times.as_ref().and_then(pick);
    Some(Marks([
        (Mark::OutBy, Some(session.out_by)),
        (Mark::SweepFrom, of(|times| Some(times.sweep_from))),
        (Mark::FirstBell, of(|times| Some(times.first_bell))),
        (Mark::LastSpark, of(|times| times.last_spark)),
        (Mark::WatchUntil, of(|times| times.watch.map(|(_, until)| until))),
    ]))
}

/// What `entries` moved: `before` are the times without them, `after` looks at the same moment and knows them. Of several
/// entries of one act the last that can move a time is the cause. `None` if no time moved.
pub fn moved<'e>(before: &Marks, after: &Viewer, entries: impl DoubleEndedIterator<Item = &'e Entry>) -> Option<Moved> {
    let is = marks(after)?;
    let changed = before.0.into_iter().zip(is.0).filter(|((_, from), (_, to))| from != to);
    let times: Vec<MovedTime> = changed.map(|((mark, from), (_, to))| MovedTime { mark, from, to }).collect();
    if times.is_empty() {
        return None;
    }
    let cause = entries.rev().find_map(|entry| cause(after, entry))?;
    Some(Moved { cause, times })
}

/// What an entry is to the viewer, if it can move a time at all.
fn cause(viewer: &Viewer, entry: &Entry) -> Option<Cause> {
    let mine = viewer.session == Some(&entry.session) && *viewer.me == entry.who;
    let machine = |id: &MachineId| viewer.book.machine_name(id);
    let who = || viewer.members.name(&entry.who).to_owned();
    Some(match &entry.fact {
        Fact::MachineStarted { machine: id, .. } if mine => Cause::Started { machine: machine(id) },
        Fact::MachineStopped { machine: id } if mine => Cause::Stopped { machine: machine(id) },
        Fact::OutByMoved { .. } if mine => Cause::OutByMoved,
        Fact::SweepStarted { crew } if mine => Cause::SweepStarted { crew: *crew },
        Fact::ChoreDone { chore, .. } if mine => Cause::ChoreDone { text: text(viewer, chore) },
        Fact::ChoreDone { chore, .. } => Cause::Learned { text: text(viewer, chore) },
        Fact::Entered { .. } if !mine => Cause::OtherCame { who: who() },
        Fact::Left if !mine => Cause::OtherLeft { who: who() },
        _ => return None,
    })
}

/// A chore's words; its id if the rulebook has no such chore.
fn text(viewer: &Viewer, id: &ChoreId) -> String {
    let of_machines = viewer.book.machines.iter().map(|machine| (machine.id.as_str(), &machine.chores));
    let of_rooms = viewer.book.rooms.iter().map(|room| (room.id.as_str(), &room.chores));
    let mut owners = of_machines.chain(of_rooms).filter(|(owner, _)| *owner == id.owner());
    let found = owners.find_map(|(owner, chores)| chores.iter().find(|chore| ChoreId::of(owner, &chore.id) == *id));
    found.map_or_else(|| id.to_string(), |chore| chore.text.clone())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::bell::{self, Bell, Rung};
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::state::{State, fold};
    use crate::testing::{World, at, start, stop};
    use crate::view::bench;

    const OPEN: &str = "noor is in";

    /// Lets `who` act, and gives what each entry that came of it moved for noor.
    fn acted(world: &mut World, who: &str, minute: i64, command: Command) -> Vec<Moved> {
        let (before, said) = (world.state.clone(), world.log.len());
        if world.act(who, minute, command).is_err() {
            return Vec::new();
        }
        let me = PersonId::from("noor");
        let after = world.viewer(&me, at(minute));
        let (mut then, mut found) = (before, Vec::new());
        for entry in &world.log[said..] {
            let known = then.clone();
            fold(&mut then, entry);
            let (was, is) = (Viewer { state: &known, ..after }, Viewer { state: &then, ..after });
            let Some((was, now)) = marks(&was).zip(marks(&is)) else { continue };
            let told = moved(&was, &is, std::iter::once(entry));
            assert_eq!(told.is_some(), was != now, "{entry:?} moved a time and has no cause, or the other way round");
            found.extend(told);
        }
        found
    }

    #[track_caller]
    fn check(world: &mut World, (who, minute): (&str, i64), command: Command, want: Option<(Cause, &[Mark])>) {
        let moved = acted(world, who, minute, command);
        let told = moved.last().map(|moved| (moved.cause.clone(), moved.times.iter().map(|time| time.mark).collect()));
        assert_eq!(told, want.map(|(cause, marks)| (cause, marks.to_vec())));
    }

    #[test]
    fn what_was_done_is_the_cause() {
        use Mark::{FirstBell, LastSpark, OutBy, SweepFrom, WatchUntil};
        let mut world = World::new();
        world.enter("noor", 0, 180).expect(OPEN);
        let name = |id: &str| format!("The {id}");
        let all = [SweepFrom, FirstBell, LastSpark, WatchUntil];
        check(&mut world, ("noor", 1), start("torch"), Some((Cause::Started { machine: name("torch") }, &all)));
        check(&mut world, ("noor", 2), start("saw"), Some((Cause::Started { machine: name("saw") }, &all)));
        let stopped = Cause::Stopped { machine: name("torch") };
        check(&mut world, ("noor", 30), stop("torch"), Some((stopped, &[LastSpark, WatchUntil])));
        let marks = [OutBy, SweepFrom, FirstBell];
        check(&mut world, ("noor", 31), Command::MoveOutBy { out_by: at(200) }, Some((Cause::OutByMoved, &marks)));
        let came = Cause::OtherCame { who: "ILSE".into() };
        let arrives = crate::testing::arrive("ilse", "forge", 40, 200);
        check(&mut world, ("ilse", 40), arrives, Some((came, &marks[1..])));
        let left = Cause::OtherLeft { who: "ILSE".into() };
        check(&mut world, ("ilse", 50), Command::Leave, Some((left, &marks[1..])));
        check(&mut world, ("noor", 51), Command::WalkWatch, None);
    }

    /// What is drawn: who, what, and how many minutes later.
    fn acts() -> impl Strategy<Value = Vec<(u8, u8, i64)>> {
        prop::collection::vec((0..4_u8, 0..12_u8, 0..15_i64), 1..40)
    }

    fn command(kind: u8, who: &str, minute: i64) -> Command {
        let chore = |id: &str| Command::FinishChore { chore: id.into(), photo: None };
        match kind {
            0 => start("torch"),
            1 => start("saw"),
            2 => stop("torch"),
            3 => stop("saw"),
            4 => Command::MoveOutBy { out_by: at(minute + 60) },
            5 => Command::MoveOutBy { out_by: at(minute + 20) },
            6 => Command::StartSweep { crew: 1 + u32::from(minute % 3 == 0) },
            7 => chore("torch/brush"),
            8 => chore("saw/brush"),
            9 => chore("forge/floor"),
            10 => Command::Leave,
            _ => crate::testing::arrive(who, "forge", minute, minute + 90),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

        /// Every change between two folds has a cause; the bells that are set are no later than those of a plan made
        /// from nothing but the log; and once a sweep's time has come, a bell has rung for it.
        #[test]
        fn bells_are_never_late_and_every_move_has_a_cause(acts in acts()) {
            let mut world = World::new();
            world.enter("noor", 0, 150).expect(OPEN);
            let me = PersonId::from("noor");
            let (mut minute, mut rung, mut told) = (0, Rung::default(), false);
            for (who, kind, later) in acts {
                minute += later;
                // One in four is somebody else's doing.
                let who = if who == 0 { "ilse" } else { "noor" };
                if who == "noor" && kind >= 10 {
                    continue;
                }
                acted(&mut world, who, minute, command(kind, who, minute));
                let fresh = State::of(&world.log);
                let viewer = world.viewer(&me, at(minute));
                let alone = Viewer { state: &fresh, ..viewer };
                let sweeping = viewer.open_session().is_some_and(|session| session.sweep().is_some());
                let set = bell::set(&bench::bench(&viewer).expect(OPEN), sweeping);
                let planned = session_plan::plan_of(&alone, alone.open_session().expect(OPEN)).expect("a plan");
                let times = Times::of(&world.book, &planned);
                let latest = |bell: &Bell| match bell {
                    Bell::First => Some(times.first_bell),
                    Bell::Sweep => Some(times.sweep_from),
                    Bell::LastSpark => times.last_spark,
                    _ => None,
                };
                for set in &set {
                    prop_assert!(latest(&set.bell).is_none_or(|latest| set.at <= latest), "{:?} of {:?}", set, times);
                }
                let due = bell::due(&set, &mut rung, at(minute));
                for due in &due {
                    rung.note(due);
                }
                told |= due.iter().any(|due| matches!(due.bell, Bell::Sweep | Bell::Last));
                prop_assert!(told || sweeping || at(minute) < times.sweep_from, "no bell by {}: {:?}", minute, times);
            }
        }
    }
}
