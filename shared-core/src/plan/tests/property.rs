//! The solver against a slow obvious one, over random problems.

use proptest::prelude::*;

use super::checker::wrong;
use crate::plan::exact;
use crate::plan::model::{Held, Need, Problem, Task};
use crate::plan::solve::solve;
use crate::plan::{bound, heuristic};

/// The least makespan by trying every order: each task in turn goes to the first whole moment at which nothing is
/// wrong with it and what was placed before. Moments are few here, so none is skipped.
pub(super) fn obvious(problem: &Problem) -> i64 {
    let mut left: Vec<usize> = (0..problem.tasks.len()).collect();
    let mut least = i64::MAX;
    try_all(problem, &mut Vec::new(), &mut left, &mut least);
    least
}

fn try_all(problem: &Problem, placed: &mut Vec<(usize, i64)>, left: &mut Vec<usize>, least: &mut i64) {
    if left.is_empty() {
        *least =
            (*least).min(placed.iter().map(|&(task, start)| start + problem.tasks[task].length_ms).max().unwrap_or(0));
    }
    for place in 0..left.len() {
        let task = left.remove(place);
        if problem.tasks[task].after.iter().all(|first| placed.iter().any(|(other, _)| other == first)) {
            let start = (0..1000).find(|&start| fits(problem, placed, task, start)).expect("it fits in the end");
            placed.push((task, start));
            try_all(problem, placed, left, least);
            placed.pop();
        }
        left.insert(place, task);
    }
}

fn fits(problem: &Problem, placed: &[(usize, i64)], task: usize, start: i64) -> bool {
    let length = |task: usize| problem.tasks[task].length_ms;
    let ready =
        placed.iter().all(|&(first, at)| !problem.tasks[task].after.contains(&first) || at + length(first) <= start);
    ready
        && (start..start + length(task)).all(|moment| {
            (0..problem.pools.len()).all(|pool| {
                let runs = |&&(other, at): &&(usize, i64)| at <= moment && moment < at + length(other);
                let taken: u32 = placed.iter().filter(runs).map(|&(other, _)| problem.tasks[other].amount(pool)).sum();
                let watch = problem.held.is_some_and(|held| held.from_ms <= moment && moment < held.to_ms);
                let wanted = problem.tasks[task].amount(pool);
                wanted == 0 || taken + wanted + u32::from(watch && pool == 0) <= problem.pools[pool]
            })
        })
}

/// Problems of up to `tasks_max` tasks, six people or more than are counted one by one, two kinds of gear, and sometimes a
/// watch.
pub(super) fn problems(tasks_max: usize) -> impl Strategy<Value = Problem> {
    let task = (0..8_i64, 0..=12_u32, 0..5_usize, any::<[bool; 4]>(), any::<prop::sample::Index>());
    let watch = prop::option::of((0..12_i64, 1..12_i64));
    let crew = prop_oneof![3 => 1..=6_u32, 1 => 9..=12_u32];
    (crew, 1..=2_u32, prop::collection::vec(task, 0..=tasks_max), watch, any::<u64>()).prop_map(
        |(crew, gear, drawn, watch, shuffle)| {
            let tasks = drawn.iter().enumerate().map(|(index, &(length_ms, hands, gear, after, ref first))| {
                let mut needs = Vec::new();
                // Among few, often as many as there are.
                let hands = if crew > 6 { hands } else { hands % 7 };
                if hands.min(crew) > 0 {
                    needs.push(Need { pool: 0, amount: hands.min(crew) });
                }
                if gear == 1 || gear == 2 {
                    needs.push(Need { pool: gear, amount: 1 });
                }
                let after = if index > 0 && after[0] { vec![first.index(index)] } else { Vec::new() };
                Task { length_ms, needs, after }
            });
            let tasks = tasks.collect();
            let held = watch.and_then(|(from_ms, length)| Held::after_zero(from_ms, from_ms + length));
            let problem = Problem { tasks, pools: vec![crew, gear, 1], held };
            // Half of them the other way round, so that predecessors also come later in the list.
            if shuffle % 2 == 0 { problem } else { Problem { held, ..problem.mirrored(0) } }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn exact_is_as_short_as_the_obvious(problem in problems(6)) {
        let order = problem.in_order().expect("no ring");
        let shortest = obvious(&problem);
        let solved = solve(&problem, &order, 0, None);
        prop_assert_eq!(wrong(&problem, &solved.starts), None);
        prop_assert_eq!((solved.makespan_ms, solved.gap_ms()), (shortest, 0));
        let (name, low_ms) = bound::best(&problem, &order);
        prop_assert!(low_ms <= shortest, "{:?} says {}, it is {}", name, low_ms, shortest);
        // From the worst start too, so that it is the search that is judged.
        let far: Vec<i64> = heuristic::serial(&problem, &vec![0; problem.tasks.len()]);
        let searched = exact::prove(&problem, &order, far, 0).starts;
        prop_assert_eq!(wrong(&problem, &searched), None);
        prop_assert_eq!(problem.makespan(&searched), shortest);
    }

    #[test]
    fn a_schedule_seen_backwards_is_as_long(problem in problems(12)) {
        let order = problem.in_order().expect("no ring");
        let solved = solve(&problem, &order, 0, None);
        prop_assert_eq!(wrong(&problem, &solved.starts), None);
        let quick = heuristic::starts(&problem, &order, 0);
        prop_assert_eq!(wrong(&problem, &quick), None);
        prop_assert!(problem.makespan(&quick) >= solved.makespan_ms);
        if problem.held.is_none() {
            let mirrored = problem.mirrored(0);
            let back = solve(&mirrored, &mirrored.in_order().expect("no ring"), 0, None);
            prop_assert_eq!(back.makespan_ms, solved.makespan_ms);
        }
        prop_assert_eq!(solve(&problem, &order, 0, None), solved);
    }

    #[test]
    fn past_twelve_the_gap_is_honest(problem in problems(20)) {
        let order = problem.in_order().expect("no ring");
        let solved = solve(&problem, &order, 0, None);
        prop_assert_eq!(wrong(&problem, &solved.starts), None);
        prop_assert!(bound::best(&problem, &order).1 <= solved.low_ms);
        prop_assert!(solved.low_ms <= solved.makespan_ms);
    }
}
