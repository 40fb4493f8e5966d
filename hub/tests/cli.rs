//! The `sweepbell` command against the worked cases and against bad input, through the real binary.
//!
//! An answer may say more than a case lists; numbers agree within a thousandth. DESIGN.md section 5.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

fn sweepbell<S: AsRef<OsStr>>(arguments: &[S]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sweepbell")).args(arguments).output().expect("the binary runs")
}

fn case(name: &str, file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/data/cases").join(name).join(file)
}

fn json(file: &Path) -> Value {
    serde_json::from_slice(&std::fs::read(file).expect("a case's file")).expect("JSON")
}

/// Runs a command that must be done, and gives its answer.
fn answer<S: AsRef<OsStr>>(arguments: &[S]) -> Value {
    let output = sweepbell(arguments);
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{told}");
    serde_json::from_slice(&output.stdout).expect("JSON on standard output")
}

/// Everything that is expected is there; what is expected null in `but` may be anything.
fn assert_says(said: &Value, expected: &Value, place: &str, but: &str) {
    match (said, expected) {
        (Value::Object(said), Value::Object(expected)) => {
            for (key, value) in expected {
                if key == but && value.is_null() {
                    continue;
                }
                let here = format!("{place}.{key}");
                assert_says(said.get(key).unwrap_or_else(|| panic!("{here} is missing")), value, &here, but);
            }
        }
        (Value::Array(said), Value::Array(expected)) => {
            assert_eq!(said.len(), expected.len(), "{place}: {said:?}");
            for (n, (said, expected)) in said.iter().zip(expected).enumerate() {
                assert_says(said, expected, &format!("{place}[{n}]"), but);
            }
        }
        (Value::Number(said), Value::Number(expected)) => {
            let apart = said.as_f64().expect("a number") - expected.as_f64().expect("a number");
            assert!(apart.abs() <= 1e-3, "{place}: {said}, expected {expected}");
        }
        _ => assert_eq!(said, expected, "{place}"),
    }
}

#[test]
fn plans_are_those_of_the_worked_cases() {
    for name in ["plan-1", "plan-2", "plan-3", "plan-4"] {
        let said = answer(&["plan".as_ref(), case(name, "shop.toml").as_os_str(), case(name, "plan.json").as_os_str()]);
        assert_says(&said, &json(&case(name, "expect.json")), name, "");
        let steps = said["steps"].as_array().expect("steps");
        assert!(steps.iter().all(|step| step["id"].as_str().is_some_and(|id| id.contains('/'))), "{name}: {steps:?}");
    }
}

#[test]
fn calibrate_says_how_often_the_reserve_was_enough() {
    let (shop, log) = (case("log-1", "shop.toml"), case("log-1", "log.jsonl"));
    let said = answer(&["calibrate".as_ref(), shop.as_os_str(), log.as_os_str()]);
    // Three of three: the exact interval's lower end is the cube root of 0.025.
    let sweeps = serde_json::json!({"within": 3, "of": 3, "share": 1.0, "low": 0.025_f64.cbrt(), "high": 1.0});
    assert_says(&said["sweeps"], &sweeps, "sweeps", "");
    let nothing = serde_json::json!({"machine": "n0", "within": 0, "of": 0, "share": null, "low": 0.0, "high": 1.0});
    assert_says(&said["machines"][0], &nothing, "machines[0]", "");
    // Nobody timed a chore there: nothing was learned, and there is no table to say so.
    assert_says(&said["learning"], &serde_json::json!([]), "learning", "");
}

/// What `export` writes can be asked like a log of bare entries.
#[test]
fn a_signed_log_is_read_like_a_bare_one() {
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/shop.toml");
    let log = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/data/golden/0.2-one-of-each.jws");
    let said = answer(&["replay".as_ref(), shop.as_os_str(), log.as_os_str()]);
    let session = serde_json::json!([{"who": "m1", "room": "fitting", "clock_jumped_seconds": -95}]);
    assert_says(&said["sessions"], &session, "sessions", "");
    let rounds = said["rounds"].as_array().expect("rounds");
    assert!(rounds.iter().all(|round| round["done_at"].is_null() && round["due"].is_null()), "{rounds:?}");
}

#[test]
fn a_plan_says_why_in_words_instead_of_json() {
    let (shop, plan) = (case("plan-2", "shop.toml"), case("plan-2", "plan.json"));
    let explain = ["plan".as_ref(), shop.as_os_str(), plan.as_os_str(), "--explain".as_ref()];
    let english: &[&str] = &[
        "Sweep from: 21:30\n",
        "  In all 14 min; no order is shorter.\n",
        "Last spark: 20:59\n",
        "  The watch takes one person 45 min.\n",
        "29 CFR 1910.252(a)(2)(iii)(B)",
        "\n\nTaken for granted:\n  Others are known in the room",
    ];
    let spanish: &[&str] = &["Barrer desde: 21:30\n", "Última chispa: 20:59\n", "29 CFR 1910.252(a)(2)(iii)(B)"];
    let dutch: &[&str] = &["Vegen vanaf: 21:30\n", "Laatste vonk: 20:59\n", "brandwacht vraagt één persoon 45 min"];
    for (language, parts) in [("", english), ("en", english), ("es", spanish), ("nl", dutch)] {
        let wanted = ["--language".as_ref(), language.as_ref()];
        let said = sweepbell(&if language.is_empty() { explain.to_vec() } else { [&explain[..], &wanted].concat() });
        let text = String::from_utf8(said.stdout).expect("text");
        let missing: Vec<_> = parts.iter().filter(|part| !text.contains(**part)).collect();
        assert!(missing.is_empty(), "{language}: {missing:?} in {text}");
        assert_eq!(said.status.code(), Some(0));
    }
}

