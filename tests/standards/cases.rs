//! Worked cases from outside: plans of an independent exact solver, logs judged by plain interval arithmetic.
//!
//! Asks the rules directly; that the command says the same is the hub's own test. Where a case has null, nothing is
//! claimed. Numbers agree to a thousandth.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use shared_core::estimate::History;
use shared_core::ids::{MachineId, RoomId};
use shared_core::log::wire;
use shared_core::ordered::Set;
use shared_core::plan::{HotWork, Request, Use, plan};
use shared_core::report::{Report, SessionReport, report};
use shared_core::rulebook::Rulebook;
use shared_core::state::State;
use shared_core::time::{Instant, Span};
use shared_core::trace::trace;

fn folders(kind: &str) -> Vec<PathBuf> {
    let cases = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/cases");
    let mut folders: Vec<PathBuf> = fs::read_dir(cases)
        .expect("the worked cases")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.file_name().is_some_and(|name| name.to_string_lossy().starts_with(kind)))
        .collect();
    folders.sort();
    assert!(folders.len() >= 3, "worked cases are missing");
    folders
}

fn text(folder: &Path, file: &str) -> String {
    fs::read_to_string(folder.join(file)).unwrap_or_else(|why| panic!("{}: {why}", folder.join(file).display()))
}

fn json_of(folder: &Path, file: &str) -> Value {
    serde_json::from_str(&text(folder, file)).expect(file)
}

fn book_of(folder: &Path) -> Rulebook {
    let (book, problems) = shared_core::rulebook::parse::read(&text(folder, "shop.toml"));
    assert_eq!(problems, [], "{}", folder.display());
    book.expect("a rulebook without problems")
}

fn string(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("{value} is not a string"))
}

fn instant(value: &Value) -> Instant {
    Instant::parse(string(value)).expect("RFC 3339")
}

#[test]
fn plans_equal_an_independent_solver() {
    for folder in folders("plan-") {
        let book = book_of(&folder);
        let asked = json_of(&folder, "plan.json");
        let uses: Vec<Use> = asked["uses"].as_array().expect("uses").iter().map(use_of).collect();
        let hot_work = match (&asked["hot_work_ended"], asked["hot_work"].as_bool()) {
            (Value::String(ended), _) => HotWork::Ended(Instant::parse(ended).expect("RFC 3339")),
            (_, Some(true)) => HotWork::Coming,
            _ => HotWork::None,
        };
        let answer = plan(&Request {
            book: &book,
            room: &RoomId::from(string(&asked["room"])),
            out_by: instant(&asked["out_by"]),
            crew: u32::try_from(asked["crew"].as_u64().expect("crew")).expect("a small crew"),
            last_out: asked["last_out"].as_bool().expect("last_out"),
            hot_work,
            uses: &uses,
            done: &Set::new(),
            now: None,
            history: &History::new(),
        })
        .expect("a plan");
        let told = json!({
            "sweep_from": answer.sweep_from, "first_bell": answer.first_bell, "last_spark": answer.last_spark,
            "reserve_minutes": answer.reserve_minutes, "out_by": answer.out_by,
        });
        agree(&told, &json_of(&folder, "expect.json"), &folder.display().to_string());
        assert!(answer.optimal);
    }
}

fn use_of(asked: &Value) -> Use {
    let minutes = asked["minutes"].as_f64().expect("minutes");
    #[expect(clippy::cast_possible_truncation, reason = "minutes of an evening")]
    let used = Span::from_ms((minutes * 60_000.0).round() as i64);
    Use { machine: MachineId::from(string(&asked["machine"])), used }
}

#[test]
fn logs_say_what_interval_arithmetic_says() {
    for folder in folders("log-") {
        let book = book_of(&folder);
        let log = text(&folder, "log.jsonl");
        let entries: Vec<_> =
            log.lines().filter(|line| !line.is_empty()).map(|line| wire::read_line(line).expect(line)).collect();
        let state = State::of(&entries);
        agree(
            &report_json(&report(&book, &state)),
            &json_of(&folder, "expect-replay.json"),
            &folder.display().to_string(),
        );
        for case in json_of(&folder, "expect-trace.json").as_array().expect("traces") {
            let machine = book.machine(&MachineId::from(string(&case["machine"]))).expect("a known machine");
            let answer = trace(&state, machine, instant(&case["seen"]));
            let windows: Vec<Value> = answer
                .windows
                .iter()
                .map(|w| json!({"session": w.session, "who": w.who, "from": w.from, "to": w.to}))
                .collect();
            let told = json!({
                "bracket": {"from": answer.from, "to": answer.to}, "windows": windows,
                "footage_minutes": answer.footage_minutes,
            });
            agree(&told, &case["answer"], &format!("{} {case}", folder.display()));
        }
    }
}

fn report_json(report: &Report) -> Value {
    let in_room: Vec<Value> = report.in_room.iter().map(|here| json!({"who": here.who, "room": here.room})).collect();
    let tagged: Vec<Value> = report.tagged_out.iter().map(|(machine, _)| json!({"machine": machine})).collect();
    let sessions: Vec<Value> = report.sessions.iter().map(session_json).collect();
    json!({"sessions": sessions, "in_room": in_room, "tagged_out": tagged})
}

fn session_json(session: &SessionReport) -> Value {
    let gaps: Vec<Value> =
        session.buddy_gaps.iter().map(|gap| json!({"machine": gap.machine, "from": gap.from, "to": gap.to})).collect();
    let watch = session.watch.map(|watch| {
        json!({
            "needed_until": watch.needed_until, "kept_until": watch.kept_until,
            "cut_short_minutes": watch.cut_short_minutes,
        })
    });
    let (noise, vibration) = (&session.noise, &session.vibration);
    json!({
        "session": session.session, "who": session.who, "room": session.room, "from": session.from, "to": session.to,
        "out_by": session.out_by, "sweep_from_actual": session.sweep_from_actual, "chores_done": session.chores_done,
        "chores_missing": session.chores_missing, "buddy_gaps": gaps, "watch": watch,
        "noise": {
            "osha_dose_pct": noise.osha_dose_pct, "osha_twa_dba": noise.osha_twa_dba,
            "niosh_dose_pct": noise.niosh_dose_pct, "lex_8h_dba": noise.lex_8h_dba,
        },
        "vibration": {"points": vibration.points, "a8_ms2": vibration.a8_ms2},
    })
}

/// Whether what is told agrees with what is expected wherever something is expected.
#[track_caller]
fn agree(told: &Value, expected: &Value, place: &str) {
    match expected {
        Value::Null if place.ends_with("chores_missing") || place.ends_with("chores_done") => {}
        Value::Object(fields) => {
            for (field, expected) in fields {
                agree(&told[field], expected, &format!("{place}: {field}"));
            }
        }
        Value::Array(items) => {
            let told = told.as_array().unwrap_or_else(|| panic!("{place}: {told} is no list"));
            assert_eq!(told.len(), items.len(), "{place}: {told:?}");
            for (index, (told, expected)) in told.iter().zip(items).enumerate() {
                agree(told, expected, &format!("{place}[{index}]"));
            }
        }
        Value::Number(number) => {
            let (told, expected) = (told.as_f64(), number.as_f64());
            let close = told.zip(expected).is_some_and(|(told, expected)| (told - expected).abs() < 1e-3);
            assert!(close, "{place}: {told:?} for {expected:?}");
        }
        expected => assert_eq!(told, expected, "{place}"),
    }
}
