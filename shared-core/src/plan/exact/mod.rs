//! The shortest schedule, proven: branch and bound over tasks in the order of their starts.
//!
//! What keeps it small is never more than a comparison with another choice at the same node, with a choice that was
//! searched to its end before, or with a way to have done the same tasks that was; so no two can each rely on the other:
//! - A task is not tried at a moment before which another could have come and gone.
//! - A task that was tried earlier, and could still start when it was to, does not start later.
//! - A task that nothing left can get in the way of is started as soon as it can be.
//! - When nothing runs, a task that can go with nothing that is left may as well be next.
//! - Of two ways to have done the same tasks, the one that is nowhere earlier is dropped (see [`ways`]).
//! - What is left must fit before the best end known (see [`loads`]).
//!
//! (Demeulemeester and Herroelen 1992 use most of them; here they also hold with the watch.)
//!
//! Always ends: it goes at most as deep as there are tasks. Deterministic. Takes at most [`TASKS_MAX`] tasks.

mod loads;
mod ways;

use self::loads::Loads;
use self::ways::Ways;
use super::model::{Need, PEOPLE, Problem, Task};

/// More tasks than this are not solved exactly.
pub(super) const TASKS_MAX: usize = 12;

/// A schedule that nothing is shorter than, and what it took to know.
pub(super) struct Proof {
    /// The starts.
    pub(super) starts: Vec<i64>,
    /// How many nodes were looked at: the same on every machine.
    pub(super) nodes: u64,
}

/// The shortest starts, or `known` if nothing is shorter; stops early at a makespan of at most `enough_ms`.
pub(super) fn prove(problem: &Problem, order: &[usize], known: Vec<i64>, enough_ms: i64) -> Proof {
    debug_assert!(problem.tasks.len() <= TASKS_MAX, "the caller counts");
    let mut search = Search::new(problem, order, known, enough_ms);
    search.visit(Node::default());
    Proof { starts: search.best, nodes: search.nodes }
}

/// Some tasks placed, in the order of their starts.
#[derive(Clone, Copy, Default)]
struct Node {
    /// The tasks placed, a bit each.
    done: u16,
    /// Those of them that have not ended yet, the last to end first.
    running: [u8; TASKS_MAX],
    running_count: u8,
    /// The task placed last.
    latest: usize,
    /// Tasks that were tried before at an earlier choice, to start at the moment in `tried_ms`, and still could.
    tried: u16,
    tried_ms: [i64; TASKS_MAX],
    /// The start of the latest: no further task starts before it.
    now_ms: i64,
    /// The ends of the tasks placed.
    ends: [i64; TASKS_MAX],
    /// The starts of the tasks placed.
    starts: [i64; TASKS_MAX],
}

impl Node {
    fn running(&self) -> &[u8] {
        &self.running[..usize::from(self.running_count)]
    }

    /// A task is placed whose end is known.
    fn runs(&mut self, task: usize) {
        let mut place = usize::from(self.running_count);
        while place > 0 && self.ends[usize::from(self.running[place - 1])] < self.ends[task] {
            self.running[place] = self.running[place - 1];
            place -= 1;
        }
        self.running[place] = u8::try_from(task).unwrap_or_default();
        self.running_count += 1;
    }

    /// Forgets what has ended by now.
    fn drop_ended(&mut self) {
        while self.running().last().is_some_and(|&task| self.ends[usize::from(task)] <= self.now_ms) {
            self.running_count -= 1;
        }
    }
}

/// A task that may come next.
#[derive(Clone, Copy, Default)]
struct Choice {
    start_ms: i64,
    tail_ms: i64,
    task: usize,
}

