//! Ways to have done the same tasks, kept to drop those that are nowhere earlier.
//!
//! A way is told by all that what is left depends on, each no earlier than now: when each one of each pool is free
//! again, when what others wait for ends, the last end, and now itself. If another way to the same tasks has no time
//! later, whatever follows this one could follow that one. Always remembers; never judges ways of different tasks.

use super::{Node, TASKS_MAX, tasks_in};
use crate::plan::model::{PEOPLE, Problem};

/// Pools of more people than this are not counted one by one.
const UNITS_MAX: usize = 8;

/// People and gear one by one (of gear no more than there are tasks), the ends of tasks, and two more.
const WIDTH_MAX: usize = UNITS_MAX + TASKS_MAX + TASKS_MAX + 2;

pub(super) struct Ways {
    /// The pools that can run out: their size, and how many each task holds.
    counted: Vec<(usize, [u32; TASKS_MAX])>,
    /// The tasks whose end is of account by itself, and the tasks whose placing ends that; a bit that no task has if
    /// nothing does.
    waited_for: Vec<(usize, u16)>,
    /// How many times tell a way.
    width: usize,
    /// Of each set of tasks done, the times of its ways, one after the other.
    seen: Vec<Vec<i64>>,
}

impl Ways {
    pub(super) fn of(problem: &Problem) -> Self {
        let mut waited_for = [0; TASKS_MAX];
        for (later, task) in problem.tasks.iter().enumerate() {
            for &first in &task.after {
                waited_for[first] |= 1 << later;
            }
        }
        let mut counted: Vec<(usize, [u32; TASKS_MAX])> = Vec::new();
        for (pool, &count) in problem.pools.iter().enumerate() {
            let mut amounts = [0; TASKS_MAX];
            for (amount, task) in amounts.iter_mut().zip(&problem.tasks) {
                *amount = task.amount(pool);
            }
            let wanted: u64 = amounts.iter().copied().map(u64::from).sum();
            // One more for the watch.
            if wanted + u64::from(pool == PEOPLE) <= u64::from(count) {
                continue;
            }
            let units = count as usize;
            let room = counted.iter().map(|(units, _)| units).sum::<usize>() + units <= UNITS_MAX + TASKS_MAX;
            if units <= UNITS_MAX.max(TASKS_MAX * usize::from(pool != PEOPLE)) && room {
                counted.push((units, amounts));
                continue;
            }
            for (waited_for, _) in waited_for.iter_mut().zip(amounts).filter(|(_, amount)| *amount > 0) {
                *waited_for |= 1 << TASKS_MAX;
            }
        }
        let waited_for: Vec<(usize, u16)> =
            waited_for.into_iter().enumerate().filter(|(_, later)| *later != 0).collect();
        let width = counted.iter().map(|(units, _)| units).sum::<usize>() + waited_for.len() + 2;
        Self { counted, waited_for, width, seen: vec![Vec::new(); 1 << problem.tasks.len()] }
    }

    /// Whether the same tasks were done before in a way that is nowhere later; keeps this way if not.
    pub(super) fn seen_no_later(&mut self, node: &Node) -> bool {
        let way = self.way(node);
        let way = &way[..self.width];
        let known = &mut self.seen[usize::from(node.done)];
        // Latest first: there they differ soonest.
        let no_later = |other: &[i64]| other.iter().zip(way).rev().all(|(other, time)| other <= time);
        if known.rchunks_exact(self.width).any(no_later) {
            return true;
        }
        known.extend_from_slice(way);
        false
    }

    fn way(&self, node: &Node) -> [i64; WIDTH_MAX] {
        let mut way = [node.now_ms; WIDTH_MAX];
        let mut width = 0;
        for (count, amounts) in &self.counted {
            let units = &mut way[width..width + count];
            let mut taken = units.len();
            for &task in node.running() {
                for _ in 0..amounts[usize::from(task)] {
                    taken -= 1;
                    units[taken] = node.ends[usize::from(task)];
                }
            }
            width += count;
        }
        for &(task, later) in &self.waited_for {
            if node.done & 1 << task != 0 && later & !node.done != 0 {
                way[width] = node.ends[task].max(node.now_ms);
            }
            width += 1;
        }
        way[width] = tasks_in(node.done).map(|task| node.ends[task]).fold(node.now_ms, i64::max);
        way
    }
}
