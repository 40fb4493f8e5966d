//! The plan of a session under way: what the planner is asked, and what a screen or a decision needs of the answer.
//!
//! What is assumed is written here and nowhere else. Before the sweep one person sweeps; a machine that still runs is
//! reckoned as running until the sweep, so that a bell never moves earlier merely because work went on; nobody else
//! known in the room means that the room's last chores are this session's. No rule of scheduling lives here:
//! see [`crate::plan`].

use crate::chores::{self, DueChore};
use crate::fire_watch::{self, Spark};
use crate::ids::{ChoreId, MachineId};
use crate::ordered::Set;
use crate::plan::explain::{self, Assumed, Explained};
use crate::plan::{self, HotWork, Impossible, Plan, Request, Use};
use crate::refusal::Refusal;
use crate::roster;
use crate::state::Session;
use crate::time::{Instant, Span};
use crate::viewer::Viewer;

/// The plan of a session now.
pub fn plan_of(viewer: &Viewer, session: &Session) -> Result<Plan, Refusal> {
    plan_if(viewer, session, session.out_by)
}

/// The plan of a session as another out-by would make it. Nothing is moved.
pub fn plan_if(viewer: &Viewer, session: &Session, out_by: Instant) -> Result<Plan, Refusal> {
    let uses = uses(viewer, session, out_by);
    asked(viewer, session, out_by, hot_work(viewer, session), &uses, plan::plan)
}

/// The plan of a session now, why each of its times is what it is, and what was taken for granted.
pub fn explained(viewer: &Viewer, session: &Session) -> Result<Explained, Refusal> {
    let (out_by, uses) = (session.out_by, uses(viewer, session, session.out_by));
    let mut explained = asked(viewer, session, out_by, hot_work(viewer, session), &uses, explain::explain)?;
    if session.sweep().is_none() {
        explained.assumed.push(Assumed::OneSweeps);
    }
    if session.running_all().next().is_some() {
        explained.assumed.push(Assumed::RunUntilSweep);
    }
    Ok(explained)
}

/// Until when a session could start `machine` as hot work; nothing once that is past. What is well before the last
/// spark of the worst plan is told without solving one, so that a list of hot machines costs a phone nothing.
pub fn spark_refused(viewer: &Viewer, session: &Session, machine: &MachineId) -> Result<Option<Instant>, Refusal> {
    let mut uses = uses(viewer, session, session.out_by);
    uses.push(Use { machine: machine.clone(), used: until_sweep(viewer, session.out_by, viewer.now) });
    asked(viewer, session, session.out_by, HotWork::Coming, &uses, |request| {
        if viewer.now < plan::last_spark_at_worst(request)? {
            return Ok(None);
        }
        let plan = plan::plan(request)?;
        let last_spark = plan.last_spark.unwrap_or(plan.sweep_from);
        Ok((viewer.now >= last_spark).then_some(last_spark))
    })
}

/// Puts the session's request to the planner.
fn asked<T>(
    viewer: &Viewer,
    session: &Session,
    out_by: Instant,
    hot_work: HotWork,
    uses: &[Use],
    ask: impl FnOnce(&Request) -> Result<T, Impossible>,
) -> Result<T, Refusal> {
    let done: Set<ChoreId> = session.chores.keys().cloned().collect();
    let request = Request {
        book: viewer.book,
        room: &session.room,
        out_by,
        crew: crew(session),
        last_out: last_out(viewer, session),
        hot_work,
        uses,
        done: &done,
        now: Some(viewer.now),
        history: viewer.state,
    };
    ask(&request).map_err(|why| Refusal::CannotPlan { why })
}

/// The chores that this session owes, done or not.
pub fn due_chores<'a>(viewer: &Viewer<'a>, session: &Session) -> Vec<DueChore<'a>> {
    chores::of_session(viewer.book, &session.room, session.machines(), last_out(viewer, session))
}

/// The chore that must be done before `chore` and is not; `None` when its turn has come.
pub fn waits_for<'d, 'a>(due: &'d [DueChore<'a>], chore: &DueChore, session: &Session) -> Option<&'d DueChore<'a>> {
    due.iter()
        .filter(|other| other.id != chore.id && !session.chores.contains_key(&other.id))
        .find(|other| chore.chore.after.iter().any(|after| chores::names(after, chore, other)))
}

fn crew(session: &Session) -> u32 {
    session.sweep().map_or(1, |sweep| sweep.crew)
}

fn last_out(viewer: &Viewer, session: &Session) -> bool {
    roster::others_in_room(viewer.state, &session.room, &session.id).next().is_none()
}

fn hot_work(viewer: &Viewer, session: &Session) -> HotWork {
    match fire_watch::last_spark(viewer.book, session, viewer.now) {
        None => HotWork::None,
        Some(Spark::Now) => HotWork::Coming,
        Some(Spark::Ended(at)) => HotWork::Ended(at),
    }
}

fn uses(viewer: &Viewer, session: &Session, out_by: Instant) -> Vec<Use> {
    let used = |use_: &crate::state::Use| match use_.to {
        Some(to) => to - use_.from,
        None => until_sweep(viewer, out_by, use_.from),
    };
    session.uses.iter().map(|use_| Use { machine: use_.machine.clone(), used: used(use_) }).collect()
}

/// How long a machine that runs since `from` will have run when the shortest sweep begins.
fn until_sweep(viewer: &Viewer, out_by: Instant, from: Instant) -> Span {
    let floor = Span::from_minutes(i64::from(viewer.book.reserve.floor_minutes));
    ((out_by - floor) - from).max(viewer.now - from).max(Span::ZERO)
}