struct Search<'a> {
    problem: &'a Problem,
    count: usize,
    /// The tasks that must be placed before each.
    after: [u16; TASKS_MAX],
    /// The tasks that cannot go on at the same time as each, itself among them.
    apart: [u16; TASKS_MAX],
    lengths_ms: [i64; TASKS_MAX],
    tails_ms: Vec<i64>,
    /// Of each pool, how many each task holds.
    amounts: Vec<[i64; TASKS_MAX]>,
    loads: Loads,
    ways: Ways,
    grain_ms: i64,
    best: Vec<i64>,
    /// How long the best is.
    shortest_ms: i64,
    /// The latest end that would be better.
    goal_ms: i64,
    enough_ms: i64,
    nodes: u64,
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
                amounts[need.pool][index] = i64::from(need.amount);
            }
        }
        let mut lengths_ms = [0; TASKS_MAX];
        for (length_ms, task) in lengths_ms.iter_mut().zip(&problem.tasks) {
            *length_ms = task.length_ms;
        }
        let (tails_ms, grain_ms, shortest_ms) = (problem.tails_ms(order), problem.grain_ms(), problem.makespan(&known));
        Self {
            problem,
            count,
            after,
            apart: apart(problem, order),
            loads: Loads::of(problem, &tails_ms),
            ways: Ways::of(problem),
            lengths_ms,
            tails_ms,
            amounts,
            grain_ms,
            goal_ms: problem.end_before(grain_ms, shortest_ms),
            shortest_ms,
            best: known,
            enough_ms,
            nodes: 0,
        }
    }

    fn visit(&mut self, mut node: Node) {
        self.nodes += 1;
        if usize::from(node.done) + 1 == 1 << self.count {
            self.reached(&node);
            return;
        }
        for task in tasks_in(node.tried) {
            if !self.fits_still(&node, task) {
                node.tried &= !(1 << task);
            }
        }
        let (mut choices, mut count) = self.choices(&node);
        if count == 0 {
            return;
        }
        // Nothing more starts before the first that can: until then it is as if that were now.
        node.now_ms = node.now_ms.max(choices[0].start_ms);
        node.drop_ended();
        if self.loads.too_much(self.problem, &node, self.goal_ms) || self.ways.seen_no_later(&node) {
            return;
        }
        if let Some(only) = (0..count).find(|&place| self.may_as_well_be_next(&node, &choices, place)) {
            (choices[0], count) = (choices[only], 1);
        }
        for &Choice { start_ms, task, .. } in &choices[..count] {
            // What else is waiting starts no earlier than this one: its tail then counts from here.
            let end_ms = choices[..count].iter().map(|other| other.start_ms.max(start_ms) + other.tail_ms).max();
            if self.shortest_ms <= self.enough_ms {
                return;
            }
            if end_ms.is_some_and(|end_ms| end_ms <= self.goal_ms) {
                let mut next = Node { done: node.done | 1 << task, latest: task, now_ms: start_ms, ..node };
                next.starts[task] = start_ms;
                next.ends[task] = start_ms + self.lengths_ms[task];
                next.runs(task);
                self.visit(next);
            }
            node.tried |= 1 << task;
            node.tried_ms[task] = start_ms;
        }
    }

    /// All tasks are placed.
    fn reached(&mut self, node: &Node) {
        let end_ms = node.ends[..self.count].iter().copied().max().unwrap_or(0);
        if end_ms < self.shortest_ms {
            self.shortest_ms = end_ms;
            self.goal_ms = self.problem.end_before(self.grain_ms, end_ms);
            self.best = node.starts[..self.count].to_vec();
        }
    }

    /// The tasks whose predecessors are placed, earliest first; among equals the one with the longest tail. Those
    /// before whose start another could have come and gone are left out.
    fn choices(&self, node: &Node) -> ([Choice; TASKS_MAX], usize) {
        let mut choices = [Choice::default(); TASKS_MAX];
        let mut count = 0;
        let mut gone_ms = i64::MAX;
        for task in 0..self.count {
            if node.done & 1 << task != 0 || self.after[task] & !node.done != 0 {
                continue;
            }
            let length_ms = self.lengths_ms[task];
            if node.tried & 1 << task != 0 {
                gone_ms = gone_ms.min(node.tried_ms[task] + length_ms);
                continue;
            }
            let start_ms = self.earliest(node, task);
            choices[count] = Choice { start_ms, tail_ms: self.tails_ms[task], task };
            count += 1;
            // A task of no length has not gone before the next moment.
            gone_ms = gone_ms.min(start_ms + length_ms.max(1));
        }
        let chosen = &mut choices[..count];
        chosen.sort_unstable_by_key(|choice| (choice.start_ms, -choice.tail_ms, choice.task));
        let kept = chosen.partition_point(|choice| choice.start_ms < gone_ms);
        (choices, kept)
    }

    /// The first moment at which a task can start, no other starting before it. All that is placed has started by then,
    /// so pools only get freer with time, but for the watch.
    fn earliest(&self, node: &Node, task: usize) -> i64 {
        let Task { length_ms, needs, after } = &self.problem.tasks[task];
        let mut start_ms = after.iter().map(|&first| node.ends[first]).fold(node.now_ms, i64::max);
        if *length_ms == 0 {
            return start_ms;
        }
        for need in needs {
            start_ms = start_ms.max(self.free_from(node, need.pool, self.beside(need)));
        }
        let watch = self.problem.held.filter(|held| start_ms < held.to_ms && start_ms + length_ms > held.from_ms);
        if let (Some(held), Some(need)) = (watch, needs.iter().find(|need| need.pool == PEOPLE)) {
            let free_ms = self.free_from(node, PEOPLE, self.beside(need) - 1);
            if free_ms > start_ms.max(held.from_ms) {
                start_ms = free_ms.min(held.to_ms);
            }
        }
        start_ms
    }

    /// Whether a task that was tried earlier could still start when it was to, beside the one placed last. What is
    /// placed started before that, and it fitted beside that.
    fn fits_still(&self, node: &Node, task: usize) -> bool {
        let from_ms = node.tried_ms[task].max(node.now_ms);
        let to_ms = (node.tried_ms[task] + self.lengths_ms[task]).min(node.ends[node.latest]);
        from_ms >= to_ms
            || self.problem.tasks[task].needs.iter().all(|need| {
                let beside = self.beside(need);
                let watch = self
                    .problem
                    .held
                    .filter(|held| need.pool == PEOPLE && from_ms < held.to_ms && to_ms > held.from_ms);
                self.free_from(node, need.pool, beside) <= from_ms
                    && watch.is_none_or(|held| self.free_from(node, PEOPLE, beside - 1) <= from_ms.max(held.from_ms))
            })
    }

    /// How many of its pool may be taken beside a need.
    fn beside(&self, need: &Need) -> i64 {
        i64::from(self.problem.pools[need.pool]) - i64::from(need.amount)
    }

    /// From when on no more than `most` of a pool are taken; for ever more than a negative number.
    fn free_from(&self, node: &Node, pool: usize, most: i64) -> i64 {
        if most < 0 {
            return i64::MAX;
        }
        let (amounts, mut taken) = (&self.amounts[pool], 0);
        for &task in node.running() {
            taken += amounts[usize::from(task)];
            if taken > most {
                return node.ends[usize::from(task)];
            }
        }
        node.now_ms
    }

    /// Whether a choice loses nothing by being the next: nothing left can get in its way and none can start before it;
    /// or nothing runs, the watch is over, and it can go with nothing that is left.
    fn may_as_well_be_next(&self, node: &Node, choices: &[Choice], place: usize) -> bool {
        let Choice { start_ms, task, .. } = choices[place];
        let left = !node.done & ((1 << self.count) - 1);
        if node.running_count == 0 && start_ms == node.now_ms && left & !self.apart[task] == 0 {
            return self.problem.held.is_none_or(|held| held.to_ms <= node.now_ms);
        }
        let watch = i64::from(self.problem.held.is_some_and(|held| held.to_ms > node.now_ms));
        let enough_of = |pool: usize| {
            let waiting: i64 = tasks_in(left).map(|task| self.amounts[pool][task]).sum();
            let taken: i64 = node.running().iter().map(|&task| self.amounts[pool][usize::from(task)]).sum();
            waiting + taken + if pool == PEOPLE { watch } else { 0 } <= i64::from(self.problem.pools[pool])
        };
        start_ms == choices[0].start_ms && self.problem.tasks[task].needs.iter().all(|need| enough_of(need.pool))
    }
}

