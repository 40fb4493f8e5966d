//! The rulebook desk: what is wrong with a text, what it changes, publishing it, and two stewards at once.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde_json::{Value, json};
use shared_core::entry::Fact;
use shared_core::time::{Instant, Span};

use crate::rules::until;
use crate::support::{Engine, Phone, Place, now_ms, on_both};

on_both! {
    a_steward_reads_tries_and_publishes_and_nobody_else,
    of_two_edits_over_the_same_rules_the_second_is_told,
    a_machine_that_runs_is_not_taken_out_unseen,
    what_was_published_holds_after_a_restart_and_until_the_file_changes,
    while_rules_change_a_phone_that_joins_is_in_the_shop_that_it_reads_next,
}

/// Phones that join at the same time, and how many join one after the other.
const JOIN_AT_ONCE: usize = 4;
const JOIN_EACH: usize = 10;

fn publish(text: &str, over: &Value, anyway: bool) -> Value {
    json!({ "text": text, "over": over, "note": "tried", "anyway": anyway })
}

fn a_steward_reads_tries_and_publishes_and_nobody_else(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, ada) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    assert_eq!(ada.ask(&hub, "GET", "/api/rules", "").problem(), "not-steward");
    let held = cy.ask(&hub, "GET", "/api/rules", "").json();
    let text = held["text"].as_str().expect("the rulebook").to_owned();
    assert_eq!(text, place.read("shop.toml"));
    assert_eq!((&held["versions"], held["starts"].as_array().map(Vec::len)), (&json!([]), Some(3)));
    for (path, body) in
        [("/api/rules", publish(&text, &held["book"], false)), ("/api/rules/check", json!({ "text": text }))]
    {
        assert_eq!(ada.post(&hub, path, &body).problem(), "not-steward", "{path}");
    }

    let wrong = text.replacen("renew_minutes", "renew_mintues", 1);
    let found = cy.post(&hub, "/api/rules/check", &json!({ "text": wrong })).json();
    let first = &found["problems"][0];
    assert!(first["what"].as_str().is_some_and(|what| what.contains("renew_mintues")), "{found}");
    let line = (1..).zip(wrong.lines()).find(|(_, line)| line.contains("renew_mintues")).map(|(n, _)| n);
    assert_eq!(first["line"].as_i64(), line);
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&wrong, &held["book"], false)).problem(), "unfit-rules");

    let other = text.replacen("Case log 9001", "Canal Shed", 1);
    let found = cy.post(&hub, "/api/rules/check", &json!({ "text": other })).json();
    assert_eq!(found["problems"], json!([]));
    assert_eq!(found["changes"], json!(["shop, name: \"Canal Shed\", was \"Case log 9001\""]));
    let made = cy.post(&hub, "/api/rules", &publish(&other, &held["book"], false)).json();
    assert_eq!(made["number"], 1);
    let bundle = ada.ask(&hub, "GET", "/api/shop", "").json();
    assert_eq!((&bundle["rulebook"]["shop"]["name"], &bundle["book"]), (&json!("Canal Shed"), &made["book"]));

    // What was before is put back as one more.
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&text, &made["book"], false)).json()["number"], 2);
    let held = cy.ask(&hub, "GET", "/api/rules", "").json();
    assert_eq!(held["text"], json!(text));
    let numbers: Vec<_> =
        held["versions"].as_array().expect("a list").iter().map(|one| one["number"].clone()).collect();
    assert_eq!(numbers, [json!(2), json!(1)]);
    assert_eq!((&held["versions"][1]["by"], &held["versions"][1]["note"]), (&json!("cy"), &json!("tried")));
}

fn of_two_edits_over_the_same_rules_the_second_is_told(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let cy = Phone::joined(3, "cy", &hub);
    let held = cy.ask(&hub, "GET", "/api/rules", "").json();
    let text = held["text"].as_str().expect("the rulebook");
    let [one, other] = ["Shed one", "Shed two"].map(|name| text.replacen("Case log 9001", name, 1));
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&one, &held["book"], false)).status, 200);
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&other, &held["book"], false)).problem(), "rules-moved");
    assert_eq!(cy.ask(&hub, "GET", "/api/rules", "").json()["text"], json!(one));
}

