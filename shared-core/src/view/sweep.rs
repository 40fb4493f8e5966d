//! Sweep: the chores in the planned order, the fire watch, what is still missing.

use crate::chores;
use crate::fire_watch::Watch;
use crate::ids::ChoreId;
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::roster;
use crate::session_plan;
use crate::state::{Session, Stage};
use crate::time::{Instant, Span};
use crate::view::{Viewer, bench};

/// What Sweep shows.
#[derive(Clone, Debug, PartialEq)]
pub struct SweepView {
    /// The room's name.
    pub room: String,
    /// When the sweep began, once it has.
    pub began: Option<Instant>,
    /// How many sweep.
    pub crew: u32,
    /// When the member must be out.
    pub out_by: Instant,
    /// When one would be free from now, or why that cannot be planned.
    pub free_at: Result<Instant, Refusal>,
    /// The chores: done ones first as they were done, then the rest in the planned order.
    pub chores: Vec<ChoreRow>,
    /// The fire watch.
    pub watch: Option<Watch>,
    /// Machines that still run.
    pub running: Vec<String>,
    /// Whether nobody else is known to be in the room, so that the room's last chores belong to this session.
    pub last_out: bool,
    /// Names of others known to be here.
    pub others: Vec<String>,
}

/// One chore.
#[derive(Clone, Debug, PartialEq)]
pub struct ChoreRow {
    /// Its id.
    pub id: ChoreId,
    /// Whose it is: a machine's or the room's name.
    pub owner: String,
    /// What to do.
    pub text: String,
    /// How long it takes, in minutes.
    pub minutes: i64,
    /// People needed at once; 0 is unattended.
    pub hands: u32,
    /// When it was done, or when it is planned.
    pub when: When,
}

/// Where a chore stands.
#[derive(Clone, Debug, PartialEq)]
pub enum When {
    /// Done then.
    Done(Instant),
    /// Planned to start then, if all start now.
    Next(Instant),
    /// Not before another chore is done.
    After {
        /// When it could start.
        start: Instant,
        /// The words of the chore that comes first.
        first: String,
    },
}

/// What Sweep shows to this viewer; `None` without an open session.
pub fn sweep(viewer: &Viewer) -> Option<SweepView> {
    let session = viewer.open_session()?;
    let (began, crew) = match &session.stage {
        Stage::Sweeping(sweep) => (Some(sweep.from), sweep.crew),
        _ => (None, 1),
    };
    let plan = session_plan::plan_of(viewer, session);
    let others = roster::others_in_room(viewer.state, &session.room, &session.id);
    Some(SweepView {
        room: super::door::room_name(viewer, &session.room),
        began,
        crew,
        out_by: session.out_by,
        free_at: plan.as_ref().map(|plan| plan.free_at.unwrap_or(viewer.now)).map_err(Clone::clone),
        chores: rows(viewer, session, plan.as_ref().ok()),
        watch: bench::watch(viewer),
        running: session.running_all().map(|use_| viewer.book.machine_name(&use_.machine)).collect(),
        last_out: others.clone().next().is_none(),
        others: others.map(|other| viewer.members.name(&other.who).to_owned()).collect(),
    })
}

/// Done chores as they were done, then the planned order.
fn rows(viewer: &Viewer, session: &Session, plan: Option<&Plan>) -> Vec<ChoreRow> {
    let due = session_plan::due_chores(viewer, session);
    let step = |id: &ChoreId| plan.and_then(|plan| plan.from_now.iter().find(|step| step.id == *id));
    let mut rows: Vec<ChoreRow> = due
        .iter()
        .map(|chore| {
            let start = step(&chore.id).map_or(viewer.now, |step| step.start);
            let when = match (session.chores.get(&chore.id), session_plan::waits_for(&due, chore, session)) {
                (Some(done), _) => When::Done(done.at),
                (None, Some(first)) => When::After { start, first: first.chore.text.clone() },
                (None, None) => When::Next(start),
            };
            let minutes = step(&chore.id)
                .map_or_else(|| chores::minutes(chore.chore, Span::ZERO), |step| (step.end - step.start).minutes_up());
            let owner = chore.machine.map_or_else(
                || viewer.book.room(&session.room).map_or_else(String::new, |room| room.name.clone()),
                |machine| viewer.book.machine_name(machine),
            );
            let text = chore.chore.text.clone();
            ChoreRow { id: chore.id.clone(), owner, text, minutes, hands: chore.chore.hands, when }
        })
        .collect();
    rows.sort_by_key(|row| match &row.when {
        When::Done(at) => (0, *at),
        When::Next(start) | When::After { start, .. } => (1, *start),
    });
    rows
}
