//! From problems solved to instants: last spark, sweep, free at, and the steps between them.
//!
//! The sweep is solved by time reversal: what must end at out-by starts at zero there, so one forward solver serves.
//! The steps are then moved to the front of the reserve, so that what slack there is comes last. Rounds nothing but the
//! minutes that people are shown.

use super::gather::Gathered;
use super::heuristic;
use super::model::{Held, Problem};
use super::solve::{Solved, solve};
use super::{Bound, HotWork, Plan, Request, Step};
use crate::time::{Instant, Span};

/// The rule of the watch and where it was put; times in milliseconds.
#[derive(Clone, Copy)]
struct Watch {
    length_ms: i64,
    exclusive: bool,
}

impl Watch {
    /// What it holds of the crew if it begins at `from_ms`.
    fn held(self, from_ms: i64) -> Option<Held> {
        Held::after_zero(from_ms, from_ms + self.length_ms).filter(|_| self.exclusive)
    }
}

/// The parts of an answer that depend on the kind of hot work; times in milliseconds before out-by.
struct Answer {
    /// From the sweep's start to out-by, the floor counted in.
    reserve_ms: i64,
    /// From the last spark to out-by.
    spark_ms: Option<i64>,
    /// From now to when everybody is free.
    free_ms: Option<i64>,
    /// Starts of the tasks after the sweep's start.
    starts: Vec<i64>,
    /// Starts of the tasks from now, if everybody starts now.
    free_starts: Vec<i64>,
    gap_ms: i64,
    bound: Bound,
    bound_ms: i64,
    nodes: u64,
}

pub(super) fn plan(request: &Request, gathered: &Gathered) -> Plan {
    let rule = &request.book.fire_watch;
    let watch = Watch { length_ms: Span::from_minutes(i64::from(rule.minutes)).ms(), exclusive: rule.exclusive };
    let floor_ms = Span::from_minutes(i64::from(request.book.reserve.floor_minutes)).ms();
    let answer = match request.hot_work {
        HotWork::None => cold(gathered, floor_ms),
        HotWork::Coming => coming(gathered, floor_ms, watch),
        HotWork::Ended(at) => ended(request, gathered, floor_ms, watch, at),
    };
    place(request, gathered, &answer, watch)
}

/// No watch: one problem answers everything.
fn cold(gathered: &Gathered, floor_ms: i64) -> Answer {
    let solved = solve(&gathered.problem, &gathered.order, 0, None);
    Answer {
        reserve_ms: solved.makespan_ms.max(floor_ms),
        spark_ms: None,
        free_ms: Some(solved.makespan_ms),
        gap_ms: solved.gap_ms(),
        bound: solved.bound,
        bound_ms: solved.bound_ms,
        nodes: solved.nodes,
        free_starts: solved.starts.clone(),
        starts: solved.starts,
    }
}

/// The watch begins at the last spark, and no chore starts before it.
fn coming(gathered: &Gathered, floor_ms: i64, watch: Watch) -> Answer {
    let Gathered { problem, order, .. } = gathered;
    if watch.held(0).is_none() {
        let sweep = cold(gathered, floor_ms);
        let all_ms = sweep.free_ms.unwrap_or(0).max(watch.length_ms);
        return Answer { spark_ms: Some(all_ms.max(sweep.reserve_ms)), free_ms: Some(all_ms), ..sweep };
    }
    // Up to the end of the watch it does not matter when the chores are done.
    let whole = solve(&problem.with_held(watch.held(0)), order, watch.length_ms, None);
    let all_ms = whole.makespan_ms.max(watch.length_ms);
    if floor_ms >= all_ms {
        // The spark moves up to the sweep, and takes the watch and all chores along.
        return Answer {
            reserve_ms: floor_ms,
            spark_ms: Some(floor_ms),
            free_ms: Some(all_ms),
            gap_ms: whole.gap_ms(),
            bound: named(&whole, watch),
            bound_ms: whole.bound_ms.max(watch.length_ms),
            nodes: whole.nodes,
            free_starts: whole.starts.clone(),
            starts: whole.starts,
        };
    }
    let forward = problem.with_held(watch.held(0));
    let sweep = before_end(&forward, order, all_ms, floor_ms, Some(&whole.starts));
    let reserve_ms = sweep.makespan_ms.max(floor_ms);
    Answer {
        reserve_ms,
        spark_ms: Some(all_ms),
        free_ms: Some(all_ms),
        gap_ms: sweep.gap_ms().max(whole.gap_ms()),
        bound: sweep.bound,
        bound_ms: sweep.bound_ms,
        nodes: sweep.nodes + whole.nodes,
        starts: to_front(&forward, &sweep.starts, all_ms, reserve_ms),
        free_starts: whole.starts,
    }
}

