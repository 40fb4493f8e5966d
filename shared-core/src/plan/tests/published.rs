//! Published networks: textbook critical paths and an instance of PSPLIB.

use super::checker::wrong;
use crate::plan::bound::{self, Bound};
use crate::plan::heuristic;
use crate::plan::model::{Need, Problem, Task};
use crate::plan::solve::solve;

/// Activities by name, length and predecessors, with people enough for all.
fn network(activities: &[(&str, i64, &str)]) -> Problem {
    let place = |name: char| activities.iter().position(|(other, ..)| other.starts_with(name)).expect("a known name");
    let tasks = activities.iter().map(|&(_, length_ms, after)| Task {
        length_ms,
        needs: vec![Need { pool: 0, amount: 1 }],
        after: after.chars().map(place).collect(),
    });
    Problem { tasks: tasks.collect(), pools: vec![u32::try_from(activities.len()).expect("few")], held: None }
}

fn check_network(activities: &[(&str, i64, &str)], want: i64) {
    let problem = network(activities);
    let order = problem.in_order().expect("no ring");
    let solved = solve(&problem, &order, 0, None);
    assert_eq!((solved.makespan_ms, solved.gap_ms(), solved.bound), (want, 0, Bound::CriticalPath));
    assert_eq!(wrong(&problem, &solved.starts), None);
}

/// That, and the latest start of each activity that keeps the end, where it is published.
fn check_latest(activities: &[(&str, i64, &str)], want: i64, latest: &[(&str, i64)]) {
    check_network(activities, want);
    let problem = network(activities);
    let tails = problem.tails_ms(&problem.in_order().expect("no ring"));
    for (name, start) in latest {
        let place = activities.iter().position(|(other, ..)| other == name).expect("a known name");
        assert_eq!(want - tails[place], *start, "{name}");
    }
}

/// Taylor, Introduction to Management Science, chapter 8: the house network, 20 (activities are its arcs), with its
/// latest starts. No slack on 1-3-4-5-6.
#[test]
fn taylor_chapter_8() {
    let arcs =
        [("a", 7, ""), ("b", 10, ""), ("c", 6, "a"), ("d", 5, "b"), ("e", 4, "b"), ("f", 3, "cd"), ("g", 2, "ef")];
    check_latest(&arcs, 20, &[("a", 2), ("b", 0), ("c", 9), ("d", 10), ("e", 14), ("f", 15), ("g", 18)]);
}

/// Taylor, the same chapter, with a dummy of no length: 38 by 1-3-5-7-8-9, and the latest starts that are printed.
#[test]
fn taylor_chapter_8_with_a_dummy() {
    let arcs = [
        ("a", 8, ""),
        ("b", 10, ""),
        ("c", 9, ""),
        ("d", 6, "a"),
        ("e", 4, "a"),
        ("f", 5, "b"),
        ("g", 0, "c"),
        ("h", 7, "c"),
        ("i", 12, "dfg"),
        ("j", 15, "dfg"),
        ("k", 18, "e"),
        ("l", 4, "hi"),
        ("m", 7, "jl"),
    ];
    check_latest(&arcs, 38, &[("a", 1), ("c", 6), ("e", 16), ("h", 20), ("j", 16), ("k", 20), ("b", 0), ("m", 31)]);
}

/// A textbook project of activities A to N: 41 by A-B-F-I-K-L-N, and the latest starts that are printed.
#[test]
fn a_textbook_project_of_fourteen() {
    let activities = [
        ("A", 2, ""),
        ("B", 10, "A"),
        ("C", 13, "A"),
        ("D", 12, "A"),
        ("E", 12, "B"),
        ("F", 7, "B"),
        ("G", 10, "D"),
        ("H", 16, "D"),
        ("I", 6, "F"),
        ("J", 12, "CG"),
        ("K", 5, "I"),
        ("L", 8, "EK"),
        ("M", 5, "H"),
        ("N", 3, "JLM"),
    ];
    let latest = [("C", 13), ("D", 4), ("E", 18), ("G", 16), ("H", 17), ("J", 26), ("M", 33), ("A", 0), ("N", 38)];
    check_latest(&activities, 41, &latest);
}

