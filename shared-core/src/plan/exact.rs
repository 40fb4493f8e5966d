//! The shortest schedule, proven: branch and bound over tasks in the order of their starts.
//!
//! Three facts keep it small. An optimal schedule exists in which nothing can start earlier, so a task need not be
//! tried at a moment before which another could have come and gone. Two ways to have done the same tasks are compared,
//! and the one that is nowhere earlier is dropped. A way whose bound reaches the best schedule known is dropped.
//! (Demeulemeester and Herroelen 1992 use the second; here it also holds with the watch, which is the same in both.)
//!
//! Always ends: it goes at most as deep as there are tasks. Deterministic. Takes at most [`TASKS_MAX`] tasks.

use std::collections::BTreeSet;

use super::bound::worked_off;
use super::model::{Held, PEOPLE, Problem};

/// More tasks than this are not solved exactly.
pub(super) const TASKS_MAX: usize = 12;

/// Pools of more than this many are not counted one by one in a [`Way`].
const UNITS_MAX: usize = 8;

/// People and gear of a [`Way`] one by one (of gear no more than there are tasks), the ends of its tasks, and two more.
const WIDTH_MAX: usize = UNITS_MAX + TASKS_MAX + TASKS_MAX + 2;

/// No further way in a list of [`Search::ways`].
const NONE: u32 = u32::MAX;

/// The shortest starts, or `known` if nothing is shorter; stops early at a makespan of at most `enough_ms`.
pub(super) fn starts(problem: &Problem, order: &[usize], known: Vec<i64>, enough_ms: i64) -> Vec<i64> {
    debug_assert!(problem.tasks.len() <= TASKS_MAX, "the caller counts");
    let mut search = Search::new(problem, order, known, enough_ms);
    search.visit(Node { done: 0, now_ms: 0, ends: [0; TASKS_MAX], starts: [0; TASKS_MAX] });
    search.best
}

/// Some tasks placed, in the order of their starts.
#[derive(Clone, Copy)]
struct Node {
    /// The tasks placed, a bit each.
    done: u16,
    /// The start of the latest: no further task starts before it.
    now_ms: i64,
    /// The ends of the tasks placed.
    ends: [i64; TASKS_MAX],
    /// The starts of the tasks placed.
    starts: [i64; TASKS_MAX],
}

/// A way to have done some tasks, kept to drop those that are nowhere earlier.
struct Way {
    /// The sum of its times: a way that is nowhere later has no greater one. Lists are in ascending order of it.
    sum_ms: i64,
    next: u32,
    times_ms: [i64; WIDTH_MAX],
}

/// A task that may come next.
#[derive(Clone, Copy)]
struct Choice {
    start_ms: i64,
    tail_ms: i64,
    task: usize,
}

/// Work to be shared: how much of it a task is at any moment, and how much goes on at once at most.
struct Load {
    weights: [i64; TASKS_MAX],
    count: i64,
    /// Whether the watch takes one away.
    watched: bool,
}

