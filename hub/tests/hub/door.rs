//! What the hub says at its start, for people and for scripts.

use std::io::{BufRead as _, BufReader, Read as _};
use std::process::{Command, Stdio};

use crate::support::{Hub, Phone, Place};

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
fn the_address_the_first_code_and_every_door_are_said() {
    let place = Place::new();
    let mut command = place.shop_command();
    command.args(["--public-url", "https://shop.example/"]);
    let text = said(command);
    let lines: Vec<_> = text.lines().collect();
    assert!(lines[0].starts_with("listening on http://127.0.0.1:"), "{text}");
    assert!(lines[1].starts_with("invite code ") && lines[1].contains(" for Cy, good once and until "), "{text}");
    for door in ["North: https://shop.example/d/north", "South: https://shop.example/d/south"] {
        assert!(text.contains(door), "{text}");
    }
    assert!(text.contains('█') && text.contains('▀'), "a code to scan: {text}");
    assert!(!text.contains('\u{1b}'), "no colours when nobody looks: {text}");
}

/// The demo's code is its store's own; a shop's codes are new, and there is none once a steward has joined.
#[test]
fn who_joins_how_is_said_at_each_start() {
    let place = Place::new();
    let demo = |place: &Place| Hub::start(place.command()).code().to_owned();
    let (one, again, other) = (demo(&place), demo(&place), demo(&Place::new()));
    assert_eq!(one, again);
    assert_ne!(one, other);
    let first = |hub: &Hub| hub.way.split_whitespace().nth(2).expect("a code").to_owned();
    let (one, two) = (first(&place.hub()), first(&place.hub()));
    assert_ne!(one, two);
    for code in [other, one.clone(), two] {
        let plain = |c: char| c == '-' || (c.is_ascii_uppercase() && !"IO".contains(c)) || ('2'..='9').contains(&c);
        assert!(code.len() == 11 && code.chars().all(plain), "{code}");
    }
    let hub = place.hub();
    assert_eq!(Phone::new(9, "cy").join(&hub, &one).status, 204, "a code lives on when the hub is started again");
    assert_eq!(hub.stop(), Some(0));
    assert_eq!(place.hub().way, "no invite: a steward has joined");
    let members = place.read("members.toml").replace("steward = true", "");
    place.write("members.toml", &members);
    assert_eq!(place.hub().way, "no invite: nobody in the members file is a steward");
}
