//! Each lower bound where it is the one that counts, worked by hand from its definition: what cannot be shorter, and why.
//!
//! A bound that says less than it could changes no plan up to 12 chores; it makes the proof longer, and the gap wider that
//! people are told past that. So here each is held to what it must say.

use crate::plan::bound::{Bound, best, shares, worked_off};
use crate::plan::model::{Held, Need, PEOPLE, Problem, Task};

/// A task: how long, how many hands, whether it wants the one piece of gear, and what comes first.
type Row = (i64, u32, bool, &'static [usize]);

/// The problem of some tasks for a crew, one piece of gear, and a stretch in which one person watches.
fn problem(crew: u32, watch: Option<(i64, i64)>, rows: &[Row]) -> Problem {
    let tasks = rows.iter().map(|&(length_ms, hands, gear, after)| {
        let people = (hands > 0).then_some(Need { pool: PEOPLE, amount: hands });
        let gear = gear.then_some(Need { pool: 1, amount: 1 });
        Task { length_ms, needs: people.into_iter().chain(gear).collect(), after: after.to_vec() }
    });
    let held = watch.map(|(from_ms, to_ms)| Held { from_ms, to_ms });
    Problem { tasks: tasks.collect(), pools: vec![crew, 1], held }
}

#[track_caller]
fn check(crew: u32, watch: Option<(i64, i64)>, rows: &[Row], want: (Bound, i64)) {
    let problem = problem(crew, watch, rows);
    let order = problem.in_order().expect("no ring");
    assert_eq!(best(&problem, &order), want, "{crew} people, watch {watch:?}, {rows:?}");
}

#[test]
fn each_bound_is_the_highest_somewhere() {
    use Bound::{CriticalPath, Gear, Hands, Work};
    check(3, None, &[], (CriticalPath, 0));
    // Of equals the first named.
    check(1, None, &[(7, 1, true, &[])], (CriticalPath, 7));
    check(3, None, &[(4, 1, false, &[]), (5, 0, false, &[0])], (CriticalPath, 9));
    // Twelve minutes of work for two are six, but ends come in steps of four.
    check(2, None, &[(4, 1, false, &[]), (4, 1, false, &[]), (4, 1, false, &[])], (Work, 8));
    check(2, None, &[(5, 1, false, &[]), (4, 1, false, &[]), (4, 1, false, &[])], (Work, 7));
    check(5, None, &[(4, 1, true, &[]), (4, 1, true, &[]), (4, 0, true, &[])], (Gear, 12));
    // Two hands of three: one at a time, 12, where all the work is only 8.
    check(3, None, &[(4, 2, false, &[]), (4, 2, false, &[]), (4, 2, false, &[])], (Hands, 12));
    // Just half of them: two at a time.
    check(4, None, &[(4, 2, false, &[]), (4, 2, false, &[]), (4, 2, false, &[])], (Work, 8));
    // Half and one more of five: one at a time. The third goes beside.
    check(5, None, &[(4, 3, false, &[]), (4, 3, false, &[]), (4, 2, false, &[])], (Hands, 8));
    // Nothing of many hands before the first has dried, and all have to dry after: 5 + 8 + 6. One that is done alone
    // at the beginning or the end changes nothing.
    let dried: [Row; 7] = [
        (5, 0, false, &[]),
        (5, 0, false, &[]),
        (4, 2, false, &[0]),
        (4, 2, false, &[1]),
        (6, 0, false, &[2]),
        (6, 0, false, &[3]),
        (1, 1, false, &[]),
    ];
    check(3, None, &dried, (Hands, 19));
}

/// A task that needs everybody waits for the end of a watch that it would meet, and no other does.
#[test]
fn a_watch_is_waited_for_where_it_must_be() {
    use Bound::{CriticalPath, Work};
    let watch = Some((3, 10));
    check(1, watch, &[(5, 1, false, &[])], (CriticalPath, 15));
    // Over when the watch begins.
    check(1, watch, &[(3, 1, false, &[])], (CriticalPath, 3));
    // Beginning when the watch is over, or in its last moment.
    check(1, watch, &[(10, 0, false, &[]), (5, 1, false, &[0])], (CriticalPath, 15));
    check(1, watch, &[(9, 0, false, &[]), (5, 1, false, &[0])], (CriticalPath, 15));
    check(1, watch, &[(12, 0, false, &[]), (6, 1, false, &[0])], (CriticalPath, 18));
    // What takes no time fits anywhere.
    check(1, watch, &[(5, 0, false, &[]), (0, 1, false, &[0])], (CriticalPath, 5));
    // Two people: one watches, one works. Both at once must wait.
    check(2, watch, &[(5, 1, false, &[])], (CriticalPath, 5));
    check(2, watch, &[(5, 2, false, &[])], (CriticalPath, 15));
    check(2, watch, &[(5, 1, false, &[]), (5, 1, false, &[])], (Work, 10));
}

#[test]
fn work_is_worked_off_by_those_who_are_there() {
    let held = |from_ms, to_ms| Some(Held { from_ms, to_ms });
    for (work, count, watch, want) in [
        (0, 2, None, 0),
        (7, 2, None, 4),
        (8, 2, None, 4),
        // Two until 4, one until 10, two again: 8, then 6.
        (0, 2, held(4, 10), 0),
        (7, 2, held(4, 10), 4),
        (8, 2, held(4, 10), 4),
        (9, 2, held(4, 10), 5),
        (14, 2, held(4, 10), 10),
        (15, 2, held(4, 10), 11),
        (17, 2, held(4, 10), 12),
        // Three: five minutes of two people are ten.
        (9, 3, held(2, 7), 4),
        (16, 3, held(2, 7), 7),
        (17, 3, held(2, 7), 8),
        // Nobody works while the only one watches.
        (3, 1, held(3, 10), 3),
        (5, 1, held(3, 10), 12),
    ] {
        assert_eq!(worked_off(work, count, watch), want, "{work} of {count}, {watch:?}");
    }
}

/// The definition (Fekete and Schepers 2001), searched for instead of reckoned: as many of `parts` parts as can be without
/// tasks that fit together ever taking more than all.
#[test]
fn shares_never_add_up_to_more_than_all() {
    for (parts, crew, taken) in [
        (1, 3, &[0, 0, 1, 1][..]),
        (1, 4, &[0, 0, 0, 1, 1]),
        (2, 4, &[0, 0, 1, 2, 2]),
        (2, 3, &[0, 0, 1, 2]),
        (3, 6, &[0, 0, 1, 1, 2, 3, 3]),
        (6, 2, &[0, 3, 6]),
    ] {
        for (hands, want) in (0..).zip(taken) {
            assert_eq!(shares(parts, crew, hands), *want, "{hands} of {crew} in {parts} parts");
        }
    }
    for (parts, crew) in (1..=6).flat_map(|parts| (1..=12).map(move |crew| (parts, crew))) {
        let mut most = vec![0; crew as usize + 1];
        for hands in 1..=crew {
            for left in (hands..=crew).rev() {
                let with = most[(left - hands) as usize] + shares(parts, crew, hands);
                most[left as usize] = most[left as usize].max(with);
            }
            // The same number of hands again and again.
            let again = crew / hands * shares(parts, crew, hands);
            assert!(again <= parts && most[crew as usize] <= parts, "{hands} of {crew} in {parts} parts");
        }
    }
}
