//! Work that must be shared, and whether what is left of it fits before a goal.
//!
//! A load weighs each task; no more than its count goes on at once. The tasks after which so much must still be waited
//! for have to be done so much before the goal, so the work is counted from the longest wait down. Never says that
//! something does not fit when it does.

use std::collections::BTreeSet;

use super::{Node, TASKS_MAX, tasks_in};
use crate::plan::bound::{PARTS_MAX, shares};
use crate::plan::model::{PEOPLE, Problem};

pub(super) struct Loads {
    all: Vec<Load>,
    /// The longest way from each task's end to the end of all that waits for it.
    rests_ms: [i64; TASKS_MAX],
    /// The tasks, longest rest first.
    by_rest: Vec<usize>,
}

/// Work to be shared: how much of it a task is at any moment, and how much goes on at once at most.
struct Load {
    weights: [i64; TASKS_MAX],
    count: i64,
    /// Whether the watch takes one away.
    watched: bool,
}

impl Loads {
    /// The pools as they are, and the people as they can really be put together: beside a task of so many hands that
    /// fewer than `least` people are left, the tasks of `least` hands or more cannot go on, so it counts as taking all,
    /// and tasks of fewer hands count as none. (Dual feasible functions: Fekete and Schepers 2001.)
    pub(super) fn of(problem: &Problem, tails_ms: &[i64]) -> Self {
        let load = |pool: usize, count: i64, watched: bool, weight: &dyn Fn(i64) -> i64| {
            let mut weights = [0; TASKS_MAX];
            for (place, task) in weights.iter_mut().zip(&problem.tasks) {
                *place = weight(i64::from(task.amount(pool)));
            }
            Load { weights, count, watched }
        };
        let count = |pool: usize| i64::from(problem.pools[pool]);
        let crew = count(PEOPLE);
        let mut loads: Vec<Load> =
            (0..problem.pools.len()).map(|pool| load(pool, count(pool), pool == PEOPLE, &|amount| amount)).collect();
        // More than half of the people: one at a time. Just half: two.
        let halves = |hands: i64| i64::from(2 * hands > crew) + i64::from(2 * hands >= crew && hands > 0);
        loads.push(load(PEOPLE, 2, false, &halves));
        for parts in 2..=PARTS_MAX {
            let taken = |hands: i64| i64::from(shares(parts, problem.pools[PEOPLE], u32::try_from(hands).unwrap_or(0)));
            loads.push(load(PEOPLE, i64::from(parts), false, &taken));
        }
        let wanted: BTreeSet<i64> = problem.tasks.iter().map(|task| i64::from(task.amount(PEOPLE))).collect();
        for &least in wanted.iter().filter(|&&least| 2 <= least && 2 * least <= crew) {
            let weight = |hands: i64| match hands {
                _ if hands > crew - least => crew,
                _ if hands < least => 0,
                _ => hands,
            };
            loads.push(load(PEOPLE, crew, false, &weight));
        }
        let mut rests_ms = [0; TASKS_MAX];
        for (rest_ms, (tail_ms, task)) in rests_ms.iter_mut().zip(tails_ms.iter().zip(&problem.tasks)) {
            *rest_ms = tail_ms - task.length_ms;
        }
        let mut by_rest: Vec<usize> = (0..problem.tasks.len()).collect();
        by_rest.sort_by_key(|&task| -rests_ms[task]);
        Self { all: loads, rests_ms, by_rest }
    }

    /// Whether what is left of some load cannot be done by the goal, even if nothing rests from now on.
    pub(super) fn too_much(&self, problem: &Problem, node: &Node, goal_ms: i64) -> bool {
        let mut left_ms = [0; TASKS_MAX];
        for (left_ms, task) in left_ms.iter_mut().zip(&problem.tasks) {
            *left_ms = task.length_ms;
        }
        for task in tasks_in(node.done) {
            left_ms[task] = (node.ends[task] - node.now_ms).max(0);
        }
        let room = |load: &Load, until_ms: i64| {
            let held = problem.held.filter(|_| load.watched);
            let away_ms = held.map_or(0, |held| (held.to_ms.min(until_ms) - held.from_ms.max(node.now_ms)).max(0));
            load.count * (until_ms - node.now_ms) - away_ms
        };
        self.all.iter().any(|load| {
            let mut work = 0;
            self.by_rest.iter().any(|&task| {
                let more = load.weights[task] * left_ms[task];
                work += more;
                more > 0 && work > room(load, goal_ms - self.rests_ms[task])
            })
        })
    }
}
