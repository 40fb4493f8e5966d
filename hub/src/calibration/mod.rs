//! How well the reserve fits: in what share of past sessions the sweep ended within the time that was planned for it, and
//! in what share each chore did.
//!
//! A sweep is judged by the plan as it would have been made when it began: from what the log had taught by then, with that
//! crew, with the watch that was still running. It ended within the reserve if its last chore was ticked by the planned
//! end, or by the shop's floor if that is later. A sweep that left chores out says nothing about how long a whole one takes
//! and is counted apart, so that leaving early does not look like planning well.
//!
//! Each chore is planned at the asked quantile of its own minutes, and not all are slow on the same evening: whole sweeps
//! end in time oftener than that quantile says. The chores' own shares are the ones to hold against it.
//!
//! Reads a log and the rulebook; writes nothing, and corrects nothing: the estimate learns by itself.

pub(crate) mod interval;

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::{Entry, Fact};
use shared_core::fire_watch::{Spark, last_spark};
use shared_core::ids::{ChoreId, MachineId, SessionId};
use shared_core::plan::{HotWork, Plan, Request, Use, plan};
use shared_core::rulebook::Rulebook;
use shared_core::state::{Session, State, fold};
use shared_core::time::{Instant, Span};
use shared_core::{chores, roster};

/// How often something ended in time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// How often it did.
    pub(crate) within: u64,
    /// Of how many.
    pub(crate) of: u64,
}

impl Tally {
    fn add(&mut self, within: bool) {
        self.within += u64::from(within);
        self.of += 1;
    }
}

/// What a log says about the reserve.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Calibration {
    /// Whole sweeps, all of them.
    pub(crate) sweeps: Tally,
    /// Sweeps that left something out.
    pub(crate) incomplete: u64,
    /// Sweeps that the rulebook of today cannot plan: a machine that it no longer has, say.
    pub(crate) unplanned: u64,
    /// Whole sweeps of sessions that used a machine, for each machine of the rulebook.
    pub(crate) machines: BTreeMap<MachineId, Tally>,
    /// Chores that were timed, against the minutes planned for each.
    pub(crate) chores: BTreeMap<ChoreId, Chore>,
}

/// How one chore fared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Chore {
    /// How often it took no longer than planned.
    pub(crate) tally: Tally,
    /// Minutes planned for it the first time.
    pub(crate) first_minutes: i64,
    /// Minutes planned for it the last time.
    pub(crate) last_minutes: i64,
}

/// Observed minutes of chores, as the planner takes them.
type History = BTreeMap<ChoreId, Vec<f64>>;

/// Judges the sweeps of a log. Lines may come in the order in which a hub received them: they are judged by their instants.
pub(crate) fn calibrate(book: &Rulebook, entries: &[Entry]) -> Calibration {
    let (state, taught) = taught(entries);
    let mut said = Calibration::default();
    said.machines.extend(book.machines.iter().map(|machine| (machine.id.clone(), Tally::default())));
    let mut swept: Vec<(&Session, Instant, Instant)> = state.sessions.values().filter_map(swept).collect();
    swept.sort_by_key(|(session, from, _)| (*from, &session.id));
    for (session, from, left) in swept {
        let history = taught.get(&session.id).cloned().unwrap_or_default();
        let last_out = roster::last_out_at(&state, session, left);
        let Some(plan) = planned(book, session, from, last_out, &history) else {
            said.unplanned += 1;
            continue;
        };
        judge(book, session, from, last_out, &plan, &mut said);
    }
    said
}

/// A session that swept and left: since when, until when.
fn swept(session: &Session) -> Option<(&Session, Instant, Instant)> {
    Some((session, session.sweep()?.from, session.left()?))
}

/// The whole log folded, and what it had taught when each sweep began.
fn taught(entries: &[Entry]) -> (State, BTreeMap<SessionId, History>) {
    let (mut state, mut taught) = (State::default(), BTreeMap::new());
    let mut in_order: Vec<&Entry> = entries.iter().collect();
    in_order.sort_by_key(|entry| entry.at);
    for entry in in_order {
        if let Fact::SweepStarted { .. } = entry.fact {
            taught.entry(entry.session.clone()).or_insert_with(|| state.observed_minutes());
        }
        fold(&mut state, entry);
    }
    (state, taught)
}

/// The plan of a session's sweep as it would have been made when it began.
fn planned(book: &Rulebook, session: &Session, from: Instant, last_out: bool, history: &History) -> Option<Plan> {
    let begun = session.uses.iter().filter(|use_| use_.from <= from);
    let length = |use_: &shared_core::state::Use| session.use_end(use_, from).min(from) - use_.from;
    let uses: Vec<Use> = begun.map(|use_| Use { machine: use_.machine.clone(), used: length(use_) }).collect();
    let hot_work = match last_spark(book, session, from) {
        None => HotWork::None,
        Some(Spark::Now) => HotWork::Ended(from),
        Some(Spark::Ended(at)) => HotWork::Ended(at.min(from)),
    };
    let before = session.chores.iter().filter(|(_, done)| done.at < from);
    let done: BTreeSet<ChoreId> = before.map(|(chore, _)| chore.clone()).collect();
    let request = Request {
        book,
        room: &session.room,
        out_by: session.out_by,
        crew: session.sweep()?.crew,
        last_out,
        hot_work,
        uses: &uses,
        done: &done,
        now: Some(from),
        history,
    };
    plan(&request).ok()
}

fn judge(book: &Rulebook, session: &Session, from: Instant, last_out: bool, plan: &Plan, said: &mut Calibration) {
    for step in &plan.steps {
        let Some(minutes) = session.chores.get(&step.id).and_then(|done| done.minutes) else { continue };
        let planned = (step.end - step.start).minutes_up();
        let chore = said.chores.entry(step.id.clone()).or_insert(Chore { first_minutes: planned, ..Chore::default() });
        #[expect(clippy::cast_precision_loss, reason = "minutes of a chore are few")]
        chore.tally.add(minutes <= planned as f64);
        chore.last_minutes = planned;
    }
    let owed = chores::of_session(book, &session.room, session.machines(), last_out);
    let ticked: Option<Vec<Instant>> = owed.iter().map(|due| Some(session.chores.get(&due.id)?.at)).collect();
    let Some(ticked) = ticked else {
        said.incomplete += 1;
        return;
    };
    let ended = ticked.into_iter().max().map_or(from, |last| last.max(from));
    let floor = from + Span::from_minutes(i64::from(book.reserve.floor_minutes));
    let within = ended <= plan.free_at.unwrap_or(from).max(floor);
    said.sweeps.add(within);
    for machine in session.machines() {
        if let Some(tally) = said.machines.get_mut(machine) {
            tally.add(within);
        }
    }
}

#[cfg(test)]
mod tests;
