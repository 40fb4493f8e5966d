//! One-time codes: who may make them, for what, until when, and what becomes of one that is over.

use serde_json::json;

use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both! {
    a_steward_makes_codes_and_nobody_else,
    a_code_that_is_over_says_so,
    what_cannot_be_asked_for_says_why,
    the_demo_has_a_code_for_everybody_and_a_shop_has_none,
}

fn a_steward_makes_codes_and_nobody_else(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, ada) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    let ask = json!({ "member": "bo", "kind": "first" });
    for (path, body) in [("/api/invites", &ask), ("/api/invites/revoke", &json!({ "id": 1 }))] {
        let reply = ada.post(&hub, path, body);
        assert_eq!((reply.status, reply.problem().as_str()), (403, "not-steward"), "{path}");
    }
    assert_eq!(ada.ask(&hub, "GET", "/api/invites", "").problem(), "not-steward");

    let made = cy.post(&hub, "/api/invites", &ask).json();
    let code = made["code"].as_str().expect("a code");
    assert_eq!(made["url"], format!("{}/join#{code}", hub.url));
    let listed = cy.ask(&hub, "GET", "/api/invites", "");
    let open = listed.json()["invites"].as_array().expect("a list").last().expect("one").clone();
    assert_eq!((&open["id"], &open["member"], &open["kind"]), (&made["id"], &"bo".into(), &"first".into()));
    assert!(!listed.text.contains(code), "it is told once");
    let mut bo = Phone::new(2, "bo");
    assert_eq!(bo.join(&hub, code).status, 204);
    let left = cy.ask(&hub, "GET", "/api/invites", "").json()["invites"].as_array().map(Vec::len);
    assert_eq!(left, Some(0), "those that were used are not open");
}

fn a_code_that_is_over_says_so(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let cy = Phone::joined(3, "cy", &hub);
    let made = cy.post(&hub, "/api/invites", &json!({ "member": "bo", "kind": "first" })).json();
    let code = made["code"].as_str().expect("a code");
    assert_eq!(cy.post(&hub, "/api/invites/revoke", &json!({ "id": made["id"] })).status, 204);
    assert_eq!(cy.post(&hub, "/api/invites/revoke", &json!({ "id": made["id"] })).problem(), "invite-over");
    assert_eq!(Phone::new(2, "bo").join(&hub, code).problem(), "invite-over");

    // One whose day is over. Another program turns the clock back for it.
    let late = hub.invite("bo");
    place.tell("UPDATE invite SET until_ms = made_ms + 1 WHERE revoked_ms IS NULL AND used_by IS NULL");
    let reply = Phone::new(2, "bo").join(&hub, &late);
    assert_eq!((reply.status, reply.problem().as_str()), (410, "invite-over"));
    let (_, open, _) = hub.steward(&["invite", "list"]);
    assert_eq!(open, json!([]));
    let (code, _, said) = hub.steward(&["invite", "revoke", "999"]);
    assert_eq!(code, Some(1), "{said}");
}

fn what_cannot_be_asked_for_says_why(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, ada) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    for (ask, status, problem) in [
        (json!({ "member": "dee", "kind": "first" }), 404, "unknown-member"),
        (json!({ "member": "ada", "kind": "first" }), 409, "no-invite"),
        (json!({ "member": "ada", "kind": "replaces" }), 409, "no-invite"),
        (json!({ "member": "bo", "kind": "replaces", "replaces": ada.dev }), 409, "no-invite"),
        (json!({ "member": "ada", "kind": "another", "replaces": ada.dev }), 409, "no-invite"),
        (json!({ "member": "ada", "kind": "another", "hours": 0 }), 409, "no-invite"),
        (json!({ "member": "ada", "kind": "another", "hours": 169 }), 409, "no-invite"),
        (json!({ "member": "ada", "kind": "other" }), 400, "unreadable"),
    ] {
        let reply = cy.post(&hub, "/api/invites", &ask);
        assert_eq!((reply.status, reply.problem().as_str()), (status, problem), "{ask}");
    }
    for (words, code) in [
        (&["invite", "make", "dee"][..], 1),
        (&["invite", "make", "ada"], 1),
        (&["invite", "make", "bo", "--another", "--in-place-of", "x"], 2),
        (&["invite", "make", "bo", "--in-place-of", "x"], 1),
        (&["devices", "revoke", "x"], 1),
        (&["devices", "admit", "x"], 1),
    ] {
        let (said, _, why) = hub.steward(words);
        assert_eq!(said, Some(code), "{words:?}: {why}");
        assert!(!why.is_empty());
    }
}

fn the_demo_has_a_code_for_everybody_and_a_shop_has_none(engine: Engine) {
    let place = Place::with(engine);
    let demo = Hub::start(place.command());
    let choices = demo.post("/api/join/check", &json!({ "code": demo.code() })).json();
    assert!(choices["members"].as_array().is_some_and(|members| members.len() > 5), "{choices}");
    assert_eq!(choices["invite"], json!(null));
    for (seed, member) in [(1, "noor"), (2, "ilse"), (3, "noor")] {
        assert_eq!(Phone::new(seed, member).join(&demo, demo.code()).status, 204, "again and again");
    }
    let shop = place.hub();
    assert_eq!(shop.post("/api/join/check", &json!({ "code": demo.code() })).problem(), "wrong-code");
    let mut refused = place.shop_command();
    refused.args(["--join-code", "ABCD-2345"]);
    let output = refused.output().expect("it runs");
    assert_eq!(output.status.code(), Some(2), "{}", String::from_utf8_lossy(&output.stderr));
}