#[test]
fn replays_are_those_of_the_worked_cases() {
    for name in ["log-1", "log-2", "log-3"] {
        let said =
            answer(&["replay".as_ref(), case(name, "shop.toml").as_os_str(), case(name, "log.jsonl").as_os_str()]);
        assert_says(&said, &json(&case(name, "expect-replay.json")), name, "chores_missing");
    }
}

#[test]
fn traces_are_those_of_the_worked_cases() {
    let mut asked = 0;
    for name in ["log-1", "log-2", "log-3"] {
        for question in json(&case(name, "expect-trace.json")).as_array().expect("questions") {
            let (machine, seen) =
                (question["machine"].as_str().expect("id"), question["seen"].as_str().expect("instant"));
            let said = answer(&[
                "trace".as_ref(),
                case(name, "shop.toml").as_os_str(),
                case(name, "log.jsonl").as_os_str(),
                "--machine".as_ref(),
                machine.as_ref(),
                "--seen".as_ref(),
                seen.as_ref(),
            ]);
            assert_says(&said, &question["answer"], &format!("{name}, {machine} at {seen}"), "");
            asked += 1;
        }
    }
    assert!(asked >= 10, "{asked} questions");
}

/// Arguments (files by their text), exit code, and what people are told.
#[test]
fn bad_input_is_refused_with_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).expect("written");
        path.display().to_string()
    };
    let shop = case("log-1", "shop.toml").display().to_string();
    let log = case("log-1", "log.jsonl").display().to_string();
    let zone = std::fs::read_to_string(&shop).expect("the case").replacen("\"UTC\"", "\"Mars/Base\"", 1);
    let (zone, misspelt) = (file("zone.toml", &zone), file("shop.toml", "[shop]\nnaem = \"Yard\"\n"));
    let plan = |more: &str| {
        format!(
            "{{\"room\":\"north\",\"out_by\":\"2026-01-01T20:00:00Z\",\"crew\":1,\"last_out\":false,\"hot_work\":false,\"uses\":[]{more}}}"
        )
    };
    let nowhere = file("nowhere.json", &plan("").replace("north", "attic"));
    let typo = file("typo.json", &plan(",\"hot_wrok_ended\":null"));
    let endless = file("endless.json", &plan("").replace("[]", "[{\"machine\":\"n0\",\"minutes\":1e12}]"));
    let broken = file("broken.jsonl", "{\"at\":\"2026-01-01T20:00:00Z\"\nhello\n");
    let unsigned = file("unsigned.jws", "a.b\n");
    for (arguments, code, told) in [
        (vec!["lint", &misspelt], 1, vec!["shop.toml:2:1: ", "name"]),
        (vec!["lint", &zone], 1, vec!["zone.toml:3:13: ", "Mars/Base"]),
        (vec!["plan", &zone, &typo], 1, vec!["zone.toml:3:13: "]),
        (vec!["plan", &shop, &nowhere], 1, vec!["nowhere.json:", "attic"]),
        (vec!["plan", &shop, &typo], 1, vec!["typo.json:1:", "hot_wrok_ended"]),
        (vec!["plan", &shop, &endless], 1, vec!["endless.json:", "n0"]),
        (vec!["replay", &shop, &broken], 1, vec!["broken.jsonl:1:", "broken.jsonl:2:"]),
        (vec!["trace", &shop, &log, "--machine", "no-such", "--seen", "2026-01-01T20:00:00Z"], 1, vec!["no-such"]),
        (vec!["trace", &shop, &log, "--machine", "n0", "--seen", "yesterday"], 2, vec!["RFC 3339"]),
        (vec!["verify", &unsigned], 1, vec!["unsigned.jws:1: "]),
        (vec!["lint", "no-such-file.toml"], 2, vec!["no-such-file.toml"]),
        (vec!["plan", &shop], 2, vec!["PLAN.json"]),
        (vec!["sweep"], 2, vec!["sweep"]),
        (vec![], 2, vec!["Usage"]),
        (vec!["serve", "--shop", &shop], 2, vec!["--members"]),
        (vec!["serve", "--join-code", "abc"], 2, vec!["--join-code"]),
        (vec!["serve", "--public-url", "shop.example"], 2, vec!["--public-url"]),
    ] {
        let output = sweepbell(&arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {said}");
        assert!(told.iter().all(|part| said.contains(part)), "{arguments:?}: {said}");
    }
}

#[test]
fn every_door_and_machine_has_its_sheet_to_print() {
    let shop = case("log-1", "shop.toml").display().to_string();
    let output = sweepbell(&["codes", &shop, "--public-url", "https://shop.example/"]);
    let page = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(0));
    for place in ["d/north", "d/south", "m/n0", "m/n1", "m/n2", "m/s0", "m/s1", "m/s2"] {
        assert!(page.contains(&format!("data-url=\"https://shop.example/{place}\"")), "{place}");
    }
    assert_eq!(page.matches("<svg").count(), 8);
    assert!(!page.contains("<script") && !page.contains("#j="), "no script, and no way to join");
    assert_eq!(sweepbell(&["codes", &shop, "--public-url", "shop.example"]).status.code(), Some(2));
}

#[test]
fn the_demo_shop_has_no_problem() {
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/shop.toml");
    assert_eq!(answer(&["lint".as_ref(), shop.as_os_str()])["problems"], serde_json::json!([]));
}
