//! Worked plans: the four cases handed out with DESIGN.md section 5 (answers of an independent exact solver), and
//! cases worked by hand from section 4.

use super::shop::{after, chore, growing, hands, last_out, machine, room, shop, vac};
use crate::estimate::History;
use crate::ids::{ChoreId, RoomId};
use crate::ordered::{Map, Set};
use crate::plan::{Bound, HotWork, Impossible, Plan, Request, Use, last_spark_at_worst, plan};
use crate::rulebook::{Chore, FireWatchRule, Gear, Machine, Rulebook};
use crate::time::{Instant, Span};

/// All that a case may vary.
struct Case {
    book: Rulebook,
    out_by: &'static str,
    crew: u32,
    last_out: bool,
    hot_work: HotWork,
    uses: &'static [(&'static str, i64)],
    done: &'static [&'static str],
    now: Option<&'static str>,
    history: History,
}

impl Case {
    fn plan(&self) -> Result<Plan, Impossible> {
        self.ask(plan)
    }

    fn ask<T>(&self, ask: impl FnOnce(&Request) -> Result<T, Impossible>) -> Result<T, Impossible> {
        let spent =
            |&(machine, minutes): &(&str, i64)| Use { machine: machine.into(), used: Span::from_minutes(minutes) };
        let uses: Vec<Use> = self.uses.iter().map(spent).collect();
        let done: Set<ChoreId> = self.done.iter().copied().map(ChoreId::from).collect();
        ask(&Request {
            book: &self.book,
            room: &RoomId::from("bay"),
            out_by: at(self.out_by),
            crew: self.crew,
            last_out: self.last_out,
            hot_work: self.hot_work,
            uses: &uses,
            done: &done,
            now: self.now.map(at),
            history: &self.history,
        })
    }

    /// Last spark, sweep from, free at (`-` for none), reserve in minutes.
    fn check(&self, want: &str) {
        let plan = self.plan().expect("a case that can be planned");
        let clock = |at: Option<Instant>| at.map_or("-".to_owned(), |at| at.to_string()[11..].replace(":00Z", ""));
        let (spark, sweep, free) = (clock(plan.last_spark), clock(Some(plan.sweep_from)), clock(plan.free_at));
        assert_eq!(format!("{spark} {sweep} {free} {}", plan.reserve_minutes), want, "{plan:#?}");
        assert_eq!(plan.first_bell, plan.sweep_from - Span::from_minutes(10));
        assert!(plan.optimal && plan.gap == Span::ZERO);
        assert!(plan.steps.is_sorted_by_key(|step| step.start));
        assert!(plan.steps.iter().all(|step| step.start >= plan.sweep_from && step.end <= plan.out_by), "{plan:#?}");
        assert_eq!(self.plan().as_ref(), Ok(&plan), "the same request gives the same plan");
    }
}

fn at(clock: &str) -> Instant {
    Instant::parse(&format!("2026-03-03T{clock}Z")).expect("a time of day")
}

fn case(machines: Vec<Machine>, chores: Vec<Chore>) -> Case {
    Case {
        book: Rulebook { machines, ..shop(vec![room("bay", chores)]) },
        out_by: "22:00:00",
        crew: 1,
        last_out: false,
        hot_work: HotWork::None,
        uses: &[],
        done: &[],
        now: None,
        history: History::new(),
    }
}

/// DESIGN.md section 5, worked case plan-1.
#[test]
fn worked_case_1_a_watch_that_holds_nobody() {
    let m0 = vec![hands(growing(chore("c0", 7), 1_500, 10), 0), growing(chore("c1", 2), 1_500, 10)];
    let machines =
        vec![machine("m0", m0), machine("m1", vec![growing(chore("c0", 4), 7_000, 7)]), machine("m2", vec![])];
    let room = vec![
        vac(last_out(hands(chore("r0", 8), 0))),
        last_out(chore("r1", 8)),
        after(hands(chore("r2", 11), 0), &["machines"]),
    ];
    let mut case = Case {
        out_by: "21:44:00",
        crew: 3,
        hot_work: HotWork::Coming,
        uses: &[("m0", 0), ("m1", 150), ("m2", 60)],
        ..case(machines, room)
    };
    case.book.reserve.floor_minutes = 10;
    case.book.gear = vec![Gear { id: "vac".into(), count: 2 }];
    case.book.fire_watch = FireWatchRule { minutes: 60, exclusive: false };
    case.check("20:44 21:26 - 18");
}

/// DESIGN.md section 5, worked case plan-2.
#[test]
fn worked_case_2_a_watch_that_holds_one_of_three() {
    let machines = vec![machine("m0", vec![vac(hands(growing(chore("c0", 4), 7_000, 4), 0))])];
    let room = vec![chore("r0", 8), last_out(chore("r1", 6)), after(chore("r2", 10), &["machines"])];
    let mut case =
        Case { out_by: "21:44:00", crew: 3, hot_work: HotWork::Coming, uses: &[("m0", 60)], ..case(machines, room) };
    case.book.gear = vec![Gear { id: "vac".into(), count: 2 }];
    case.check("20:59 21:30 - 14");
}

