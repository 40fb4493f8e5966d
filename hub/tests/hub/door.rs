//! What the hub says at its start, for people and for scripts.

use std::io::{BufRead as _, BufReader, Read as _};
use std::process::{Command, Stdio};

use crate::support::{Hub, Place};

/// Starts a hub, waits for the code to scan, stops it, and gives everything it said.
fn said(mut command: Command) -> String {
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().expect("it starts");
    let mut out = BufReader::new(child.stdout.take().expect("piped"));
    let mut text = String::new();
    while !text.contains('\u{2588}') {
        assert_ne!(out.read_line(&mut text).expect("a line"), 0, "it ended early: {text}");
    }
    let asked = Command::new("kill").arg("-TERM").arg(child.id().to_string()).status().expect("kill runs");
    assert!(asked.success());
    out.read_to_string(&mut text).expect("text");
    child.wait().expect("gone");
    text
}

#[test]
fn the_address_the_code_and_every_door_are_said() {
    let place = Place::new();
    let mut command = place.command();
    command.arg("--shop").arg(place.path("shop.toml")).arg("--members").arg(place.path("members.toml"));
    command.args(["--public-url", "https://shop.example/", "--join-code", "abcd2345"]);
    let text = said(command);
    let lines: Vec<_> = text.lines().collect();
    assert!(lines[0].starts_with("listening on http://127.0.0.1:"), "{text}");
    assert_eq!(lines[1], "join code ABCD-2345");
    for door in ["North: https://shop.example/d/north", "South: https://shop.example/d/south"] {
        assert!(text.contains(door), "{text}");
    }
    assert!(text.contains('█') && text.contains('▀'), "a code to scan: {text}");
    assert!(!text.contains('\u{1b}'), "no colours when nobody looks: {text}");
}

#[test]
fn a_code_is_new_at_each_start() {
    let place = Place::new();
    let codes: Vec<_> = (0..2).map(|_| Hub::start(place.command()).code.clone()).collect();
    assert_ne!(codes[0], codes[1]);
    for code in codes {
        let plain = |c: char| c == '-' || (c.is_ascii_uppercase() && !"IO".contains(c)) || ('2'..='9').contains(&c);
        assert!(code.len() == 9 && code.chars().all(plain), "{code}");
    }
}
