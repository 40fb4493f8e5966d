//! Whether a schedule may be: looks at every moment at which something begins, and knows nothing of how it was found.

use crate::plan::model::Problem;

/// What is wrong with starts from zero on, if anything.
pub(super) fn wrong(problem: &Problem, starts: &[i64]) -> Option<String> {
    if starts.len() != problem.tasks.len() {
        return Some(format!("{} starts for {} tasks", starts.len(), problem.tasks.len()));
    }
    let end = |task: usize| starts[task] + problem.tasks[task].length_ms;
    for (task, &start) in starts.iter().enumerate() {
        if start < 0 {
            return Some(format!("task {task} starts at {start}"));
        }
        if let Some(first) = problem.tasks[task].after.iter().find(|&&first| end(first) > start) {
            return Some(format!("task {task} starts at {start}, before {first} ends at {}", end(*first)));
        }
    }
    let moments = starts.iter().copied().chain(problem.held.map(|held| held.from_ms));
    for moment in moments {
        for (pool, &count) in problem.pools.iter().enumerate() {
            let running = |task: &usize| starts[*task] <= moment && moment < end(*task);
            let tasks: u32 = (0..starts.len()).filter(running).map(|task| problem.tasks[task].amount(pool)).sum();
            let watch = problem.held.is_some_and(|held| held.from_ms <= moment && moment < held.to_ms && pool == 0);
            if tasks + u32::from(watch) > count {
                return Some(format!("at {moment} pool {pool} of {count} is asked for {tasks}, watch {watch}"));
            }
        }
    }
    None
}