fn a_machine_that_runs_is_not_taken_out_unseen(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, mut ada) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub));
    let held = cy.ask(&hub, "GET", "/api/rules", "").json();
    let text = held["text"].as_str().expect("the rulebook").to_owned();
    let bundle = cy.ask(&hub, "GET", "/api/shop", "").json();
    let machine = bundle["rulebook"]["machines"][0].clone();
    let (id, room) = (machine["id"].as_str().expect("an id"), machine["room"].as_str().expect("a room"));
    let out_by = Instant::from_ms(now_ms()) + Span::from_minutes(60);
    let begun = [
        ada.says(Fact::Entered { room: room.into(), out_by }),
        ada.says(Fact::MachineStarted { machine: id.into(), material: None }),
    ];
    ada.sync(&hub, &begun, 0);
    // Every mention, so that nothing points to a machine that is not there.
    let without = text.replace(&format!("\"{id}\""), &format!("\"{id}-new\""));
    let found = cy.post(&hub, "/api/rules/check", &json!({ "text": without })).json();
    assert_eq!((&found["problems"], &found["orphans"]), (&json!([]), &json!([id])));
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&without, &held["book"], false)).problem(), "orphaned-machine");
    let stopped = ada.says(Fact::MachineStopped { machine: id.into() });
    ada.sync(&hub, &[stopped], 0);
    let found = cy.post(&hub, "/api/rules/check", &json!({ "text": without })).json();
    assert_eq!(found["orphans"], json!([]));
    let again = ada.says(Fact::MachineStarted { machine: id.into(), material: None });
    ada.sync(&hub, &[again], 0);
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&without, &held["book"], true)).status, 200, "whoever knows may");
}

fn what_was_published_holds_after_a_restart_and_until_the_file_changes(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let cy = Phone::joined(3, "cy", &hub);
    let held = cy.ask(&hub, "GET", "/api/rules", "").json();
    let text = held["text"].as_str().expect("the rulebook");
    let shed = text.replacen("Case log 9001", "Canal Shed", 1);
    assert_eq!(cy.post(&hub, "/api/rules", &publish(&shed, &held["book"], false)).status, 200);
    assert_eq!(hub.stop(), Some(0));
    let hub = place.hub();
    let mut cy = cy;
    cy.sign_in(&hub);
    let name = |hub: &_| cy.ask(hub, "GET", "/api/shop", "").json()["rulebook"]["shop"]["name"].clone();
    assert_eq!(name(&hub), json!("Canal Shed"));
    place.write("shop.toml", &text.replacen("Case log 9001", "Canal File", 1));
    until(|| name(&hub) == json!("Canal File"));
}

fn while_rules_change_a_phone_that_joins_is_in_the_shop_that_it_reads_next(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let desks = [201, 202, 203].map(|seed| Phone::joined(seed, "cy", &hub));
    let codes: Vec<_> = (0..JOIN_AT_ONCE * JOIN_EACH).map(|_| hub.invite("ada")).collect();
    let published = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        let (hub, published) = (&hub, &published);
        // Held by each that joins, however it ends.
        let joining = Arc::new(());
        for (codes, first) in codes.chunks(JOIN_EACH).zip((1..).step_by(JOIN_EACH)) {
            let joins = Arc::clone(&joining);
            scope.spawn(move || {
                let missing = codes.iter().zip(first..).find_map(|(code, seed)| {
                    let mut phone = Phone::new(seed, "ada");
                    phone.join(hub, code);
                    let shop = phone.ask(hub, "GET", "/api/shop", "").json();
                    (!shop["devices"].to_string().contains(phone.dev.as_str())).then_some(shop)
                });
                drop(joins);
                assert_eq!(missing, None, "who has joined is in it");
            });
        }
        for desk in &desks {
            let joining = Arc::downgrade(&joining);
            scope.spawn(move || {
                for n in 0.. {
                    if joining.strong_count() == 0 {
                        break;
                    }
                    let held = desk.ask(hub, "GET", "/api/rules", "").json();
                    let text = held["text"].as_str().expect("the rulebook");
                    let next = format!("{text}# {n}\n");
                    // Another desk may have been faster.
                    let answer = desk.post(hub, "/api/rules", &publish(&next, &held["book"], false));
                    published.fetch_add(usize::from(answer.status == 200), Ordering::Relaxed);
                }
            });
        }
    });
    assert!(published.into_inner() > JOIN_EACH, "rules changed all the while");
}