/// Hillier and Lieberman, Introduction to Operations Research, the "Reliable Construction" project: 44.
#[test]
fn hillier_and_lieberman_reliable_construction() {
    let activities = [
        ("A", 2, ""),
        ("B", 4, "A"),
        ("C", 10, "B"),
        ("D", 6, "C"),
        ("E", 4, "C"),
        ("F", 5, "E"),
        ("G", 7, "D"),
        ("H", 9, "EG"),
        ("I", 7, "C"),
        ("J", 8, "FI"),
        ("K", 4, "J"),
        ("L", 5, "J"),
        ("M", 2, "H"),
        ("N", 6, "KL"),
    ];
    // Slack of 4 for D, G, H and M, of 2 for I, of 1 for K.
    let latest = [("D", 20), ("G", 26), ("H", 33), ("M", 42), ("I", 18), ("K", 34), ("L", 33), ("N", 38)];
    check_latest(&activities, 44, &latest);
}

/// PSPLIB `j301_1` (Kolisch and Sprecher 1996): job, length, (resource, amount), successors, without the two dummies.
const J301_1: [(usize, i64, usize, u32, &[usize]); 30] = [
    (2, 8, 0, 4, &[6, 11, 15]),
    (3, 4, 0, 10, &[7, 8, 13]),
    (4, 6, 3, 3, &[5, 9, 10]),
    (5, 3, 0, 3, &[20]),
    (6, 8, 3, 8, &[30]),
    (7, 5, 0, 4, &[27]),
    (8, 9, 1, 1, &[12, 19, 27]),
    (9, 2, 0, 6, &[14]),
    (10, 7, 3, 1, &[16, 25]),
    (11, 9, 1, 5, &[20, 26]),
    (12, 2, 1, 7, &[14]),
    (13, 6, 0, 4, &[17, 18]),
    (14, 3, 1, 8, &[17]),
    (15, 9, 0, 3, &[25]),
    (16, 10, 3, 5, &[21, 22]),
    (17, 6, 3, 8, &[22]),
    (18, 5, 3, 7, &[20, 22]),
    (19, 3, 1, 1, &[24, 29]),
    (20, 7, 1, 10, &[23, 25]),
    (21, 2, 3, 6, &[28]),
    (22, 7, 0, 2, &[23]),
    (23, 2, 0, 3, &[24]),
    (24, 3, 1, 9, &[30]),
    (25, 3, 0, 4, &[30]),
    (26, 7, 2, 4, &[31]),
    (27, 8, 3, 7, &[28]),
    (28, 3, 1, 8, &[31]),
    (29, 7, 1, 7, &[]),
    (30, 2, 1, 7, &[]),
    (31, 2, 2, 2, &[]),
];

/// Published: the optimum is 43, the critical path alone 38.
#[test]
fn psplib_j301_1() {
    let mut tasks: Vec<Task> = J301_1
        .iter()
        .map(|&(_, length_ms, pool, amount, _)| Task { length_ms, needs: vec![Need { pool, amount }], after: vec![] })
        .collect();
    for (job, _, _, _, later) in J301_1 {
        for next in later {
            tasks[next - 2].after.push(job - 2);
        }
    }
    let problem = Problem { tasks, pools: vec![12, 13, 4, 12], held: None };
    let order = problem.in_order().expect("no ring");
    assert_eq!(bound::best(&problem, &order), (Bound::CriticalPath, 38));
    for problem in [&problem, &problem.mirrored(0)] {
        let order = problem.in_order().expect("no ring");
        let first = heuristic::starts(problem, &order, 0);
        let solved = solve(problem, &order, 0, None);
        assert_eq!(wrong(problem, &first), None);
        assert_eq!(wrong(problem, &solved.starts), None);
        assert!(solved.low_ms <= 43 && 43 <= solved.makespan_ms, "{solved:?}");
        assert!(solved.makespan_ms <= problem.makespan(&first), "swapping never makes it worse");
        assert_eq!(solved.gap_ms(), solved.makespan_ms - 38, "what was not proven is said");

        assert_eq!(solved.makespan_ms, 43, "as short as it can be, though that is not proven here");
    }
}
