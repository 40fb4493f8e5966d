//! A rulebook in TOML: it gives a rulebook or problems, never both; what it gives can be planned with, and travels.

use serde_json::Value;
use shared_core::estimate::History;
use shared_core::json::FromJson as _;
use shared_core::ordered::Set;
use shared_core::plan::{HotWork, Request, Use, plan};
use shared_core::rulebook::{Rulebook, parse};
use shared_core::time::{Instant, Span};

/// A room of more chores is not planned here: a fuzzer has better use for its time than a hard plan.
const CHORES_MAX: usize = 7;
/// 2026-03-03T21:48:00Z, an arbitrary evening.
const OUT_BY: Instant = Instant::from_ms(1_772_574_480_000);

/// Holds of any bytes.
///
/// # Panics
///
/// If it does not.
pub fn holds(bytes: &[u8]) {
    let Ok(toml) = std::str::from_utf8(bytes) else { return };
    let (book, problems) = parse::read(toml);
    assert_eq!(book.is_none(), !problems.is_empty(), "a rulebook or problems: {problems:#?}");
    let lines = u32::try_from(toml.split('\n').count()).expect("few");
    for problem in &problems {
        assert!((1..=lines).contains(&problem.line) && problem.column >= 1, "nowhere in {lines} lines: {problem}");
        assert!(!problem.what.is_empty());
    }
    if let Some(book) = book {
        travels(&book);
        is_planned(&book);
    }
}

/// A phone reads from the shop's bundle the rulebook that the hub read from the file.
fn travels(book: &Rulebook) {
    let json = serde_json::to_string(book).expect("a rulebook is JSON");
    let value: Value = serde_json::from_str(&json).expect("and is read as such");
    assert_eq!(Rulebook::from_json(&value).as_ref(), Ok(book));
}

/// Every room is planned or refused, whatever the file says of its chores; the plan ends in time and starts no chore
/// before the sweep.
fn is_planned(book: &Rulebook) {
    for room in &book.rooms {
        let machines = book.machines.iter().filter(|machine| machine.room == room.id);
        let uses: Vec<_> =
            machines.clone().map(|one| Use { machine: one.id.clone(), used: Span::from_minutes(95) }).collect();
        if room.chores.len() + machines.map(|machine| machine.chores.len()).sum::<usize>() > CHORES_MAX {
            continue;
        }
        let request = Request {
            book,
            room: &room.id,
            out_by: OUT_BY,
            crew: 2,
            last_out: true,
            hot_work: HotWork::Coming,
            uses: &uses,
            done: &Set::new(),
            now: Some(OUT_BY - Span::from_minutes(100)),
            history: &History::new(),
        };
        let Ok(plan) = plan(&request) else { continue };
        assert!(plan.sweep_from <= OUT_BY && plan.last_spark.is_some_and(|last| last <= plan.sweep_from), "{plan:#?}");
        for step in &plan.steps {
            assert!(plan.sweep_from <= step.start && step.start <= step.end && step.end <= OUT_BY, "{plan:#?}");
        }
    }
}