struct Search<'a> {
    problem: &'a Problem,
    count: usize,
    after: [u16; TASKS_MAX],
    tails_ms: Vec<i64>,
    /// Of each pool, how many each task holds.
    amounts: Vec<[u32; TASKS_MAX]>,
    loads: Vec<Load>,
    /// The pools that can run out, with their counts: in a [`Way`] they stand one by one.
    counted: Vec<(usize, usize)>,
    /// The tasks whose placing makes a task's end of no more account: those that wait for it; or more than there are,
    /// if its pool is not counted.
    waited_for: [u16; TASKS_MAX],
    /// How much of a [`Way`] is in use.
    width: usize,
    grain_ms: i64,
    /// Of each set of tasks done, the first of its ways.
    seen: Vec<u32>,
    ways: Vec<Way>,
    best: Vec<i64>,
    shortest_ms: i64,
    enough_ms: i64,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, order: &[usize], known: Vec<i64>, enough_ms: i64) -> Self {
        let count = problem.tasks.len();
        let mut after = [0; TASKS_MAX];
        for (index, task) in problem.tasks.iter().enumerate() {
            after[index] = task.after.iter().fold(twins_before(problem, index), |mask, &first| mask | 1 << first);
        }
        let (counted, waited_for) = counted(problem);
        let mut amounts = vec![[0; TASKS_MAX]; problem.pools.len()];
        for (index, task) in problem.tasks.iter().enumerate() {
            for need in &task.needs {
                amounts[need.pool][index] = need.amount;
            }
        }
        Self {
            problem,
            count,
            after,
            tails_ms: problem.tails_ms(order),
            loads: loads(problem),
            width: counted.iter().map(|(_, count)| count).sum::<usize>() + count + 2,
            counted,
            waited_for,
            grain_ms: problem.grain_ms(),
            amounts,
            seen: vec![NONE; 1 << count],
            ways: Vec::new(),
            shortest_ms: problem.makespan(&known),
            best: known,
            enough_ms,
        }
    }

    fn visit(&mut self, mut node: Node) {
        if usize::from(node.done) + 1 == 1 << self.count {
            let end_ms = node.ends[..self.count].iter().copied().max().unwrap_or(0);
            if end_ms < self.shortest_ms {
                self.shortest_ms = end_ms;
                self.best = node.starts[..self.count].to_vec();
            }
            return;
        }
        let (choices, count) = self.choices(&node);
        // Nothing more starts before the first that can: until then it is as if that were now.
        node.now_ms = node.now_ms.max(choices[0].start_ms);
        if self.shared_bound(&node) >= self.shortest_ms || self.seen_no_later(&node) {
            return;
        }
        for &Choice { start_ms, task, .. } in &choices[..count] {
            // What else is waiting starts no earlier than this one: its tail then counts from here.
            let bound = choices[..count].iter().map(|other| other.start_ms.max(start_ms) + other.tail_ms).max();
            if self.shortest_ms <= self.enough_ms || bound.is_some_and(|bound| bound >= self.shortest_ms) {
                continue;
            }
            let mut next = Node { done: node.done | 1 << task, now_ms: start_ms, ..node };
            next.starts[task] = start_ms;
            next.ends[task] = start_ms + self.problem.tasks[task].length_ms;
            self.visit(next);
        }
    }

    /// The tasks whose predecessors are placed, earliest first; among equals the one with the longest tail. Those
    /// before whose start another could have come and gone are left out.
    fn choices(&self, node: &Node) -> ([Choice; TASKS_MAX], usize) {
        let mut choices = [Choice { start_ms: 0, tail_ms: 0, task: 0 }; TASKS_MAX];
        let mut count = 0;
        let mut gone_ms = i64::MAX;
        for task in 0..self.count {
            let waits = self.after[task] & !node.done != 0;
            if node.done & 1 << task != 0 || waits {
                continue;
            }
            let start_ms = self.earliest(node, task);
            choices[count] = Choice { start_ms, tail_ms: self.tails_ms[task], task };
            count += 1;
            // A task of no length has not gone before the next moment.
            gone_ms = gone_ms.min(start_ms + self.problem.tasks[task].length_ms.max(1));
        }
        let kept = {
            choices[..count].sort_unstable_by_key(|choice| (choice.start_ms, -choice.tail_ms, choice.task));
            choices[..count].partition_point(|choice| choice.start_ms < gone_ms)
        };
        (choices, kept)
    }

    /// The first moment at which a task can start, no other starting before it.
    fn earliest(&self, node: &Node, task: usize) -> i64 {
        let firsts = self.problem.tasks[task].after.iter().map(|&first| node.ends[first]);
        let mut start_ms = firsts.fold(node.now_ms, i64::max);
        if self.problem.tasks[task].length_ms > 0 {
            while let Some(later_ms) = self.blocked_until(node, task, start_ms) {
                start_ms = later_ms;
            }
        }
        start_ms
    }

    /// If a task cannot start at a moment, the next at which it might. All that is placed has started by then, so
    /// pools only get freer with time, but for the watch.
    fn blocked_until(&self, node: &Node, task: usize, start_ms: i64) -> Option<i64> {
        for need in &self.problem.tasks[task].needs {
            let (taken, freed_ms) = self.taken(node, need.pool, start_ms);
            if taken + need.amount > self.problem.pools[need.pool] {
                return freed_ms;
            }
            let Some(held) = self.problem.held.filter(|_| need.pool == PEOPLE) else { continue };
            let meets = start_ms < held.to_ms && start_ms + self.problem.tasks[task].length_ms > held.from_ms;
            if !meets {
                continue;
            }
            let (taken, freed_ms) = self.taken(node, PEOPLE, start_ms.max(held.from_ms));
            if taken + need.amount + 1 > self.problem.pools[PEOPLE] {
                return Some(freed_ms.map_or(held.to_ms, |freed_ms| freed_ms.min(held.to_ms)));
            }
        }
        None
    }

    /// How many of a pool are taken at a moment, and when some are next given back.
    fn taken(&self, node: &Node, pool: usize, at_ms: i64) -> (u32, Option<i64>) {
        let (mut taken, mut freed_ms) = (0, None);
        for task in 0..self.count {
            let amount = self.amounts[pool][task];
            if amount > 0 && node.done & 1 << task != 0 && node.ends[task] > at_ms {
                taken += amount;
                freed_ms = Some(freed_ms.map_or(node.ends[task], |freed_ms: i64| freed_ms.min(node.ends[task])));
            }
        }
        (taken, freed_ms)
    }

    /// When everything that is shared, never resting from now on, has done what is left.
    fn shared_bound(&self, node: &Node) -> i64 {
        let mut left_ms = [0; TASKS_MAX];
        for (task, left_ms) in left_ms.iter_mut().enumerate().take(self.count) {
            *left_ms = if node.done & 1 << task == 0 {
                self.problem.tasks[task].length_ms
            } else {
                (node.ends[task] - node.now_ms).max(0)
            };
        }
        let away =
            self.problem.held.and_then(|held| Held::after_zero(held.from_ms - node.now_ms, held.to_ms - node.now_ms));
        let after_now = self.loads.iter().map(|load| {
            let work = load.weights.iter().zip(&left_ms).map(|(weight, left_ms)| weight * left_ms).sum();
            worked_off(work, load.count, away.filter(|_| load.watched))
        });
        self.problem.next_end(self.grain_ms, node.now_ms + after_now.max().unwrap_or(0))
    }

    /// Whether the same tasks were done before in a way that is nowhere later; keeps this way if not.
    fn seen_no_later(&mut self, node: &Node) -> bool {
        let times_ms = self.way(node);
        let sum_ms = times_ms[..self.width].iter().sum();
        let (mut before, mut at) = (NONE, self.seen[usize::from(node.done)]);
        while let Some(other) = self.ways.get(at as usize).filter(|other| other.sum_ms <= sum_ms) {
            // Latest first: there they differ soonest.
            if other.times_ms[..self.width].iter().zip(&times_ms).rev().all(|(other, time)| other <= time) {
                return true;
            }
            (before, at) = (at, other.next);
        }
        let place = u32::try_from(self.ways.len()).unwrap_or(NONE);
        self.ways.push(Way { sum_ms, next: at, times_ms });
        match self.ways.get_mut(before as usize) {
            Some(way) => way.next = place,
            None => self.seen[usize::from(node.done)] = place,
        }
        false
    }

    /// All that what is left depends on, each from now on: when each one of each pool is free again, when what others
    /// wait for ends, and the last end.
    fn way(&self, node: &Node) -> [i64; WIDTH_MAX] {
        let mut way = [node.now_ms; WIDTH_MAX];
        let mut width = 0;
        for &(pool, count) in &self.counted {
            let units = &mut way[width..width + count];
            let mut freed = 0;
            for task in 0..self.count {
                if node.done & 1 << task != 0 && node.ends[task] > node.now_ms {
                    for _ in 0..self.amounts[pool][task] {
                        units[freed] = node.ends[task];
                        freed += 1;
                    }
                }
            }
            units.sort_unstable();
            width += count;
        }
        let waited = self.waited_for.iter().enumerate().take(self.count);
        for (task, _) in waited.filter(|(task, later)| node.done & 1 << task != 0 && **later & !node.done != 0) {
            way[width + task] = way[width + task].max(node.ends[task]);
        }
        let last = node.ends[..self.count].iter().copied().fold(node.now_ms, i64::max);
        way[width + self.count] = last;
        way[width + self.count + 1] = node.now_ms;
        way
    }
}

