//! A lost phone: its place is taken, it is refused at once, and what it had not sent waits for a steward.

use serde_json::json;
use shared_core::ids::DeviceId;

use crate::support::{Engine, Hub, Phone, Place, Stream, on_both};

on_both! {
    a_phone_in_place_of_a_lost_one_takes_it_off,
    a_phone_that_was_taken_off_is_refused_at_once,
    anybody_takes_off_their_own_phones_and_a_steward_anybodys,
    what_it_had_not_sent_waits_for_a_steward,
    late_lines_are_bounded_and_signed,
}

fn is_off(hub: &Hub, dev: &DeviceId) -> bool {
    let (_, phones, said) = hub.steward(&["devices", "list"]);
    let phones = phones.as_array().unwrap_or_else(|| panic!("{said}")).clone();
    let phone = phones.iter().find(|phone| phone["device"] == dev.as_str()).expect("it joined");
    !phone["revoked"].is_null()
}

fn a_phone_in_place_of_a_lost_one_takes_it_off(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, mut old) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    let ask = json!({ "member": "ada", "kind": "replaces", "replaces": old.dev });
    let code = cy.post(&hub, "/api/invites", &ask).json()["code"].as_str().expect("a code").to_owned();
    let check = hub.post("/api/join/check", &json!({ "code": code })).json();
    assert_eq!(check["invite"], "replaces");
    assert!(!is_off(&hub, &old.dev), "until the new one has joined");
    assert_eq!(old.ask(&hub, "GET", "/api/shop", "").status, 200);
    let mut new = Phone::new(2, "ada");
    assert_eq!(new.join(&hub, &code).status, 204);
    assert!(is_off(&hub, &old.dev));
    assert_eq!(old.ask(&hub, "GET", "/api/shop", "").problem(), "revoked");
    let bundle = new.ask(&hub, "GET", "/api/shop", "").json();
    let devices = bundle["devices"].as_array().expect("devices");
    assert!(devices.iter().all(|device| device["dev"] != old.dev.as_str()), "{devices:?}");
    // Its key is burnt: not even a code brings it back.
    assert_eq!(old.join(&hub, &hub.invite("ada")).problem(), "revoked");
}

fn a_phone_that_was_taken_off_is_refused_at_once(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut bo = Phone::joined(2, "bo", &hub);
    let (stays, stream) = (Phone::joined(1, "ada", &hub), Stream::open(&hub, &bo.cookie));
    let said = bo.says_rounds(2);
    assert_eq!(bo.sync(&hub, &said, 0).head.seq, 2);
    // By another program, so that the hub hears of it from the store alone.
    let (code, _, said) = hub.steward(&["devices", "revoke", bo.dev.as_str()]);
    assert_eq!(code, Some(0), "{said}");
    let more = bo.says_rounds(1);
    for (method, path, body) in [
        ("GET", "/api/shop", String::new()),
        ("GET", "/api/live", String::new()),
        ("GET", "/api/devices", String::new()),
        ("POST", "/api/sync", json!({ "protocol": 1, "push": more }).to_string()),
        ("POST", "/api/carry", json!({ "to": "ada", "text": "hello" }).to_string()),
    ] {
        let reply = bo.ask(&hub, method, path, &body);
        assert_eq!((reply.status, reply.problem().as_str()), (401, "revoked"), "{method} {path}");
        assert!(!reply.header("www-authenticate").is_empty());
    }
    assert_eq!(bo.sign_in(&hub).problem(), "revoked");
    while stream.next().is_some() {}
    assert_eq!(place.exported().len(), 2, "what it said before it was taken off stays");
    assert_eq!(stays.ask(&hub, "GET", "/api/shop", "").status, 200);
}

fn anybody_takes_off_their_own_phones_and_a_steward_anybodys(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, ada) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    let (lost, bo) = (Phone::joined(4, "ada", &hub), Phone::joined(2, "bo", &hub));
    let off = |by: &Phone, dev: &DeviceId| by.post(&hub, "/api/devices/revoke", &json!({ "dev": dev }));
    assert_eq!(off(&ada, &bo.dev).problem(), "not-steward");
    assert_eq!(off(&ada, &ada.dev).problem(), "own-phone");
    assert_eq!(off(&ada, &"x".into()).problem(), "unknown-phone");
    let count = |by: &Phone| by.ask(&hub, "GET", "/api/devices", "").json()["devices"].as_array().map(Vec::len);
    assert_eq!((count(&ada), count(&cy)), (Some(2), Some(4)), "one's own, and all");
    assert_eq!(off(&ada, &lost.dev).status, 204);
    assert_eq!(off(&ada, &lost.dev).status, 204, "twice is no error");
    assert_eq!(off(&cy, &bo.dev).status, 204);
    assert!(is_off(&hub, &lost.dev) && is_off(&hub, &bo.dev) && !is_off(&hub, &ada.dev));
}

