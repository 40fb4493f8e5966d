//! Whole plans against DESIGN.md section 4, "Reserve and last spark", read word by word: each span is the first of
//! 0, 1, 2, ... that the obvious solver finds possible. Nothing is mirrored and nothing is bounded here.

use proptest::prelude::*;

use super::checker::wrong;
use super::property::{obvious, problems};
use super::shop::{after, chore, hands, room, shop};
use crate::estimate::History;
use crate::ids::RoomId;
use crate::ordered::Set;
use crate::plan::model::{Held, Problem};
use crate::plan::{HotWork, Impossible, Plan, Request, last_spark_at_worst, plan};
use crate::rulebook::{Chore, FireWatchRule, Gear, Rulebook};
use crate::time::{Instant, MINUTE_MS, Span};

const OUT_BY: Instant = Instant::from_ms(1_772_574_480_000);

/// The rulebook whose one room has the problem's tasks as chores, its lengths being minutes.
fn book(problem: &Problem, watch: FireWatchRule, floor_minutes: u32) -> Rulebook {
    let chores = problem.tasks.iter().enumerate().map(|(index, task)| {
        let first: Vec<String> = task.after.iter().map(|first| format!("c{first}")).collect();
        let first: Vec<&str> = first.iter().map(String::as_str).collect();
        let gear = (1..3).find(|&pool| task.amount(pool) > 0).map(|pool| format!("gear{pool}").as_str().into());
        let chore = after(hands(chore(&format!("c{index}"), task.length_ms), task.amount(0)), &first);
        Chore { gear, ..chore }
    });
    let mut book = shop(vec![room("bay", chores.collect())]);
    book.gear =
        (1..3).map(|pool| Gear { id: format!("gear{pool}").as_str().into(), count: problem.pools[pool] }).collect();
    book.fire_watch = watch;
    book.reserve.floor_minutes = floor_minutes;
    book
}

fn planned(problem: &Problem, book: &Rulebook, hot_work: HotWork, now: Instant) -> Plan {
    asked(problem, book, hot_work, now, plan)
}

fn asked<T>(
    problem: &Problem,
    book: &Rulebook,
    hot_work: HotWork,
    now: Instant,
    ask: impl FnOnce(&Request) -> Result<T, Impossible>,
) -> T {
    ask(&Request {
        book,
        room: &RoomId::from("bay"),
        out_by: OUT_BY,
        crew: problem.pools[0],
        last_out: false,
        hot_work,
        uses: &[],
        done: &Set::new(),
        now: Some(now),
        history: &History::new(),
    })
    .expect("possible")
}

/// The least span before out-by that all lie in, the watch being held from `from` to `to` minutes before it.
fn least_span(problem: &Problem, watch: Option<(i64, i64)>) -> i64 {
    let fits = |span: &i64| {
        let held = watch.and_then(|(from, to)| Held::after_zero(span - from, span - to));
        obvious(&problem.with_held(held)) <= *span
    };
    (0..1000).find(fits).expect("in the end")
}

/// The plan's steps as starts of tasks after the sweep's start, in milliseconds.
fn steps_wrong(problem: &Problem, plan: &Plan, exclusive: bool) -> Option<String> {
    let mut timed = problem.clone();
    timed.tasks.iter_mut().for_each(|task| task.length_ms *= MINUTE_MS);
    timed.held = plan
        .watch
        .filter(|_| exclusive)
        .and_then(|(from, to)| Held::after_zero((from - plan.sweep_from).ms(), (to - plan.sweep_from).ms()));
    let start = |index: usize| plan.steps.iter().find(|step| step.id.as_str() == format!("bay/c{index}"));
    let starts: Option<Vec<i64>> =
        (0..problem.tasks.len()).map(|index| Some((start(index)?.start - plan.sweep_from).ms())).collect();
    let late = plan.steps.iter().find(|step| step.end > plan.out_by).map(|step| format!("{} is late", step.id));
    late.or_else(|| starts.map_or(Some("a step is missing".to_owned()), |starts| wrong(&timed, &starts)))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn plans_are_what_the_design_says(
        drawn in problems(5),
        minutes in 0..25_i64,
        exclusive in any::<bool>(),
        floor in 0..15_i64,
        ended in 0..40_i64,
        since in 0..30_i64,
    ) {
        let problem = drawn.with_held(None);
        let watch = FireWatchRule { minutes: u32::try_from(minutes).expect("small"), exclusive };
        let book = book(&problem, watch, u32::try_from(floor).expect("small"));
        let before = |minutes: i64| OUT_BY - Span::from_minutes(minutes);
        let held = |from: i64, to: i64| Held::after_zero(from, to).filter(|_| exclusive);

        let plain = obvious(&problem);
        let now = before(100);
        let cold = planned(&problem, &book, HotWork::None, now);
        prop_assert_eq!((cold.last_spark, cold.sweep_from), (None, before(plain.max(floor))));
        prop_assert_eq!(cold.free_at, Some(now + Span::from_minutes(plain)));
        prop_assert_eq!(cold.from_now.iter().map(|step| step.end).max().unwrap_or(now), now + Span::from_minutes(plain));
        prop_assert_eq!(steps_wrong(&problem, &cold, exclusive), None);

        let whole = obvious(&problem.with_held(held(0, minutes))).max(minutes);
        let span = least_span(&problem, Some((whole, whole - minutes)).filter(|_| exclusive));
        let hot = planned(&problem, &book, HotWork::Coming, now);
        prop_assert_eq!(hot.sweep_from, before(span.max(floor)));
        prop_assert_eq!(hot.last_spark, Some(before(whole.max(span).max(floor))));
        prop_assert_eq!(hot.free_at, Some(now + Span::from_minutes(whole)));
        prop_assert_eq!(steps_wrong(&problem, &hot, exclusive), None);
        let worst = asked(&problem, &book, HotWork::Coming, now, last_spark_at_worst);
        prop_assert!(Some(worst) <= hot.last_spark, "{} is said to be the worst of {:?}", worst, hot.last_spark);

        let now = before(ended) + Span::from_minutes(since);
        let span = least_span(&problem, Some((ended, ended - minutes)).filter(|_| exclusive));
        let free = obvious(&problem.with_held(held(-since, minutes - since))).max(minutes - since);
        let over = planned(&problem, &book, HotWork::Ended(before(ended)), now);
        prop_assert_eq!((over.last_spark, over.sweep_from), (None, before(span.max(floor))));
        prop_assert_eq!(over.free_at, Some(now + Span::from_minutes(free)));
        prop_assert_eq!(steps_wrong(&problem, &over, exclusive), None);
        prop_assert!(cold.optimal && hot.optimal && over.optimal);
    }
}
