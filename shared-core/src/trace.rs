//! Who could have left it: the least set of windows of use, and the minutes of footage in their union.
//!
//! The bracket starts at the last moment before the mess was seen at which the machine was found clean, or at which
//! somebody who used it had done all its chores. Every use that touches the bracket is a window, from its start to the
//! later of the session's end and its last chore on the machine. Facts, no blame: the words are a screen's, and they
//! ask. See DESIGN.md section 4, "Trace".

use crate::entry::{Condition, Place};
use crate::ids::{ChoreId, PersonId, SessionId};
use crate::rulebook::{Machine, Room, When};
use crate::state::{Found, Session, State};
use crate::time::{Instant, Span};

/// The answer to "who could have left it".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trace {
    /// When it was last known to be clean; `None` if never.
    pub from: Option<Instant>,
    /// When the mess was seen.
    pub to: Instant,
    /// Windows of use, in order of start.
    pub windows: Vec<Window>,
    /// Minutes in the union of the windows, rounded up.
    pub footage_minutes: i64,
}

/// One use that could have left it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Window {
    /// Whose session.
    pub session: SessionId,
    /// Who.
    pub who: PersonId,
    /// From the start of use.
    pub from: Instant,
    /// To the later of the session's end and its last chore on the machine, never past the seeing.
    pub to: Instant,
    /// Whether the session ticked all of the machine's chores by then.
    pub chores_done: bool,
    /// By how much the phone's wall clock jumped in this session: so wrong the window may be against the footage's clock.
    pub clock_jumped: Span,
}

/// What a mess was seen on, or in: when each session used it, and which chores leave it clean.
#[derive(Clone, Debug)]
pub enum Seen<'a> {
    /// A machine: its uses, its chores.
    Machine(&'a Machine),
    /// A room: the stays in it, and the chores that every stay owes.
    Room(&'a Room),
}

impl Seen<'_> {
    fn is(&self, place: &Place) -> bool {
        match (self, place) {
            (Self::Machine(machine), Place::Machine(id)) => machine.id == *id,
            (Self::Room(room), Place::Room(id)) => room.id == *id,
            _ => false,
        }
    }

    /// The chores that leave it clean.
    pub fn chores(&self) -> Vec<ChoreId> {
        match self {
            Self::Machine(machine) => {
                machine.chores.iter().map(|chore| ChoreId::of(machine.id.as_str(), &chore.id)).collect()
            }
            Self::Room(room) => {
                let always = room.chores.iter().filter(|chore| chore.when == When::Always);
                always.map(|chore| ChoreId::of(room.id.as_str(), &chore.id)).collect()
            }
        }
    }

    /// When a session used it, each with its end; what still goes on ends at `seen`.
    fn uses(&self, session: &Session, seen: Instant) -> Vec<(Instant, Instant)> {
        match self {
            Self::Machine(machine) => {
                let uses = session.uses.iter().filter(|use_| use_.machine == machine.id);
                uses.map(|use_| (use_.from, session.use_end(use_, seen))).collect()
            }
            Self::Room(room) if session.room == room.id => {
                vec![(session.from, session.left().unwrap_or(seen).max(session.from))]
            }
            Self::Room(_) => Vec::new(),
        }
    }
}

/// Who could have left the mess that was seen on `machine` at `seen`.
pub fn trace(state: &State, machine: &Machine, seen: Instant) -> Trace {
    trace_among(&state.found, state.sessions.values(), &Seen::Machine(machine), seen)
}

/// The same of some finds and sessions, which must be all that are about this machine or room.
pub fn trace_among<'a>(
    found: impl IntoIterator<Item = &'a Found>,
    sessions: impl Iterator<Item = &'a Session> + Clone,
    what: &Seen,
    seen: Instant,
) -> Trace {
    let chores = what.chores();
    let found = found.into_iter().filter(|found| found.condition == Condition::Clean && what.is(&found.place));
    let mut from = found.map(|found| found.at).filter(|at| *at < seen).max();
    for session in sessions.clone() {
        if !was_over(session, from) && !what.uses(session, seen).is_empty() {
            from = from.max(all_done_at(session, &chores, seen).filter(|at| *at < seen));
        }
    }
    let mut windows = Vec::new();
    for session in sessions.filter(|session| !was_over(session, from)) {
        for (begun, end) in what.uses(session, seen).into_iter().filter(|(begun, _)| *begun < seen) {
            // A use that had begun before the bracket and went on in it could have left it too.
            if from.is_some_and(|from| begun < from && end <= from) {
                continue;
            }
            windows.push(Window {
                session: session.id.clone(),
                who: session.who.clone(),
                from: begun,
                to: window_end(session, &chores, end, seen),
                chores_done: all_done_at(session, &chores, seen).is_some(),
                clock_jumped: session.clock_jumped(),
            });
        }
    }
    windows.sort_by(|a, b| (a.from, a.to, &a.session).cmp(&(b.from, b.to, &b.session)));
    let footage_minutes = union(windows.iter().map(|window| (window.from, window.to))).minutes_up();
    Trace { from, to: seen, windows, footage_minutes }
}

/// Whether a session had ended before the bracket: nothing that it did can begin the bracket later, or reach into it. Most of a
/// long log is left out by this alone, and the sooner the later its first sessions are.
fn was_over(session: &Session, from: Option<Instant>) -> bool {
    !session.is_open() && from.is_some_and(|from| session.last_at < from)
}

