//! Work that must be shared, and whether what is left of it fits before a goal.
//!
//! A load weighs each task; no more than its count goes on at once. The tasks after which so much must still be waited
//! for have to be done so much before the goal, so the work is counted from the longest wait down. Never says that
//! something does not fit when it does.

use super::{Node, TASKS_MAX};
use crate::ordered::Set;
use crate::plan::bound::{PARTS_MAX, shares};
use crate::plan::model::{PEOPLE, Problem};

pub(super) struct Loads {
    all: Vec<Load>,
    lengths_ms: [i64; TASKS_MAX],
    /// The longest way from each task's end to the end of all that waits for it.
    rests_ms: [i64; TASKS_MAX],
    /// The tasks, longest rest first.
    by_rest: Vec<usize>,
}

/// Work to be shared: how much of it a task is at any moment, and how much goes on at once at most.
#[derive(PartialEq)]
struct Load {
    /// Of each task, longest rest first.
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
        let (mut lengths_ms, mut rests_ms) = ([0; TASKS_MAX], [0; TASKS_MAX]);
        for (index, (tail_ms, task)) in tails_ms.iter().zip(&problem.tasks).enumerate() {
            (lengths_ms[index], rests_ms[index]) = (task.length_ms, tail_ms - task.length_ms);
        }
        let mut by_rest: Vec<usize> = (0..problem.tasks.len()).collect();
        by_rest.sort_by_key(|&task| -rests_ms[task]);
        let load = |pool: usize, count: i64, watched: bool, weight: &dyn Fn(i64) -> i64| {
            let mut weights = [0; TASKS_MAX];
            for (place, &task) in weights.iter_mut().zip(&by_rest) {
                *place = weight(i64::from(problem.tasks[task].amount(pool)));
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
        let wanted: Set<i64> = problem.tasks.iter().map(|task| i64::from(task.amount(PEOPLE))).collect();
        for &least in wanted.iter().filter(|&&least| 2 <= least && 2 * least <= crew) {
            let weight = |hands: i64| match hands {
                _ if hands > crew - least => crew,
                _ if hands < least => 0,
                _ => hands,
            };
            loads.push(load(PEOPLE, crew, false, &weight));
        }
        // Told twice or never too much: not asked.
        let mut all: Vec<Load> = Vec::with_capacity(loads.len());
        for load in loads {
            let most: i64 = load.weights.iter().sum();
            if most + i64::from(load.watched) > load.count && !all.contains(&load) {
                all.push(load);
            }
        }
        Self { all, lengths_ms, rests_ms, by_rest }
    }

    /// Whether what is left of some load cannot be done by the goal, even if nothing rests from now on.
    pub(super) fn too_much(&mut self, problem: &Problem, node: &Node, goal_ms: i64) -> bool {
        // In the order of the weights: what is left of each task, and until when it must be done.
        let mut left_ms = [(0, 0); TASKS_MAX];
        for (place, &task) in left_ms.iter_mut().zip(&self.by_rest) {
            let placed = node.done & 1 << task != 0;
            let left = if placed { (node.ends[task] - node.now_ms).max(0) } else { self.lengths_ms[task] };
            *place = (left, goal_ms - self.rests_ms[task] - node.now_ms);
        }
        let held = problem.held.map(|held| (held.from_ms.max(node.now_ms), held.to_ms));
        let found = self.all.iter().position(|load| {
            let held = held.filter(|_| load.watched);
            let mut work = 0;
            load.weights.iter().zip(&left_ms).any(|(weight, &(left_ms, within_ms))| {
                let more = weight * left_ms;
                work += more;
                let away_ms = held.map_or(0, |(from_ms, to_ms)| (to_ms.min(node.now_ms + within_ms) - from_ms).max(0));
                more > 0 && work > load.count * within_ms - away_ms
            })
        });
        // What was too much here is likely to be next time: asked first.
        found.inspect(|&place| self.all.swap(0, place)).is_some()
    }
}
