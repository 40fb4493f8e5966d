//! Two processes of the hub on one PostgreSQL database: a phone may speak to either, and is told the same.

use serde_json::json;
use shared_core::sync::message::SyncAnswer;

use crate::rules::until;
use crate::support::{Engine, Hub, Phone, Place, Stream, tell_server};

#[test]
fn what_one_takes_the_other_tells() {
    let place = Place::with(Engine::Postgres);
    let (one, other) = (place.hub(), place.hub());
    let (mut ada, bo) = (Phone::joined(1, "ada", &one), Phone::joined(2, "bo", &other));
    let to_bo = Stream::open(&other, &bo.cookie);
    assert_eq!(to_bo.next().map(|(name, _)| name).as_deref(), Some("shop"));
    let lines = ada.says_rounds(2);
    ada.sync(&one, &lines, 0);
    assert_eq!(next_but_shop(&to_bo), ("log".into(), json!({ "cursor": 2 })), "a nudge from the other process");
    assert_eq!(bo.sync(&other, &[], 0).pull, lines);
    assert_eq!(bo.sync(&one, &[], 0).pull, lines, "its session is good at both");

    ada.post(&one, "/api/carry", &json!({ "to": "bo", "text": "ASK:1" }));
    assert_eq!(next_but_shop(&to_bo), ("carry".into(), json!({ "from": "ada", "text": "ASK:1" })));
    let carried = |hub: &Hub| bo.sync(hub, &[], 0).carried.len();
    assert_eq!((carried(&other), carried(&one), carried(&other)), (1, 0, 0), "once, wherever it is asked for");

    // Devices that joined at either are known at both, in the same order, under the same revision.
    let shop = |hub: &Hub| bo.ask(hub, "GET", "/api/shop", "").json();
    until(|| shop(&one)["rev"] == shop(&other)["rev"]);
    assert_eq!(shop(&one)["devices"], shop(&other)["devices"]);
    assert_eq!(shop(&one)["devices"].as_array().map(Vec::len), Some(2));
}

/// Whether the others joined before or after a stream was opened is chance; the revision may be told again.
fn next_but_shop(stream: &Stream) -> (String, serde_json::Value) {
    loop {
        let event = stream.next().expect("an event");
        if event.0 != "shop" {
            return event;
        }
    }
}

#[test]
fn a_challenge_of_one_is_good_at_the_other_and_once() {
    let place = Place::with(Engine::Postgres);
    let (one, other) = (place.hub(), place.hub());
    let ada = Phone::joined(1, "ada", &one);
    let given = one.post("/api/session/challenge", &json!({ "dev": ada.dev })).json();
    let challenge = given["challenge"].as_str().expect("a challenge");
    assert_eq!(ada.answer_challenge(&other, challenge).status, 204);
    for hub in [&one, &other] {
        assert_eq!(ada.answer_challenge(hub, challenge).problem(), "stale-challenge");
    }
}

#[test]
fn hubs_that_start_at_once_share_a_join_code_and_one_demo_log() {
    let place = Place::with(Engine::Postgres);
    let hubs: Vec<Hub> = std::thread::scope(|scope| {
        let starting: Vec<_> = (0..3).map(|_| scope.spawn(|| Hub::start(place.command()))).collect();
        starting.into_iter().map(|start| start.join().expect("it starts")).collect()
    });
    assert!(hubs.iter().all(|hub| hub.code() == hubs[0].code()), "one code for all");
    for hub in &hubs {
        let reply = hub.post("/api/join/check", &json!({ "code": hubs[0].code() }));
        assert_eq!(reply.status, 200, "{reply:?}");
    }
    let loaded = hubs.iter().filter(|hub| hub.logged().contains("the demo log is loaded")).count();
    assert_eq!(loaded, 1, "one of them wrote the demo log");
    assert_eq!(place.exported(), Vec::<String>::new(), "and not into a shop's own");
}

