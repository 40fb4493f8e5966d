//! What the plan is solved on: tasks, what they hold, what comes first, and one stretch in which a person is away.
//!
//! Times are whole milliseconds from the problem's own zero. A task holds its needs for its whole length and is not
//! interrupted; a task of no length holds nothing. Knows no rulebook, no clock and no names.

/// The pool of people; the pools after it are gear.
pub(super) const PEOPLE: usize = 0;

/// Tasks to be placed at or after zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Problem {
    /// What must be done.
    pub(super) tasks: Vec<Task>,
    /// How many there are of each pool; never fewer than a task needs.
    pub(super) pools: Vec<u32>,
    /// When one person is held by the watch.
    pub(super) held: Option<Held>,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Task {
    /// How long it takes.
    pub(super) length_ms: i64,
    /// What it holds meanwhile; no pool twice.
    pub(super) needs: Vec<Need>,
    /// The tasks that must be finished first. Without cycles.
    pub(super) after: Vec<usize>,
}

/// So many of one pool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Need {
    /// Which.
    pub(super) pool: usize,
    /// How many, at least one.
    pub(super) amount: u32,
}

/// A stretch of time, its end left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Held {
    /// Its first moment.
    pub(super) from_ms: i64,
    /// The first moment after it.
    pub(super) to_ms: i64,
}

impl Held {
    /// The part of a stretch at or after zero, if any is left.
    pub(super) fn after_zero(from_ms: i64, to_ms: i64) -> Option<Self> {
        let from_ms = from_ms.max(0);
        (to_ms > from_ms).then_some(Self { from_ms, to_ms })
    }
}

impl Task {
    /// How many of a pool it holds.
    pub(super) fn amount(&self, pool: usize) -> u32 {
        self.needs.iter().find(|need| need.pool == pool).map_or(0, |need| need.amount)
    }
}

impl Problem {
    /// The same problem with another stretch held.
    pub(super) fn with_held(&self, held: Option<Held>) -> Self {
        Self { held, ..self.clone() }
    }

    /// The problem seen backwards from `end_ms`: what came first comes last. What is held before its zero is cut off.
    pub(super) fn mirrored(&self, end_ms: i64) -> Self {
        let mut tasks: Vec<Task> = self.tasks.iter().map(|task| Task { after: Vec::new(), ..task.clone() }).collect();
        for (later, task) in self.tasks.iter().enumerate() {
            for &earlier in &task.after {
                tasks[earlier].after.push(later);
            }
        }
        let held = self.held.and_then(|held| Held::after_zero(end_ms - held.to_ms, end_ms - held.from_ms));
        Self { tasks, pools: self.pools.clone(), held }
    }

    /// Starts seen backwards from `end_ms`.
    pub(super) fn mirrored_starts(&self, starts: &[i64], end_ms: i64) -> Vec<i64> {
        starts.iter().zip(&self.tasks).map(|(start, task)| end_ms - start - task.length_ms).collect()
    }

    /// When the last task is finished.
    pub(super) fn makespan(&self, starts: &[i64]) -> i64 {
        starts.iter().zip(&self.tasks).map(|(start, task)| start + task.length_ms).max().unwrap_or(0)
    }

    /// The greatest length that all tasks are whole multiples of; 1 if all have none.
    pub(super) fn grain_ms(&self) -> i64 {
        let mut grain = 0;
        for task in &self.tasks {
            let mut rest = task.length_ms;
            while rest != 0 {
                (grain, rest) = (rest, grain % rest);
            }
        }
        grain.max(1)
    }

    /// The first moment at or after `at_ms` at which a schedule without needless waiting can end: whole grains from
    /// zero or from the end of the watch.
    pub(super) fn next_end(&self, grain_ms: i64, at_ms: i64) -> i64 {
        let up = |from_ms: i64| at_ms + (from_ms - at_ms).rem_euclid(grain_ms);
        self.held
            .map_or(up(0), |held| if at_ms < held.to_ms { up(0).min(held.to_ms) } else { up(0).min(up(held.to_ms)) })
    }

    /// The last moment before `end_ms` at which such a schedule can end.
    pub(super) fn end_before(&self, grain_ms: i64, end_ms: i64) -> i64 {
        let at_ms = end_ms - 1;
        let down = |from_ms: i64| at_ms - (at_ms - from_ms).rem_euclid(grain_ms);
        match self.held {
            Some(held) if at_ms >= held.to_ms => down(0).max(down(held.to_ms)),
            _ => down(0),
        }
    }

    /// The tasks so that each comes after all that must be finished first, or a task of a cycle.
    pub(super) fn in_order(&self) -> Result<Vec<usize>, usize> {
        let mut order = Vec::with_capacity(self.tasks.len());
        let mut placed = vec![false; self.tasks.len()];
        while order.len() < self.tasks.len() {
            let before = order.len();
            for (index, task) in self.tasks.iter().enumerate() {
                if !placed[index] && task.after.iter().all(|&first| placed[first]) {
                    placed[index] = true;
                    order.push(index);
                }
            }
            if order.len() == before {
                return Err(self.on_cycle(&placed));
            }
        }
        Ok(order)
    }

    /// Walks from a task that never became free to what it waits for, until it has surely entered a cycle.
    fn on_cycle(&self, placed: &[bool]) -> usize {
        let mut at = placed.iter().position(|placed| !placed).unwrap_or(0);
        for _ in 0..self.tasks.len() {
            at = self.tasks[at].after.iter().copied().find(|&first| !placed[first]).unwrap_or(at);
        }
        at
    }

    /// The longest way from each task's start to the end of all that waits for it.
    pub(super) fn tails_ms(&self, order: &[usize]) -> Vec<i64> {
        let mut tails: Vec<i64> = self.tasks.iter().map(|task| task.length_ms).collect();
        for &index in order.iter().rev() {
            for &first in &self.tasks[index].after {
                tails[first] = tails[first].max(self.tasks[first].length_ms + tails[index]);
            }
        }
        tails
    }
}
