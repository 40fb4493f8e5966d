//! How well the reserve fits: in what share of past sessions the sweep ended within the time that was planned for it, and
//! in what share each chore did.
//!
//! A sweep is judged by the plan as it would have been made when it began: from what the log had taught by then, with that
//! crew, with the watch that was still running. It ended within the reserve if its last chore was ticked by the planned
//! end, or by the shop's floor if that is later. A sweep that left chores out says nothing about how long a whole one takes
//! and is counted apart, so that leaving early does not look like planning well.
//!
//! Each chore is planned at the asked quantile of its own minutes, and not all are slow on the same evening: whole sweeps
//! end in time oftener than that quantile says. The chores' own shares are the ones to hold against it; what each has
//! come to from the rulebook's minutes is in [`learning`].
//!
//! Reads a log and the rulebook; writes nothing, and corrects nothing: the estimate learns by itself.

pub mod learning;
mod taught;

use crate::chores::{self, DueChore};
use crate::entry::Entry;
use crate::estimate::History;
use crate::figures::together;
use crate::fire_watch::{Spark, last_spark};
use crate::ids::{ChoreId, MachineId};
use crate::ordered::{Map, Set};
use crate::plan::{HotWork, Plan, Request, Use, plan};
use crate::roster;
use crate::rulebook::Rulebook;
use crate::state::{self, Session, State};
use crate::time::{Instant, Span};

use self::learning::Timed;
use self::taught::Taught;

/// How often something ended in time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// How often it did.
    pub within: u64,
    /// Of how many.
    pub of: u64,
}

impl Tally {
    /// How often chores took no longer than planned.
    pub fn of(timed: &[Timed]) -> Self {
        let mut tally = Self::default();
        for one in timed {
            tally.add(one.within());
        }
        tally
    }

    fn add(&mut self, within: bool) {
        self.within += u64::from(within);
        self.of += 1;
    }
}

/// What a log says about the reserve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Calibration {
    /// Whole sweeps, all of them.
    pub sweeps: Tally,
    /// Sweeps that left something out.
    pub incomplete: u64,
    /// Sweeps that the rulebook of today cannot plan: a machine that it no longer has, say.
    pub unplanned: u64,
    /// Whole sweeps of sessions that used a machine, for each machine of the rulebook.
    pub machines: Map<MachineId, Tally>,
    /// Of each whole sweep, by how much it ended after what was planned; below zero, before.
    pub late: Vec<Span>,
    /// Chores that were timed, oldest first.
    pub chores: Map<ChoreId, Vec<Timed>>,
}

/// Judges the sweeps of a log. Lines may come in the order in which a hub received them: they are judged by their instants.
pub fn calibrate(book: &Rulebook, entries: &[Entry]) -> Calibration {
    let state = State::of(entries);
    of_groups(book, &state, &together::groups(&state, |_| true), |_| true)
}

/// Judges the sweeps of the sessions that count. What the log had taught when each began is taken from all of it.
pub fn of_groups(
    book: &Rulebook,
    state: &State,
    groups: &[together::Group],
    counts: impl Fn(&Session) -> bool,
) -> Calibration {
    let mut said = Calibration::default();
    said.machines.extend(book.machines.iter().map(|machine| (machine.id.clone(), Tally::default())));
    let begun = groups.iter().flat_map(together::Group::begun).filter(|session| counts(session));
    let Some(first) = begun.map(|session| session.from).min() else { return said };
    let mut taught = Taught::of(book, state, first);
    for group in groups {
        let sessions = group.begun().filter(|session| counts(session));
        let mut sweeps: Vec<Sweep> = sessions.filter_map(|session| Sweep::of(&group.state, session)).collect();
        sweeps.sort_by_key(|sweep| (sweep.from, &sweep.session.id));
        for sweep in sweeps {
            match sweep.planned(book, taught.by(sweep.from)) {
                Some(plan) => judge(book, &sweep, &plan, &mut said),
                None => said.unplanned += 1,
            }
        }
    }
    said
}

/// The sweep of a session that left.
struct Sweep<'a> {
    session: &'a Session,
    from: Instant,
    last_out: bool,
    /// The machines started by then, each for so long.
    uses: Vec<Use>,
}

impl<'a> Sweep<'a> {
    fn of(state: &State, session: &'a Session) -> Option<Self> {
        let (from, left) = (session.sweep()?.from, session.left()?);
        let begun = session.uses.iter().filter(|use_| use_.from <= from);
        let length = |use_: &state::Use| session.use_end(use_, from).min(from) - use_.from;
        let uses = begun.map(|use_| Use { machine: use_.machine.clone(), used: length(use_) }).collect();
        Some(Self { session, from, last_out: roster::last_out_at(state, session, left), uses })
    }

    /// The plan as it would have been made when it began.
    fn planned(&self, book: &Rulebook, history: &History) -> Option<Plan> {
        let Self { session, from, last_out, uses } = self;
        let hot_work = match last_spark(book, session, *from) {
            None => HotWork::None,
            Some(Spark::Now) => HotWork::Ended(*from),
            Some(Spark::Ended(at)) => HotWork::Ended(at.min(*from)),
        };
        let before = session.chores.iter().filter(|(_, done)| done.at < *from);
        let done: Set<ChoreId> = before.map(|(chore, _)| chore.clone()).collect();
        let request = Request {
            book,
            room: &session.room,
            out_by: session.out_by,
            crew: session.sweep()?.crew,
            last_out: *last_out,
            hot_work,
            uses,
            done: &done,
            now: Some(*from),
            history,
        };
        plan(&request).ok()
    }

    /// How long the rulebook alone says that a chore takes, in whole minutes.
    fn written_minutes(&self, due: &DueChore) -> i64 {
        let own = self.uses.iter().filter(|one| Some(&one.machine) == due.machine);
        chores::minutes(due.chore, own.map(|one| one.used).sum())
    }
}

fn judge(book: &Rulebook, sweep: &Sweep, plan: &Plan, said: &mut Calibration) {
    let Sweep { session, from, last_out, .. } = sweep;
    let owed = chores::of_session(book, &session.room, session.machines(), *last_out);
    for step in &plan.steps {
        let took = session.chores.get(&step.id).and_then(|done| done.minutes);
        let (Some(took_minutes), Some(due)) = (took, owed.iter().find(|due| due.id == step.id)) else { continue };
        let planned_minutes = (step.end - step.start).minutes_up();
        let timed = Timed { written_minutes: sweep.written_minutes(due), planned_minutes, took_minutes };
        said.chores.entry(step.id.clone()).or_default().push(timed);
    }
    let ticked: Option<Vec<Instant>> = owed.iter().map(|due| Some(session.chores.get(&due.id)?.at)).collect();
    let Some(ticked) = ticked else {
        said.incomplete += 1;
        return;
    };
    let ended = ticked.into_iter().max().map_or(*from, |last| last.max(*from));
    let floor = *from + Span::from_minutes(i64::from(book.reserve.floor_minutes));
    let late = ended - plan.free_at.unwrap_or(*from).max(floor);
    let within = late <= Span::ZERO;
    said.late.push(late);
    said.sweeps.add(within);
    for machine in session.machines() {
        if let Some(tally) = said.machines.get_mut(machine) {
            tally.add(within);
        }
    }
}

#[cfg(all(test, feature = "toml"))]
mod tests;