fn what_it_had_not_sent_waits_for_a_steward(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut bo, ada) = (Phone::joined(2, "bo", &hub), Phone::joined(1, "ada", &hub));
    let sent = bo.says_rounds(2);
    bo.sync(&hub, &sent, 0);
    let unsent = bo.says_rounds(3);
    let late = |lines: &[String]| hub.post("/api/late", &json!({ "lines": lines }));
    assert_eq!(late(&unsent).problem(), "still-joined", "the log is for phones that are on the list");
    assert_eq!(hub.steward(&["devices", "revoke", bo.dev.as_str()]).0, Some(0));
    for _ in 0..2 {
        assert_eq!(late(&unsent).json(), json!({ "waiting": 3 }), "twice is once");
    }
    assert_eq!(place.exported(), sent, "none of it counts yet");
    assert_eq!(ada.sync(&hub, &[], 0).pull, sent);
    let (_, phones, _) = hub.steward(&["devices", "list"]);
    let waiting = phones.as_array().and_then(|phones| phones.iter().find(|phone| phone["device"] == bo.dev.as_str()));
    assert_eq!(waiting.map(|phone| phone["late"].clone()), Some(json!(3)));

    let cursor = ada.sync(&hub, &[], 0).cursor;
    let (code, admitted, said) = hub.steward(&["devices", "admit", bo.dev.as_str()]);
    assert_eq!((code, admitted), (Some(0), json!({ "taken": 3, "refused": 0 })), "{said}");
    assert_eq!(ada.sync(&hub, &[], cursor).pull, unsent, "told to those who had read past the time of it");
    let all: Vec<String> = sent.into_iter().chain(unsent).collect();
    assert_eq!(place.exported(), all);
    assert_eq!(bo.ask(&hub, "GET", "/api/shop", "").problem(), "revoked", "the phone itself stays off");
    let (_, admitted, _) = hub.steward(&["devices", "admit", bo.dev.as_str()]);
    assert_eq!(admitted, json!({ "taken": 0, "refused": 0 }));
}

/// Whoever has a lost phone can sign what they like with it, and no more than fits.
fn late_lines_are_bounded_and_signed(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut bo, mut ada) = (Phone::joined(2, "bo", &hub), Phone::joined(1, "ada", &hub));
    assert_eq!(hub.steward(&["devices", "revoke", bo.dev.as_str()]).0, Some(0));
    let late = |lines: &[String]| hub.post("/api/late", &json!({ "lines": lines }));
    let (own, others) = (bo.says_rounds(200), ada.says_rounds(1));
    let mut tampered = own[0].clone();
    tampered.replace_range(40..41, if tampered.as_bytes()[40] == b'A' { "B" } else { "A" });
    let mut stranger = Phone::new(9, "bo");
    for (lines, problem) in [
        (vec![tampered], "bad-signature"),
        (vec![own[0].clone(), others[0].clone()], "unreadable"),
        (others, "still-joined"),
        (stranger.says_rounds(1), "unknown-phone"),
        (vec![], "unknown-phone"),
        (vec![own[0].clone(); 201], "unreadable"),
    ] {
        assert_eq!(late(&lines).problem(), problem, "{} lines", lines.len());
    }
    for n in 1..=10 {
        let lines = if n == 1 { own.clone() } else { bo.says_rounds(200) };
        assert_eq!(late(&lines).json(), json!({ "waiting": n * 200 }));
    }
    assert_eq!(late(&bo.says_rounds(1)).problem(), "too-much-late");
    // A second story of the same place does not follow, and is not taken.
    let (_, admitted, _) = hub.steward(&["devices", "admit", bo.dev.as_str()]);
    assert_eq!(admitted, json!({ "taken": 2000, "refused": 0 }));
    let mut fork = Phone::new(2, "bo");
    fork.session = shared_core::ids::SessionId::from_entropy([9; 8]);
    assert_eq!(late(&fork.says_rounds(2)).json(), json!({ "waiting": 2 }));
    let (_, admitted, _) = hub.steward(&["devices", "admit", bo.dev.as_str()]);
    assert_eq!(admitted, json!({ "taken": 0, "refused": 2 }));
}