/// DESIGN.md section 5, worked case plan-3.
#[test]
fn worked_case_3_one_vacuum_for_all() {
    let m1 = vec![vac(growing(chore("c0", 1), 4_000, 4)), vac(after(growing(chore("c1", 10), 7_000, 13), &["c0"]))];
    let machines = vec![machine("m0", vec![vac(growing(chore("c0", 6), 0, 6))]), machine("m1", m1)];
    let room = vec![last_out(hands(chore("r0", 3), 2)), last_out(after(hands(chore("r1", 4), 2), &["machines"]))];
    Case { out_by: "21:50:00", crew: 3, uses: &[("m0", 95), ("m1", 25)], ..case(machines, room) }.check("- 21:28 - 22");
}

/// DESIGN.md section 5, worked case plan-4.
#[test]
fn worked_case_4_the_sweep_ends_inside_the_watch() {
    let m0 = vec![
        growing(chore("c0", 10), 1_500, 10),
        after(growing(chore("c1", 4), 4_000, 7), &["c0"]),
        growing(chore("c2", 8), 4_000, 8),
    ];
    let case = Case {
        out_by: "22:08:00",
        crew: 3,
        hot_work: HotWork::Coming,
        uses: &[("m0", 10)],
        ..case(vec![machine("m0", m0)], vec![last_out(vac(hands(chore("r0", 2), 0)))])
    };
    case.check("21:23 21:53 - 15");
}

/// DESIGN.md section 4, "Reserve and last spark"; each line worked by hand.
#[test]
fn cases_worked_by_hand() {
    let two = || vec![chore("a", 8), chore("b", 12)];
    let watch = |minutes, exclusive| FireWatchRule { minutes, exclusive };
    let hot = |hot_work, rule, crew, now| {
        let mut hot = Case { crew, hot_work, now, ..case(vec![], two()) };
        hot.book.fire_watch = rule;
        hot
    };
    let cold = |crew, now| Case { crew, now, ..case(vec![], two()) };
    cold(1, Some("21:00:30")).check("- 21:40 21:20:30Z 20");
    cold(2, None).check("- 21:48 - 12");
    // Nothing to do: the floor.
    Case { done: &["bay/a", "bay/b"], now: Some("21:00:00"), ..cold(1, None) }.check("- 21:55 21:00 5");
    // The only person watches first, then sweeps.
    hot(HotWork::Coming, watch(30, true), 1, Some("20:00:00")).check("21:10 21:40 20:50 20");
    // One watches, one sweeps.
    hot(HotWork::Coming, watch(30, true), 2, Some("20:00:00")).check("21:30 21:40 20:30 20");
    // 12 beside a watch of 10, then 8: 18 in all. Fixed at 21:42 the watch is over at 21:52, in time for the 8 that
    // end at 22:00 beside the 12: the sweep needs no more than 12.
    hot(HotWork::Coming, watch(10, true), 2, Some("20:00:00")).check("21:42 21:48 20:18 12");
    // Nobody is held; the watch alone must be over.
    hot(HotWork::Coming, watch(30, false), 2, Some("20:00:00")).check("21:30 21:48 20:30 12");
    // A watch shorter than the floor moves up to it.
    let mut floor = hot(HotWork::Coming, watch(3, true), 3, None);
    floor.book.reserve.floor_minutes = 25;
    floor.check("21:35 21:35 - 25");
    let bound = |case: &Case| case.plan().map(|plan| (plan.bound, plan.bound_span));
    assert_eq!(bound(&floor), Ok((Bound::CriticalPath, Span::from_minutes(12))));
    // One that lasts longer than all else is what holds it back.
    floor.book.fire_watch = watch(20, true);
    assert_eq!(bound(&floor), Ok((Bound::Watch, Span::from_minutes(20))));
    // The watch ended long ago.
    hot(HotWork::Ended(at("20:00:00")), watch(30, true), 1, Some("21:00:00")).check("- 21:40 21:20 20");
    // The watch runs until 21:55: 8 would not fit after it, so one chore ends before the watch begins at 21:45.
    hot(HotWork::Ended(at("21:45:00")), watch(10, true), 1, Some("21:45:00")).check("- 21:25 22:15 35");
    // Nobody is free before the watch is over, though two others sweep.
    hot(HotWork::Ended(at("21:30:15")), watch(30, true), 3, Some("21:31:00")).check("- 21:48 22:00:15Z 12");
    // Even a watch that holds nobody must be kept.
    hot(HotWork::Ended(at("21:00:00")), watch(60, false), 2, Some("21:10:00")).check("- 21:48 22:00 12");
}

