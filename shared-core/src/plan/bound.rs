//! Why it cannot be shorter: lower bounds on the finish of all tasks, each with a name for people.
//!
//! A bound never exceeds the optimum; the highest one is what a heuristic's answer is compared with. Solves nothing.

use serde::Serialize;

use super::model::{Held, PEOPLE, Problem, Task};

/// What holds the finish back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bound {
    /// Chores that wait for each other, one after the other.
    CriticalPath,
    /// All the work, shared among all the people.
    Work,
    /// Gear that too many chores want.
    Gear,
    /// Chores that need so many hands that few of them go together.
    Hands,
    /// The fire watch itself.
    Watch,
}

/// The highest of all bounds, in milliseconds from the problem's zero; of equals the first named.
pub(super) fn best(problem: &Problem, order: &[usize]) -> (Bound, i64) {
    let gear = (PEOPLE + 1..problem.pools.len()).map(|pool| shared(problem, pool)).max().unwrap_or(0);
    let mut highest = (Bound::CriticalPath, critical_path(problem, order));
    for (bound, at_ms) in
        [(Bound::Work, shared(problem, PEOPLE)), (Bound::Gear, gear), (Bound::Hands, hands(problem, order))]
    {
        if at_ms > highest.1 {
            highest = (bound, at_ms);
        }
    }
    (highest.0, problem.next_end(problem.grain_ms(), highest.1))
}

/// The longest chain, each task no earlier than the watch lets it start were it alone.
fn critical_path(problem: &Problem, order: &[usize]) -> i64 {
    let ends = heads_ms(problem, order).into_iter().zip(&problem.tasks).map(|(head, task)| head + task.length_ms);
    ends.max().unwrap_or(0)
}

/// The earliest start of each task if nothing but precedence and the watch held it back.
fn heads_ms(problem: &Problem, order: &[usize]) -> Vec<i64> {
    let mut heads = vec![0; problem.tasks.len()];
    for &index in order {
        let task = &problem.tasks[index];
        let free = task.after.iter().map(|&first| heads[first] + problem.tasks[first].length_ms).max().unwrap_or(0);
        heads[index] = past_watch(problem, task, free);
    }
    heads
}

/// `from_ms`, or the end of the watch for a task that needs everybody and would meet it.
fn past_watch(problem: &Problem, task: &Task, from_ms: i64) -> i64 {
    match problem.held {
        Some(held)
            if task.amount(PEOPLE) == problem.pools[PEOPLE]
                && task.length_ms > 0
                && from_ms < held.to_ms
                && from_ms + task.length_ms > held.from_ms =>
        {
            held.to_ms
        }
        _ => from_ms,
    }
}

/// When a pool that never rests has done all that is asked of it.
fn shared(problem: &Problem, pool: usize) -> i64 {
    let work = problem.tasks.iter().map(|task| i64::from(task.amount(pool)) * task.length_ms).sum();
    worked_off(work, i64::from(problem.pools[pool]), problem.held.filter(|_| pool == PEOPLE))
}

/// When `count` that never rest, one of them away for a while, have done so much work.
pub(super) fn worked_off(work: i64, count: i64, held: Option<Held>) -> i64 {
    if work == 0 {
        return 0;
    }
    let Some(held) = held else { return up(work, count) };
    let before = count * held.from_ms;
    if work <= before {
        return up(work, count);
    }
    let during = (count - 1) * (held.to_ms - held.from_ms);
    if work <= before + during {
        return held.from_ms + up(work - before, count - 1);
    }
    held.to_ms + up(work - before - during, count)
}

/// The tasks of many hands, as they can really be put together (see [`shares`]), after the shortest wait for the first
/// of them and before the shortest that waits for the last.
fn hands(problem: &Problem, order: &[usize]) -> i64 {
    let (heads, tails) = (heads_ms(problem, order), problem.tails_ms(order));
    let after = |parts: u32| {
        let taken = |task: &Task| i64::from(shares(parts, problem.pools[PEOPLE], task.amount(PEOPLE)));
        let picked = || problem.tasks.iter().enumerate().filter(|(_, task)| taken(task) > 0);
        let work: i64 = picked().map(|(_, task)| taken(task) * task.length_ms).sum();
        let head = picked().map(|(index, _)| heads[index]).min().unwrap_or(0);
        let tail = picked().map(|(index, task)| tails[index] - task.length_ms).min().unwrap_or(0);
        head + up(work, i64::from(parts)) + tail
    };
    (1..=PARTS_MAX).map(after).max().unwrap_or(0)
}

/// The people cut into so many parts at most, for [`shares`].
pub(super) const PARTS_MAX: u32 = 6;

/// How many of `parts` parts of a crew a task of so many hands takes at least: tasks that go on at once never take more
/// than all parts together. One part: those of more than half of the crew, which go one at a time. (A dual feasible
/// function: Fekete and Schepers 2001.)
pub(super) fn shares(parts: u32, crew: u32, hands: u32) -> u32 {
    // As many as it takes strictly more than, were there one part more: those add up to less than one more than there are.
    ((parts + 1) * hands).saturating_sub(1) / crew
}

/// Division of what is not negative, rounded up.
fn up(work: i64, count: i64) -> i64 {
    work / count + i64::from(work % count != 0)
}
