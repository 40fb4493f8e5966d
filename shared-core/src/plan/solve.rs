//! One problem, one answer: bounds first, then a quick schedule, then the proof if there is any doubt left.
//!
//! Says what was proven and what not; never calls a schedule optimal on the strength of a heuristic alone.

use super::bound::{self, Bound};
use super::exact::{self, Proof};
use super::heuristic;
use super::model::Problem;

/// A schedule and what is known of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Solved {
    /// When each task starts.
    pub(super) starts: Vec<i64>,
    /// When the last is finished.
    pub(super) makespan_ms: i64,
    /// No schedule is shorter than this, and none shorter than what was enough was looked for.
    pub(super) low_ms: i64,
    /// What holds it back most.
    pub(super) bound: Bound,
    /// No schedule is shorter than this by that bound alone.
    pub(super) bound_ms: i64,
    /// How many nodes the proof took.
    pub(super) nodes: u64,
}

/// The shortest schedule up to [`exact::TASKS_MAX`] tasks, a good one past that. Stops looking at `enough_ms`: below
/// it the caller does not care. `known` is a schedule that is feasible already, if there is one.
pub(super) fn solve(problem: &Problem, order: &[usize], enough_ms: i64, known: Option<Vec<i64>>) -> Solved {
    let (bound, bound_ms) = bound::best(problem, order);
    let enough_ms = enough_ms.max(bound_ms);
    let mut starts = heuristic::starts(problem, order, enough_ms);
    if let Some(known) = known.filter(|known| problem.makespan(known) < problem.makespan(&starts)) {
        starts = known;
    }
    if problem.makespan(&starts) <= enough_ms {
        return Solved { makespan_ms: problem.makespan(&starts), starts, low_ms: enough_ms, bound, bound_ms, nodes: 0 };
    }
    if problem.tasks.len() > exact::TASKS_MAX {
        starts = heuristic::swapped(problem, &starts, enough_ms);
        return Solved { makespan_ms: problem.makespan(&starts), starts, low_ms: enough_ms, bound, bound_ms, nodes: 0 };
    }
    // A watch that begins after the end is no watch.
    let watched = problem.held.is_some_and(|held| held.from_ms < problem.makespan(&starts));
    let bare = (!watched).then(|| problem.with_held(None));
    let Proof { starts, nodes } = exact::prove(bare.as_ref().unwrap_or(problem), order, starts, enough_ms);
    let makespan_ms = problem.makespan(&starts);
    Solved { starts, makespan_ms, low_ms: makespan_ms, bound, bound_ms, nodes }
}

impl Solved {
    /// How much shorter it might be, where the caller cares.
    pub(super) fn gap_ms(&self) -> i64 {
        (self.makespan_ms - self.low_ms).max(0)
    }
}