#[test]
fn the_same_machine_twice_adds_up_and_history_counts() {
    let machines = || vec![machine("saw", vec![growing(chore("chips", 2), 6_000, 30)])];
    let twice = Case { uses: &[("saw", 30), ("saw", 60)], ..case(machines(), vec![]) };
    twice.check("- 21:49 - 11");
    // Five elevens and a forty, place 4.0: the last eleven. Five forties: place 7.2 of 0..=9.
    let seen = |times: usize| Map::from([(ChoreId::from("saw/chips"), vec![40.0; times])]);
    Case { history: seen(1), uses: &[("saw", 90)], ..case(machines(), vec![]) }.check("- 21:49 - 11");
    Case { history: seen(5), uses: &[("saw", 90)], ..case(machines(), vec![]) }.check("- 21:20 - 40");
}

#[test]
fn the_watch_of_the_plan_and_the_steps_agree() {
    let mut hot = Case { hot_work: HotWork::Coming, crew: 1, ..case(vec![], vec![chore("a", 8), chore("b", 12)]) };
    hot.book.fire_watch = FireWatchRule { minutes: 30, exclusive: true };
    let plan = hot.plan().expect("possible");
    assert_eq!(plan.watch, Some((at("21:10:00"), at("21:40:00"))));
    assert_eq!(plan.steps[0].start, at("21:40:00"));
    hot.hot_work = HotWork::Ended(at("21:45:00"));
    assert_eq!(hot.plan().expect("possible").watch, Some((at("21:45:00"), at("22:15:00"))));
    hot.hot_work = HotWork::None;
    assert_eq!(hot.plan().expect("possible").watch, None);
}

#[test]
fn what_cannot_be_planned_names_the_chore() {
    let check = |case: Case, want: &str| {
        assert_eq!(case.plan().map_err(|why| why.to_string()), Err(want.to_owned()));
    };
    check(case(vec![], vec![hands(chore("a", 1), 2)]), "`bay/a` takes 2 people at once, and there are 1");
    check(Case { crew: 0, ..case(vec![], vec![]) }, "nobody is there to close down: the crew is 0");
    check(Case { uses: &[("nil", 1)], ..case(vec![], vec![]) }, "there is no machine `nil` in the rulebook");
    let ring = vec![after(chore("a", 1), &["b"]), after(chore("b", 1), &["bay/c"]), after(chore("c", 1), &["b"])];
    check(case(vec![], ring.clone()), "`bay/b` waits, by way of other chores, for itself");
    // Who only waits for a ring is not named: one of the ring is.
    let beside =
        vec![after(chore("a", 1), &["d"]), chore("b", 1), after(chore("c", 1), &["d"]), after(chore("d", 1), &["c"])];
    check(case(vec![], beside), "`bay/c` waits, by way of other chores, for itself");
    assert!(Case { done: &["bay/b"], ..case(vec![], ring) }.plan().is_ok(), "a ring that is cut is none");
    let mut none = case(vec![], vec![vac(chore("a", 1))]);
    none.book.gear[0].count = 0;
    check(none, "`bay/a` needs `vac`, and the shop has none");
    let mut elsewhere = case(vec![], vec![]);
    elsewhere.book.rooms[0].id = "attic".into();
    check(elsewhere, "there is no room `bay` in the rulebook");
}

#[test]
fn machines_means_the_chores_of_machines_alone_and_what_is_not_owed_is_met() {
    let machines = || vec![machine("saw", vec![after(chore("chips", 3), &["mill/chips", "never"])])];
    let chores = vec![after(chore("floor", 4), &["machines"]), after(chore("lights", 1), &["floor", "sign"])];
    let plan = Case { crew: 9, uses: &[("saw", 0)], ..case(machines(), chores) }.plan().expect("possible");
    let ids: Vec<&str> = plan.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!((ids, plan.reserve_minutes), (vec!["saw/chips", "bay/floor", "bay/lights"], 8));
}

/// The watch, then all one after the other: 30 and 20, or the floor.
#[test]
fn the_worst_last_spark_costs_no_solving() {
    let mut hot = Case { hot_work: HotWork::Coming, crew: 9, ..case(vec![], vec![chore("a", 8), chore("b", 12)]) };
    hot.book.fire_watch = FireWatchRule { minutes: 30, exclusive: true };
    assert_eq!(hot.ask(last_spark_at_worst), Ok(at("21:10:00")));
    assert_eq!(Case { done: &["bay/b"], ..hot }.ask(last_spark_at_worst), Ok(at("21:22:00")));
    let mut floor = Case { hot_work: HotWork::Coming, ..case(vec![], vec![chore("a", 8)]) };
    floor.book.fire_watch = FireWatchRule { minutes: 30, exclusive: true };
    floor.book.reserve.floor_minutes = 45;
    assert_eq!(floor.ask(last_spark_at_worst), Ok(at("21:15:00")));
}
