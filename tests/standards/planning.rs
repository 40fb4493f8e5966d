//! The plan against an independent solver: cases drawn from a seed and solved by OR-tools CP-SAT, which was told the
//! definitions of DESIGN.md section 4 and shares no code with ours. How they were made: `data/plan-cp-sat/README.md`.
//!
//! Up to 12 chores every time must be the very same. Past that ours must never be better than the proven best, and what
//! it says it may lack must cover what it does lack.

use serde_json::Value;
use shared_core::estimate::History;
use shared_core::ordered::Set;
use shared_core::plan::{HotWork, Plan, Request, plan};
use shared_core::rulebook::{Rulebook, parse};
use shared_core::time::{Instant, Span};

const CASES: &str = include_str!("../data/plan-cp-sat/cases.jsonl");
const OUT_BY: Instant = Instant::from_ms(1_772_574_480_000);

fn number(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("{value} is not a whole number"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is not a list"))
}

/// The shop of a case, written as a steward would.
fn book(case: &Value) -> Rulebook {
    let mut lines = vec![
        "[shop]\nname = \"Drawn\"\ntime_zone = \"UTC\"\nsession_hours_max = 12".to_owned(),
        format!("[reserve]\nfloor_minutes = {}", case["floor"]),
        format!("[fire_watch]\nminutes = {}\nexclusive = {}", case["watch"], case["exclusive"]),
        "[[statement]]\nid = \"a\"\ntext = \"A.\"\ndecline = \"B.\"".to_owned(),
        "[[room]]\nid = \"bay\"\nname = \"Bay\"".to_owned(),
    ];
    for (index, chore) in list(&case["chores"]).iter().enumerate() {
        let after: Vec<String> = list(&chore[3]).iter().map(|first| format!("\"c{first}\"")).collect();
        lines.push(format!("[[room.chore]]\nid = \"c{index}\"\ntext = \"C.\"\nminutes = {}", chore[0]));
        lines.push(format!("hands = {}\nafter = [{}]", chore[1], after.join(", ")));
        if number(&chore[2]) >= 0 {
            lines.push(format!("gear = \"g{}\"", chore[2]));
        }
    }
    for (kind, count) in list(&case["gear"]).iter().enumerate() {
        lines.push(format!("[[gear]]\nid = \"g{kind}\"\ncount = {count}"));
    }
    let text = lines.join("\n");
    let (book, problems) = parse::read(&text);
    assert_eq!(problems, [], "{case}\n{text}");
    book.expect("a rulebook without problems")
}

fn before(ms: &Value) -> Instant {
    OUT_BY - Span::from_ms(number(ms))
}

fn planned(case: &Value) -> Plan {
    let hot_work = match case["hot"].as_str() {
        Some("coming") => HotWork::Coming,
        Some("ended") => HotWork::Ended(before(&case["ended_ms"])),
        _ => HotWork::None,
    };
    plan(&Request {
        book: &book(case),
        room: &"bay".into(),
        out_by: OUT_BY,
        crew: u32::try_from(number(&case["crew"])).expect("a small crew"),
        last_out: false,
        hot_work,
        uses: &[],
        done: &Set::new(),
        now: Some(before(&case["now_ms"])),
        history: &History::new(),
    })
    .unwrap_or_else(|why| panic!("{case}: {why}"))
}

#[test]
fn every_time_is_that_of_an_independent_solver() {
    let (mut exact, mut past, mut proven_past) = (0, 0, 0);
    for line in CASES.lines() {
        let case: Value = serde_json::from_str(line).expect("JSON");
        assert_eq!(case["status"], "optimal", "{line}");
        let plan = planned(&case);
        let floor_ms = number(&case["floor"]) * 60_000;
        let reserve_ms = number(&case["s"]).max(floor_ms);
        let spark_ms = case.get("m").map(|m| number(m).max(reserve_ms));
        let told = (
            (plan.out_by - plan.sweep_from).ms(),
            plan.last_spark.map(|at| (plan.out_by - at).ms()),
            plan.free_at.map(|at| (at - before(&case["now_ms"])).ms()),
        );
        let best = (reserve_ms, spark_ms, Some(number(&case["free"])));
        if list(&case["chores"]).len() <= 12 {
            assert_eq!((told, plan.optimal, plan.gap), (best, true, Span::ZERO), "{line}");
            exact += 1;
            continue;
        }
        past += 1;
        proven_past += usize::from(plan.optimal);
        // With a watch to come a later sweep may follow from an earlier spark; each of the others stands by itself.
        if case["hot"] != "coming" {
            assert!(
                best.0 <= told.0 && told.0 <= best.0 + plan.gap.ms(),
                "{told:?} for {best:?}, {:?}: {line}",
                plan.gap
            );
        }
        assert!(best.1 <= told.1 && told.1 <= best.1.map(|ms| ms + plan.gap.ms()), "{told:?} for {best:?}: {line}");
        assert!(best.2 <= told.2 && told.2 <= best.2.map(|ms| ms + plan.gap.ms()), "{told:?} for {best:?}: {line}");
    }
    println!(
        "plans against CP-SAT: {exact} equal to the millisecond, {past} past 12 chores, {proven_past} of them proven"
    );
    assert!(exact >= 500 && past >= 24, "{exact} and {past} cases");
}