/// The pools that can run out and are small, and for each task the tasks that keep its end of account.
fn counted(problem: &Problem) -> (Vec<(usize, usize)>, [u16; TASKS_MAX]) {
    let mut waited_for = [0; TASKS_MAX];
    for (later, task) in problem.tasks.iter().enumerate() {
        for &first in &task.after {
            waited_for[first] |= 1 << later;
        }
    }
    let mut counted = Vec::new();
    for (pool, &count) in problem.pools.iter().enumerate() {
        let wanted: u64 = problem.tasks.iter().map(|task| u64::from(task.amount(pool))).sum();
        // One more for the watch.
        if wanted + u64::from(pool == PEOPLE) <= u64::from(count) {
            continue;
        }
        let units = count as usize;
        let room = counted.iter().map(|(_, units)| units).sum::<usize>() + units <= UNITS_MAX + TASKS_MAX;
        if units <= UNITS_MAX.max(TASKS_MAX * usize::from(pool != PEOPLE)) && room {
            counted.push((pool, units));
            continue;
        }
        for (task, waited_for) in problem.tasks.iter().zip(&mut waited_for) {
            if task.amount(pool) > 0 {
                // A bit that no task has is never done.
                *waited_for |= 1 << TASKS_MAX;
            }
        }
    }
    (counted, waited_for)
}

/// The pools as they are, and the people as they can really be put together: beside a task of so many hands that
/// fewer than `least` people are left, the tasks of `least` hands or more cannot go on, so it counts as taking all, and
/// tasks of fewer hands count as none. (Dual feasible functions: Fekete and Schepers 2001.)
fn loads(problem: &Problem) -> Vec<Load> {
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
    loads
        .push(load(PEOPLE, 2, false, &|hands| i64::from(2 * hands > crew) + i64::from(2 * hands >= crew && hands > 0)));
    let wanted: BTreeSet<i64> = problem.tasks.iter().map(|task| i64::from(task.amount(PEOPLE))).collect();
    for &least in wanted.iter().filter(|&&least| 2 <= least && 2 * least <= crew) {
        let weight = |hands: i64| match hands {
            _ if hands > crew - least => crew,
            _ if hands < least => 0,
            _ => hands,
        };
        loads.push(load(PEOPLE, crew, false, &weight));
    }
    loads
}

/// Earlier tasks that are the same in all respects: they go first, so that equal schedules are tried once.
fn twins_before(problem: &Problem, index: usize) -> u16 {
    let waited_for = |of: usize| problem.tasks.iter().map(move |task| task.after.contains(&of));
    let twin =
        |other: &usize| problem.tasks[*other] == problem.tasks[index] && waited_for(*other).eq(waited_for(index));
    (0..index).filter(twin).fold(0, |mask, other| mask | 1 << other)
}
