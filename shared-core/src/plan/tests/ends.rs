//! When a schedule can end: whole grains from its zero or from the end of the watch, found by counting instead of reckoning.

use proptest::prelude::*;

use crate::plan::model::{Held, Problem, Task};

fn problem(lengths_ms: &[i64], held: Option<Held>) -> Problem {
    let tasks = lengths_ms.iter().map(|&length_ms| Task { length_ms, needs: vec![], after: vec![] });
    Problem { tasks: tasks.collect(), pools: vec![1], held }
}

#[test]
fn the_grain_is_what_all_lengths_are_whole_multiples_of() {
    for (lengths_ms, grain_ms) in
        [(&[][..], 1), (&[0], 1), (&[7], 7), (&[0, 7], 7), (&[12, 18], 6), (&[18, 12, 9], 3), (&[5, 3], 1)]
    {
        assert_eq!(problem(lengths_ms, None).grain_ms(), grain_ms, "{lengths_ms:?}");
    }
}

/// What is held is told from zero on, and not at all if nothing of it is left.
#[test]
fn what_is_held_is_cut_off_at_zero() {
    let held = |from_ms, to_ms| Some(Held { from_ms, to_ms });
    for (from_ms, to_ms, want) in
        [(3, 9, held(3, 9)), (-3, 9, held(0, 9)), (-9, 0, None), (-9, -3, None), (4, 4, None), (0, 1, held(0, 1))]
    {
        assert_eq!(Held::after_zero(from_ms, to_ms), want, "{from_ms} to {to_ms}");
    }
}

proptest! {
    #[test]
    fn ends_are_whole_grains_from_zero_or_from_the_watch(
        grain_ms in 1..9_i64,
        at_ms in 1..80_i64,
        watch in proptest::option::of((0..40_i64, 1..30_i64)),
    ) {
        let held = watch.map(|(from_ms, length_ms)| Held { from_ms, to_ms: from_ms + length_ms });
        let problem = problem(&[grain_ms], held);
        let can_end = |end_ms: &i64| {
            end_ms % grain_ms == 0 || held.is_some_and(|held| *end_ms >= held.to_ms && (end_ms - held.to_ms) % grain_ms == 0)
        };
        prop_assert_eq!(Some(problem.next_end(grain_ms, at_ms)), (at_ms..at_ms + grain_ms).find(can_end));
        prop_assert_eq!(Some(problem.end_before(grain_ms, at_ms)), (0..at_ms).rev().find(can_end));
    }
}