/// The watch stands where the last spark was.
fn ended(request: &Request, gathered: &Gathered, floor_ms: i64, watch: Watch, at: Instant) -> Answer {
    let Gathered { problem, order, .. } = gathered;
    let before_out_ms = (request.out_by - at).ms();
    // A zero early enough for everything: the spark, or all chores one after the other and the watch between.
    let serial_ms: i64 = problem.tasks.iter().map(|task| task.length_ms).sum();
    let all_ms = before_out_ms.max(0) + serial_ms + watch.length_ms + floor_ms;
    let forward = problem.with_held(watch.held(all_ms - before_out_ms));
    let free = request.now.map(|now| {
        let since_ms = (at - now).ms();
        let least_ms = since_ms + watch.length_ms;
        (least_ms, solve(&problem.with_held(watch.held(since_ms)), order, least_ms, None))
    });
    let sweep = match &free {
        // The watch is over now, and long before the sweep: one answer serves both, the one way round and the other.
        Some((..=0, bare)) if before_out_ms - watch.length_ms >= bare.makespan_ms => {
            Solved { starts: problem.mirrored_starts(&bare.starts, bare.makespan_ms), nodes: 0, ..bare.clone() }
        }
        _ => before_end(&forward, order, all_ms, 0, None),
    };
    let reserve_ms = sweep.makespan_ms.max(floor_ms);
    // The floor alone is no reason to put a chore before the spark.
    let front_ms = reserve_ms.min(before_out_ms.max(sweep.makespan_ms));
    let front = to_front(&forward, &sweep.starts, all_ms, front_ms);
    let starts = front.into_iter().map(|start| start + reserve_ms - front_ms).collect();
    Answer {
        reserve_ms,
        spark_ms: None,
        free_ms: free.as_ref().map(|(least_ms, solved)| solved.makespan_ms.max(*least_ms)),
        gap_ms: sweep.gap_ms().max(free.as_ref().map_or(0, |(_, solved)| solved.gap_ms())),
        bound: sweep.bound,
        bound_ms: sweep.bound_ms,
        nodes: sweep.nodes + free.as_ref().map_or(0, |(_, solved)| solved.nodes),
        starts,
        free_starts: free.map_or_else(Vec::new, |(_, solved)| solved.starts),
    }
}

/// Solves for the shortest stretch before `end_ms` that all tasks lie in. The answer is in mirrored time.
fn before_end(forward: &Problem, order: &[usize], end_ms: i64, enough_ms: i64, known: Option<&[i64]>) -> Solved {
    let mirrored = forward.mirrored(end_ms);
    let reversed: Vec<usize> = order.iter().rev().copied().collect();
    let known = known.filter(|known| forward.makespan(known) <= end_ms);
    solve(&mirrored, &reversed, enough_ms, known.map(|known| forward.mirrored_starts(known, end_ms)))
}

/// Moves the tasks, found in mirrored time, to the front of the reserve; starts count from there.
fn to_front(forward: &Problem, mirrored: &[i64], end_ms: i64, reserve_ms: i64) -> Vec<i64> {
    let keys = forward.mirrored_starts(mirrored, end_ms);
    let from_ms = end_ms - reserve_ms;
    let held = forward.held.and_then(|held| Held::after_zero(held.from_ms - from_ms, held.to_ms - from_ms));
    heuristic::serial(&forward.with_held(held), &keys)
}

/// What holds back a plan in which the watch counts.
fn named(solved: &Solved, watch: Watch) -> Bound {
    if solved.low_ms <= watch.length_ms { Bound::Watch } else { solved.bound }
}

fn place(request: &Request, gathered: &Gathered, answer: &Answer, watch: Watch) -> Plan {
    let sweep_from = request.out_by - Span::from_ms(answer.reserve_ms);
    let last_spark = answer.spark_ms.map(|spark_ms| request.out_by - Span::from_ms(spark_ms));
    let watch_from = match request.hot_work {
        HotWork::Ended(at) => Some(at),
        HotWork::Coming | HotWork::None => last_spark,
    };
    let steps = |from: Instant, starts: &[i64]| placed(gathered, from, starts);
    Plan {
        out_by: request.out_by,
        sweep_from,
        first_bell: sweep_from - Span::from_minutes(i64::from(request.book.reserve.first_bell_minutes)),
        last_spark,
        free_at: request.now.and_then(|now| Some(now + Span::from_ms(answer.free_ms?))),
        reserve_minutes: Span::from_ms(answer.reserve_ms).minutes_up(),
        optimal: answer.gap_ms == 0,
        gap: Span::from_ms(answer.gap_ms),
        bound: answer.bound,
        bound_span: Span::from_ms(answer.bound_ms),
        nodes: answer.nodes,
        watch: watch_from.map(|from| (from, from + Span::from_ms(watch.length_ms))),
        steps: steps(sweep_from, &answer.starts),
        from_now: request.now.map_or_else(Vec::new, |now| steps(now, &answer.free_starts)),
    }
}

/// The chores at their starts after `from`, in the order of their starts.
fn placed(gathered: &Gathered, from: Instant, starts: &[i64]) -> Vec<Step> {
    let mut steps: Vec<Step> = gathered
        .due
        .iter()
        .zip(gathered.problem.tasks.iter().zip(starts))
        .map(|(due, (task, &start_ms))| Step {
            id: due.id.clone(),
            text: due.chore.text.clone(),
            start: from + Span::from_ms(start_ms),
            end: from + Span::from_ms(start_ms + task.length_ms),
            hands: due.chore.hands,
        })
        .collect();
    // Stable: of what starts at once, the order of the rulebook.
    steps.sort_by_key(|step| step.start);
    steps
}