/// When a session had done all of some chores, if it had by `seen`; never where there are none.
fn all_done_at(session: &Session, chores: &[ChoreId], seen: Instant) -> Option<Instant> {
    let mut last = None;
    for chore in chores {
        last = last.max(Some(session.chores.get(chore)?.at));
    }
    last.filter(|at| *at <= seen)
}

fn window_end(session: &Session, chores: &[ChoreId], use_end: Instant, seen: Instant) -> Instant {
    let last_chore = chores.iter().filter_map(|chore| session.chores.get(chore)).map(|done| done.at).max();
    let end = session.left().unwrap_or(seen).max(use_end);
    last_chore.map_or(end, |at| at.max(end)).min(seen)
}

/// The length of the union of stretches that come in order of start.
fn union(stretches: impl Iterator<Item = (Instant, Instant)>) -> Span {
    let mut covered_to = Instant::from_ms(i64::MIN);
    let mut total = Span::ZERO;
    for (from, to) in stretches {
        let from = from.max(covered_to);
        if to > from {
            total = total + (to - from);
            covered_to = to;
        }
    }
    total
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::entry::Place;
    use crate::testing::{World, at, start, stop};

    /// What `trace` says of the saw, as (bracket start, [(who, from, to, chores done)], footage), in minutes.
    #[track_caller]
    fn check(
        acts: Vec<(&str, i64, Command)>,
        seen: i64,
        from: Option<i64>,
        windows: &[(&str, i64, i64, bool)],
        footage: i64,
    ) {
        let mut world = World::new();
        for (who, minute, command) in acts {
            assert_eq!(world.act(who, minute, command), Ok(()));
        }
        let machine = world.book.machine(&"saw".into()).expect("the test shop has a saw");
        let trace = trace(&world.state, machine, at(seen));
        let minutes = |at_: Instant| (at_ - at(0)).minutes_up();
        let told: Vec<(&str, i64, i64, bool)> = trace
            .windows
            .iter()
            .map(|window| (window.who.as_str(), minutes(window.from), minutes(window.to), window.chores_done))
            .collect();
        assert_eq!((trace.from.map(minutes), told.as_slice(), trace.footage_minutes), (from, windows, footage));
    }

    fn enter(who: &str, minute: i64) -> (&str, i64, Command) {
        (who, minute, crate::testing::arrive(who, "forge", minute, minute + 200))
    }

    fn brush(who: &str, minute: i64) -> (&str, i64, Command) {
        (who, minute, Command::FinishChore { chore: "saw/brush".into(), photo: None })
    }

    fn found_clean(who: &str, minute: i64) -> (&str, i64, Command) {
        let place = Place::Machine("saw".into());
        (who, minute, Command::ReportFound { place, condition: Condition::Clean, note: None })
    }

    #[test]
    fn the_bracket_runs_from_the_last_clean_to_the_seeing() {
        // Nobody ever left it clean: everybody who used it before, and nobody after.
        let used =
            vec![enter("noor", 0), ("noor", 5, start("saw")), ("noor", 9, stop("saw")), ("noor", 20, Command::Leave)];
        check(used.clone(), 60, None, &[("noor", 5, 20, false)], 15);
        check(used.clone(), 4, None, &[], 0);
        check(used.clone(), 12, None, &[("noor", 5, 12, false)], 7);
        // Left clean by its user: the bracket is empty.
        check(
            [used[..3].to_vec(), vec![brush("noor", 15), ("noor", 20, Command::Leave)]].concat(),
            60,
            Some(15),
            &[],
            0,
        );
        // Found clean by the next.
        check([used.clone(), vec![found_clean("ilse", 30)]].concat(), 60, Some(30), &[], 0);
        // A mess found there, and another machine found clean, say nothing of it.
        let elsewhere =
            Command::ReportFound { place: Place::Machine("lathe".into()), condition: Condition::Clean, note: None };
        let mess = Command::ReportFound {
            place: Place::Machine("saw".into()),
            condition: Condition::Mess,
            note: Some("chips".to_owned()),
        };
        let told = vec![("ilse", 30, elsewhere), ("ilse", 31, mess)];
        check([used.clone(), told].concat(), 60, None, &[("noor", 5, 20, false)], 15);
        // A use that begins as it is found clean is in the bracket, however short; one that ended by then is not.
        let at_once =
            vec![found_clean("ilse", 9), enter("bram", 9), ("bram", 9, start("saw")), ("bram", 9, stop("saw"))];
        check(
            [used[..3].to_vec(), at_once, vec![("noor", 20, Command::Leave)]].concat(),
            10,
            Some(9),
            &[("bram", 9, 10, false)],
            1,
        );
        // Two uses after that: two windows that overlap, and their union.
        let later = vec![
            found_clean("ilse", 30),
            enter("ilse", 40),
            enter("bram", 41),
            ("ilse", 50, start("saw")),
            ("ilse", 55, stop("saw")),
            ("bram", 56, start("saw")),
            ("bram", 58, stop("saw")),
            ("ilse", 70, Command::Leave),
            ("bram", 80, Command::Leave),
        ];
        let windows = [("ilse", 50, 70, false), ("bram", 56, 80, false)];
        check([used, later].concat(), 100, Some(30), &windows, 30);
        // A use that went on while somebody else called it clean could have left it all the same.
        let through =
            vec![enter("noor", 0), ("noor", 5, start("saw")), found_clean("ilse", 7), ("noor", 9, stop("saw"))];
        check(through, 30, Some(7), &[("noor", 5, 30, false)], 25);
    }
}