/// A one-time code made at one is good at the other, once; a phone that is taken off at one is refused at the other.
#[test]
fn a_code_is_used_up_and_a_phone_taken_off_everywhere() {
    let place = Place::with(Engine::Postgres);
    let (one, other) = (place.hub(), place.hub());
    let cy = Phone::joined(3, "cy", &one);
    let made = cy.post(&one, "/api/invites", &json!({ "member": "bo", "kind": "first" })).json();
    let code = made["code"].as_str().expect("a code");
    let mut bo = Phone::new(2, "bo");
    assert_eq!(bo.join(&other, code).status, 204);
    assert_eq!(Phone::new(4, "bo").join(&one, code).problem(), "invite-used");
    assert_eq!(bo.ask(&one, "GET", "/api/shop", "").status, 200);
    assert_eq!(cy.post(&one, "/api/devices/revoke", &json!({ "dev": bo.dev })).status, 204);
    for hub in [&other, &one] {
        assert_eq!(bo.ask(hub, "GET", "/api/shop", "").status, 401);
        assert_eq!(bo.sign_in(hub).problem(), "revoked");
    }
    // Cards are numbered in one order, whichever process makes them.
    let keys = |hub: &Hub| cy.ask(hub, "GET", "/api/shop", "").json()["keys"].clone();
    assert_eq!(keys(&one), keys(&other));
}

#[test]
fn one_is_killed_in_the_middle_and_nothing_is_lost_or_doubled() {
    let place = Place::with(Engine::Postgres);
    let (one, other) = (place.hub(), place.hub());
    let (mut ada, bo) = (Phone::joined(1, "ada", &one), Phone::joined(2, "bo", &other));
    let to_bo = Stream::open(&other, &bo.cookie);
    let lines = ada.says_rounds(400);
    let mut acknowledged = 0;
    std::thread::scope(|scope| {
        let pushing = scope.spawn(|| {
            let mut acknowledged = 0;
            for batch in lines.chunks(5) {
                let Some(reply) = ada.try_sync(&one, batch) else { break };
                acknowledged = SyncAnswer::read(&reply.text).expect("an answer").head.seq;
            }
            acknowledged
        });
        std::thread::sleep(std::time::Duration::from_millis(150));
        one.kill();
        acknowledged = pushing.join().expect("no panic");
    });
    assert!((1..400).contains(&acknowledged), "the kill came in the middle, after {acknowledged}");
    // Whatever was half done is undone; the phone goes on where the other hub says it is.
    let head = ada.sync(&other, &[], 0).head.seq;
    assert!(head >= acknowledged, "{head} of {acknowledged} acknowledged");
    let rest = &lines[usize::try_from(head).expect("few")..];
    for batch in rest.chunks(100) {
        ada.sync(&other, batch, 0);
    }
    assert_eq!(ada.sync(&other, &[], 0).head, ada.head);
    assert_eq!(place.exported(), lines);
    assert_eq!(next_but_shop(&to_bo).0, "log");
}

/// The server cuts every connection, as it does when it is restarted: requests go on, and streams are told to ask.
#[test]
fn connections_that_the_server_cuts_are_made_again() {
    let place = Place::with(Engine::Postgres);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let to_bo = Stream::open(&hub, &bo.cookie);
    assert_eq!(to_bo.next().map(|(name, _)| name).as_deref(), Some("shop"));
    let database = place.database.as_deref().expect("an address");
    tell_server(
        database,
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity
         WHERE datname = current_database() AND pid <> pg_backend_pid()",
    );
    assert_eq!(next_but_shop(&to_bo), ("log".into(), json!({})), "something may have been missed");
    let lines = ada.says_rounds(1);
    until(|| ada.try_sync(&hub, &lines).is_some_and(|reply| reply.status == 200));
    // It may have been told more than once that something may have been missed.
    let news = std::iter::repeat_with(|| next_but_shop(&to_bo)).find(|(_, data)| *data != json!({}));
    assert_eq!(news, Some(("log".into(), json!({ "cursor": 1 }))));
}