/// The tasks of a set, in order.
fn tasks_in(mut set: u16) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let task = set.trailing_zeros() as usize;
        set &= set.wrapping_sub(1);
        (task < 16).then_some(task)
    })
}

/// For each task those that cannot go on at the same time: they wait for each other, or want too much together.
fn apart(problem: &Problem, order: &[usize]) -> [u16; TASKS_MAX] {
    let mut apart = [0; TASKS_MAX];
    for &task in order {
        for &first in &problem.tasks[task].after {
            apart[task] |= apart[first] | 1 << first;
        }
    }
    for one in 0..problem.tasks.len() {
        for other in 0..problem.tasks.len() {
            let too_much = |pool: usize, count: u32| {
                let both = u64::from(problem.tasks[one].amount(pool)) + u64::from(problem.tasks[other].amount(pool));
                both > u64::from(count)
            };
            let full = (0..).zip(&problem.pools).any(|(pool, &count)| too_much(pool, count));
            if full || one == other || apart[one] & 1 << other != 0 {
                apart[one] |= 1 << other;
                apart[other] |= 1 << one;
            }
        }
    }
    apart
}

/// Earlier tasks that are the same in all respects: they go first, so that equal schedules are tried once.
fn twins_before(problem: &Problem, index: usize) -> u16 {
    let waited_for = |of: usize| problem.tasks.iter().map(move |task| task.after.contains(&of));
    let twin =
        |other: &usize| problem.tasks[*other] == problem.tasks[index] && waited_for(*other).eq(waited_for(index));
    (0..index).filter(twin).fold(0, |mask, other| mask | 1 << other)
}
