//! Tick a chore of this session whose turn has come.
//!
//! The minutes that go with it run from the later of the sweep's start and the chore ticked before it, so that a log
//! teaches how long chores take. Unattended chores run beside others and are not timed; nor is a chore that was ticked a
//! day later, which teaches nothing and which no log would take.

use crate::entry::Fact;
use crate::ids::ChoreId;
use crate::log::wire::CHORE_MINUTES_MAX;
use crate::refusal::Refusal;
use crate::session_plan;
use crate::state::Session;
use crate::time::{Instant, MINUTE_MS, Span};
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, chore: ChoreId, photo: Option<String>) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    if session.chores.contains_key(&chore) {
        return Err(Refusal::ChoreDone { chore });
    }
    let due = session_plan::due_chores(viewer, session);
    let found = due.iter().find(|due| due.id == chore).ok_or_else(|| Refusal::NoSuchChore { chore: chore.clone() })?;
    if let Some(first) = session_plan::waits_for(&due, found, session) {
        return Err(Refusal::ChoreWaits { first: first.chore.text.clone() });
    }
    let minutes = (found.chore.hands > 0).then(|| taken(session, viewer.now)).flatten();
    Ok(vec![Fact::ChoreDone { chore, minutes, photo }])
}

/// Minutes since the chore before, in tenths; none outside a sweep.
#[expect(clippy::cast_precision_loss, reason = "tenths of a minute are few")]
fn taken(session: &Session, now: Instant) -> Option<f64> {
    let sweep = session.sweep()?;
    let since = session.chores.values().map(|done| done.at).fold(sweep.from, Instant::max);
    let tenths = (now - since).max(Span::ZERO).ms() * 10 / MINUTE_MS;
    Some(tenths as f64 / 10.0).filter(|minutes| *minutes <= CHORE_MINUTES_MAX)
}
