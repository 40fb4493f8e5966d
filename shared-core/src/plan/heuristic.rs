//! A good schedule quickly: serial schedule generation by several priorities, then forward-backward improvement.
//!
//! Every schedule it returns is feasible and at least as long as the optimum. Deterministic: no random numbers, ties
//! go to the task written first. Proves nothing; [`super::bound`] says how far off it can be.

use super::model::{Need, PEOPLE, Problem};

/// Something that holds pools for a while.
struct Busy<'a> {
    from_ms: i64,
    to_ms: i64,
    needs: &'a [Need],
}

/// What the watch holds.
const WATCH: &[Need] = &[Need { pool: PEOPLE, amount: 1 }];

/// Swaps are tried this often at most, so that a phone is never kept waiting.
const SWAPS_MAX: usize = 400;

/// Starts of all tasks; stops looking once a schedule is no longer than `enough_ms`.
pub(super) fn starts(problem: &Problem, order: &[usize], enough_ms: i64) -> Vec<i64> {
    let mut best: Option<(i64, Vec<i64>)> = None;
    for keys in priorities(problem, order) {
        let found = improved(problem, serial(problem, &keys));
        let makespan = problem.makespan(&found);
        if best.as_ref().is_none_or(|(shortest, _)| makespan < *shortest) {
            best = Some((makespan, found));
        }
        if best.as_ref().is_some_and(|(shortest, _)| *shortest <= enough_ms) {
            break;
        }
    }
    best.map(|(_, starts)| starts).unwrap_or_default()
}

/// Looks further around a schedule by swapping two tasks in its order; for problems too large to solve exactly.
pub(super) fn swapped(problem: &Problem, starts: &[i64], enough_ms: i64) -> Vec<i64> {
    let (mut best, mut shortest) = (starts.to_vec(), problem.makespan(starts));
    let mut tried = 0;
    for apart in 1..problem.tasks.len() {
        let mut ranked: Vec<usize> = (0..best.len()).collect();
        ranked.sort_by_key(|&index| (best[index], index));
        for place in 0..ranked.len() - apart {
            if shortest <= enough_ms || tried == SWAPS_MAX {
                return best;
            }
            tried += 1;
            let mut keys = vec![0; ranked.len()];
            for (rank, &index) in (0..).zip(&ranked) {
                keys[index] = rank;
            }
            keys.swap(ranked[place], ranked[place + apart]);
            let found = improved(problem, serial(problem, &keys));
            if problem.makespan(&found) < shortest {
                shortest = problem.makespan(&found);
                best = found;
            }
        }
    }
    best
}

/// Keys by which tasks go first, the lowest first.
fn priorities(problem: &Problem, order: &[usize]) -> Vec<Vec<i64>> {
    let tails = problem.tails_ms(order);
    let key = |rank: &dyn Fn(usize) -> i64| (0..problem.tasks.len()).map(rank).collect::<Vec<i64>>();
    let hands = |index: usize| i64::from(problem.tasks[index].amount(PEOPLE));
    let length = |index: usize| problem.tasks[index].length_ms;
    vec![
        key(&|index| -tails[index]),
        key(&|index| -hands(index) * length(index) - tails[index]),
        key(&|index| -length(index)),
        key(&|index| hands(index) * length(index)),
    ]
}

/// Pushes a schedule to the right and back to the left until it gets no shorter.
fn improved(problem: &Problem, starts: Vec<i64>) -> Vec<i64> {
    let mut best = starts;
    let mut shortest = problem.makespan(&best);
    loop {
        let backwards = problem.mirrored(shortest);
        let right = serial(&backwards, &problem.mirrored_starts(&best, shortest));
        let left = serial(problem, &backwards.mirrored_starts(&right, shortest));
        let makespan = problem.makespan(&left);
        if makespan >= shortest {
            return best;
        }
        (best, shortest) = (left, makespan);
    }
}

/// Places one task after the other, each as early as what is placed already allows; the lowest key goes first among
/// those whose predecessors are placed. Keyed by a feasible schedule's starts, no task starts later than in it.
pub(super) fn serial(problem: &Problem, keys: &[i64]) -> Vec<i64> {
    let mut starts: Vec<Option<i64>> = vec![None; problem.tasks.len()];
    let mut busy: Vec<Busy> = Vec::with_capacity(problem.tasks.len() + 1);
    busy.extend(problem.held.map(|held| Busy { from_ms: held.from_ms, to_ms: held.to_ms, needs: WATCH }));
    for _ in 0..problem.tasks.len() {
        let free = |&index: &usize| {
            starts[index].is_none() && problem.tasks[index].after.iter().all(|&first| starts[first].is_some())
        };
        let Some(next) = (0..problem.tasks.len()).filter(free).min_by_key(|&index| (keys[index], index)) else { break };
        let task = &problem.tasks[next];
        let ends = task.after.iter().filter_map(|&first| Some(starts[first]? + problem.tasks[first].length_ms));
        let from_ms = ends.max().unwrap_or(0);
        let start = earliest(&problem.pools, &busy, &task.needs, task.length_ms, from_ms);
        starts[next] = Some(start);
        busy.push(Busy { from_ms: start, to_ms: start + task.length_ms, needs: &task.needs });
    }
    starts.into_iter().map(Option::unwrap_or_default).collect()
}

/// The first moment at or after `from_ms` from which the needs are free for the whole length.
fn earliest(pools: &[u32], busy: &[Busy], needs: &[Need], length_ms: i64, from_ms: i64) -> i64 {
    if length_ms == 0 {
        return from_ms;
    }
    let mut start = from_ms;
    while let Some(at_ms) = conflict(pools, busy, needs, start, start + length_ms) {
        // Nothing is freed before the next end after the conflict, and no task is longer than for ever.
        let Some(next) = busy.iter().map(|busy| busy.to_ms).filter(|&to_ms| to_ms > at_ms).min() else { break };
        start = next;
    }
    start
}

/// A moment of [from, to) at which a need is not met.
fn conflict(pools: &[u32], busy: &[Busy], needs: &[Need], from_ms: i64, to_ms: i64) -> Option<i64> {
    let moments = busy.iter().map(|busy| busy.from_ms).filter(|&at_ms| at_ms > from_ms && at_ms < to_ms);
    std::iter::once(from_ms).chain(moments).find(|&at_ms| {
        let running = |busy: &&Busy| busy.from_ms <= at_ms && at_ms < busy.to_ms;
        needs.iter().any(|need| {
            let taken: u32 = busy
                .iter()
                .filter(running)
                .flat_map(|busy| busy.needs)
                .filter(|other| other.pool == need.pool)
                .map(|other| other.amount)
                .sum();
            taken + need.amount > pools[need.pool]
        })
    })
}
