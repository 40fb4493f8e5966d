//! The reserve and the watch of the demo shop against what the trade expects of them.
//!
//! About ten minutes of sweeping belong to every session, more after more: common practice, no source. A watch of at
//! least half an hour follows hot work: 29 CFR 1910.252(a)(2)(iii)(B).

use shared_core::estimate::History;
use shared_core::ordered::Set;
use shared_core::plan::{HotWork, Plan, Request, Use, plan};
use shared_core::rulebook::{Machine, Rulebook, parse};
use shared_core::time::{Instant, Span};

/// Common practice, no source: about ten minutes of sweeping belong to every session.
const FLOOR_MINUTES: i64 = 10;
/// Common practice, no source: one or two machines are swept by one person in well under half an hour.
const ONE_OR_TWO_MINUTES: i64 = 28;
/// 29 CFR 1910.252(a)(2)(iii)(B): at least half an hour after welding or cutting.
const WATCH_MINUTES: i64 = 30;

fn demo() -> Rulebook {
    let (book, problems) = parse::read(include_str!("../../hub/demo/shop.toml"));
    assert_eq!(problems, []);
    book.expect("a rulebook without a problem")
}

/// An hour at each machine, alone, and last one out.
fn alone(book: &Rulebook, machines: &[&Machine]) -> Plan {
    let uses: Vec<Use> =
        machines.iter().map(|machine| Use { machine: machine.id.clone(), used: Span::from_minutes(60) }).collect();
    let hot_work = if machines.iter().any(|machine| machine.hot_work) { HotWork::Coming } else { HotWork::None };
    plan(&Request {
        book,
        room: &machines[0].room,
        out_by: out_by(),
        crew: 1,
        last_out: true,
        hot_work,
        uses: &uses,
        done: &Set::new(),
        now: None,
        history: &History::new(),
    })
    .unwrap_or_else(|impossible| panic!("{impossible:?}"))
}

fn out_by() -> Instant {
    Instant::parse("2026-05-04T21:00:00Z").expect("a moment")
}

#[test]
fn a_session_keeps_about_ten_minutes_and_more_after_more() {
    let book = demo();
    for machine in &book.machines {
        let one = alone(&book, &[machine]);
        assert!(one.optimal, "{}", machine.id);
        assert!((FLOOR_MINUTES..=25).contains(&one.reserve_minutes), "{}: {}", machine.id, one.reserve_minutes);
        for other in book.machines.iter().filter(|other| other.room == machine.room && other.id > machine.id) {
            let two = alone(&book, &[machine, other]);
            assert!(two.reserve_minutes >= one.reserve_minutes, "{} and {}", machine.id, other.id);
            assert!(
                two.reserve_minutes <= ONE_OR_TWO_MINUTES,
                "{} and {}: {}",
                machine.id,
                other.id,
                two.reserve_minutes
            );
        }
    }
}

#[test]
fn half_an_hour_is_watched_after_the_last_spark() {
    let book = demo();
    for machine in &book.machines {
        let last_spark = alone(&book, &[machine]).last_spark;
        assert_eq!(last_spark.is_some(), machine.hot_work, "{}", machine.id);
        if let Some(last_spark) = last_spark {
            assert!(out_by() - last_spark >= Span::from_minutes(WATCH_MINUTES), "{}", machine.id);
        }
    }
}
