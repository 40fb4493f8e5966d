//! What was acknowledged is there after a restart, after a kill, and whole.

use std::process::Command;

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    a_restart_keeps_devices_sessions_and_the_log,
    a_kill_loses_nothing_that_was_acknowledged,
    the_demo_log_is_whole_and_there_once,
    a_shops_own_log_begins_empty_beside_the_demos,
}

fn a_restart_keeps_devices_sessions_and_the_log(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(7);
    phone.sync(&hub, &lines, 0);
    assert_eq!(hub.get("/api/health").status, 200);
    assert_eq!(hub.stop(), Some(0));

    let hub = place.hub();
    let answer = phone.sync(&hub, &[], 0);
    assert_eq!(answer.head, phone.head, "the session goes on, and so does the chain");
    phone.cookie.clear();
    assert_eq!(phone.sign_in(&hub).status, 204);
    let other = Phone::joined(2, "bo", &hub);
    assert_eq!(other.sync(&hub, &[], 0).pull, lines);
}

fn a_kill_loses_nothing_that_was_acknowledged(engine: Engine) {
    let place = Place::with(engine);
    let mut hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let mut lines = Vec::new();
    for _ in 0..6 {
        for _ in 0..5 {
            let line = phone.says_rounds(1);
            assert_eq!(phone.sync(&hub, &line, 0).head, phone.head);
            lines.extend(line);
        }
        hub.cut_off();
        hub = place.hub();
        assert_eq!(phone.sync(&hub, &[], 0).head, phone.head);
    }
    assert_eq!(hub.stop(), Some(0));
    assert_eq!(place.exported(), lines);
}

fn the_demo_log_is_whole_and_there_once(engine: Engine) {
    let place = Place::with(engine);
    let demo = |seed: &str| {
        let mut command = place.command();
        command.args(["--seed", seed]);
        crate::support::Hub::start(command)
    };
    assert_eq!(demo("5").stop(), Some(0));
    let lines = place.exported_with(&["--demo"]);
    assert!(lines.len() > 1_000, "{} lines", lines.len());
    assert_eq!(demo("6").stop(), Some(0));
    assert_eq!(place.exported_with(&["--demo"]), lines, "a second start adds nothing");

    place.write("log.jws", &lines.join("\n"));
    let mut verify = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
    let output = verify.arg("verify").arg(place.path("log.jws")).output().expect("it runs");
    let said: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!((&said["ok"], &said["entries"]), (&true.into(), &lines.len().into()), "{said}");

    let mut tampered = lines;
    tampered.remove(3);
    place.write("log.jws", &tampered.join("\n"));
    let mut verify = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
    let output = verify.arg("verify").arg(place.path("log.jws")).output().expect("it runs");
    assert_eq!(output.status.code(), Some(1), "a line that was taken out is seen");
}

/// A shop of one's own never meets the demo's entries, even in the same folder.
fn a_shops_own_log_begins_empty_beside_the_demos(engine: Engine) {
    let place = Place::with(engine);
    assert_eq!(crate::support::Hub::start(place.command()).stop(), Some(0));
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    assert_eq!(phone.sync(&hub, &[], 0).pull, Vec::<String>::new());
}
