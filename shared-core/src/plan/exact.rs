//! The shortest schedule, proven: branch and bound over tasks in the order of their starts.
//!
//! Three facts keep it small. An optimal schedule exists in which nothing can start earlier, so a task need not be
//! tried at a moment before which another could have come and gone. Two ways to have done the same tasks are compared,
//! and the one that is nowhere earlier is dropped. A way whose bound reaches the best schedule known is dropped.
//! (Demeulemeester and Herroelen 1992 use the second; here it also holds with the watch, which is the same in both.)
//!
//! Always ends: it goes at most as deep as there are tasks. Deterministic. Takes at most [`TASKS_MAX`] tasks.

use super::model::{PEOPLE, Problem};

/// More tasks than this are not solved exactly.
pub(super) const TASKS_MAX: usize = 12;

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
    now_ms: i64,
    ends: [i64; TASKS_MAX],
    next: u32,
}

/// A task that may come next.
#[derive(Clone, Copy)]
struct Choice {
    start_ms: i64,
    tail_ms: i64,
    task: usize,
}

struct Search<'a> {
    problem: &'a Problem,
    count: usize,
    after: [u16; TASKS_MAX],
    tails_ms: Vec<i64>,
    /// Of each pool, how many each task holds.
    amounts: Vec<[u32; TASKS_MAX]>,
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
            amounts,
            seen: vec![NONE; 1 << count],
            ways: Vec::new(),
            shortest_ms: problem.makespan(&known),
            best: known,
            enough_ms,
        }
    }

    fn visit(&mut self, node: Node) {
        if usize::from(node.done) + 1 == 1 << self.count {
            let end_ms = node.ends[..self.count].iter().copied().max().unwrap_or(0);
            if end_ms < self.shortest_ms {
                self.shortest_ms = end_ms;
                self.best = node.starts[..self.count].to_vec();
            }
            return;
        }
        if self.shared_bound(&node) >= self.shortest_ms || self.seen_no_later(&node) {
            return;
        }
        let (choices, count) = self.choices(&node);
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

    /// When the pools, never resting from now on, have done what is left; and the end of what is placed.
    fn shared_bound(&self, node: &Node) -> i64 {
        let mut bound = node.now_ms;
        let mut alone_ms = 0;
        for (pool, amounts) in self.amounts.iter().enumerate() {
            let count = i64::from(self.problem.pools[pool]);
            let mut work = 0;
            for (task, &amount) in amounts.iter().enumerate().take(self.count) {
                let left_ms = if node.done & 1 << task == 0 {
                    self.problem.tasks[task].length_ms
                } else {
                    (node.ends[task] - node.now_ms).max(0)
                };
                work += i64::from(amount) * left_ms;
                if pool == PEOPLE && amount > self.problem.pools[PEOPLE] / 2 {
                    alone_ms += left_ms;
                }
            }
            if work > 0 {
                bound = bound.max(node.now_ms + (work + count - 1) / count);
            }
        }
        bound.max(node.now_ms + alone_ms)
    }

    /// Whether the same tasks were done before in a way that is nowhere later; keeps this way if not.
    fn seen_no_later(&mut self, node: &Node) -> bool {
        let mut at = self.seen[usize::from(node.done)];
        let mut ends = node.ends;
        for end in &mut ends {
            *end = (*end).max(node.now_ms);
        }
        while let Some(way) = self.ways.get(at as usize) {
            if way.now_ms <= node.now_ms && way.ends[..self.count].iter().zip(&ends).all(|(way, end)| way <= end) {
                return true;
            }
            at = way.next;
        }
        let place = u32::try_from(self.ways.len()).unwrap_or(NONE);
        self.ways.push(Way { now_ms: node.now_ms, ends, next: self.seen[usize::from(node.done)] });
        self.seen[usize::from(node.done)] = place;
        false
    }
}

/// Earlier tasks that are the same in all respects: they go first, so that equal schedules are tried once.
fn twins_before(problem: &Problem, index: usize) -> u16 {
    let waited_for = |of: usize| problem.tasks.iter().map(move |task| task.after.contains(&of));
    let twin =
        |other: &usize| problem.tasks[*other] == problem.tasks[index] && waited_for(*other).eq(waited_for(index));
    (0..index).filter(twin).fold(0, |mask, other| mask | 1 << other)
}
