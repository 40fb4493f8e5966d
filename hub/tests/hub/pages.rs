//! What many ask for at once is read once, and nobody is handed by that what they would not be handed alone.

use serde_json::{Value, json};
use shared_core::entry::{Fact, Told};
use shared_core::sync::message::{SyncAnswer, SyncRequest};

use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both! {
    all_who_ask_for_a_stretch_are_handed_the_same_but_their_own_lines,
    a_steward_and_a_member_are_handed_what_is_theirs,
    what_was_erased_is_not_handed_to_who_asks_next,
    what_came_in_since_is_handed_out_too,
    a_phone_that_has_heard_all_hears_of_what_waits_for_it,
}

fn asking(since: u64, forgot: u64) -> SyncRequest {
    SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since, forgot, heard_to: 0, apart: false }
}

fn pull(phone: &Phone, hub: &Hub, after: &SyncAnswer) -> SyncAnswer {
    phone.sync_with(hub, &asking(after.cursor, after.forgot))
}

/// Everybody has heard of everything.
fn caught_up<const N: usize>(phones: [&Phone; N], hub: &Hub) -> [SyncAnswer; N] {
    phones.map(|phone| phone.sync(hub, &[], 0))
}

fn all_who_ask_for_a_stretch_are_handed_the_same_but_their_own_lines(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let tablet = Phone::joined(3, "ada", &hub);
    let [of_ada, of_bo, of_tablet] = caught_up([&ada, &bo, &tablet], &hub);
    let lines = ada.says_rounds(12);
    ada.sync(&hub, &lines, of_ada.cursor);
    for _ in 0..2 {
        assert_eq!(pull(&tablet, &hub, &of_tablet).pull, lines);
        assert_eq!(pull(&bo, &hub, &of_bo).pull, lines);
        assert_eq!(pull(&ada, &hub, &of_ada).pull, Vec::<String>::new(), "nobody is handed their own");
    }
    let more = bo.says_rounds(2);
    bo.sync(&hub, &more, of_bo.cursor);
    assert_eq!(pull(&tablet, &hub, &of_tablet).pull, [lines.clone(), more.clone()].concat());
    assert_eq!(pull(&ada, &hub, &of_ada).pull, more);
    assert_eq!(pull(&bo, &hub, &of_bo).pull, lines);
}

fn a_steward_and_a_member_are_handed_what_is_theirs(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let [of_bo, of_cy] = caught_up([&bo, &cy], &hub);
    let incident = ada.says(Fact::Incident { note: "cut a finger".into(), told: Told::default() });
    let lines = [incident, ada.says(Fact::WatchRound)];
    ada.sync(&hub, &lines, 0);
    for _ in 0..2 {
        assert_eq!(pull(&cy, &hub, &of_cy).pull, lines, "cy is a steward");
        assert_eq!(pull(&bo, &hub, &of_bo).pull, lines[1..], "bo is not");
    }
}

fn what_was_erased_is_not_handed_to_who_asks_next(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let tablet = Phone::joined(4, "bo", &hub);
    let [of_bo, of_cy, of_tablet] = caught_up([&bo, &cy, &tablet], &hub);
    let lines = ada.says_rounds(5);
    ada.sync(&hub, &lines, 0);
    let heard = pull(&bo, &hub, &of_bo);
    assert_eq!((heard.pull, pull(&cy, &hub, &of_cy).pull), (lines.clone(), lines));
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).json()["erased"], 5);
    for (phone, before) in [(&tablet, &of_tablet), (&bo, &of_bo), (&cy, &of_cy)] {
        let answer = pull(phone, &hub, before);
        assert_eq!((answer.pull, answer.forget.len()), (Vec::new(), 1), "{}", phone.member);
    }
}

fn what_came_in_since_is_handed_out_too(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let [of_bo, of_cy] = caught_up([&bo, &cy], &hub);
    let mut said = Vec::new();
    for _ in 0..3 {
        let line = ada.says(Fact::WatchRound);
        ada.sync(&hub, std::slice::from_ref(&line), 0);
        said.push(line);
        assert_eq!(pull(&bo, &hub, &of_bo).pull, said);
        assert_eq!(pull(&cy, &hub, &of_cy).pull, said);
    }
}

/// The quickest answer, that there is nothing, is for whom there is nothing.
fn a_phone_that_has_heard_all_hears_of_what_waits_for_it(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(3);
    ada.sync(&hub, &lines, 0);
    let [of_ada, of_bo] = caught_up([&ada, &bo], &hub);
    let nothing = pull(&bo, &hub, &of_bo);
    assert_eq!((nothing.cursor, nothing.forgot, nothing.more), (of_bo.cursor, of_bo.forgot, false));
    assert_eq!(bo.post(&hub, "/api/carry", &json!({ "to": "ada", "text": "ASK:1" })).status, 204);
    let carried = pull(&ada, &hub, &of_ada);
    assert_eq!((carried.carried.len(), carried.head), (1, ada.head.clone()));
    assert_eq!(pull(&ada, &hub, &of_ada).carried, Vec::<String>::new());
    // What is only its own is behind it: it goes on there.
    let more = ada.says_rounds(2);
    let pushed = ada.sync_with(&hub, &SyncRequest { push: more.clone(), ..asking(of_ada.cursor, of_ada.forgot) });
    assert_eq!((pushed.pull.len(), pushed.head, pushed.more), (0, ada.head.clone(), false));
    assert!(pushed.cursor > of_ada.cursor);
    assert_eq!(pull(&bo, &hub, &of_bo).pull, more);
}

/// A phone of before is answered as before, and no form is taken for another.
#[test]
fn lines_come_apart_to_whoever_asks_for_that() {
    let place = Place::new();
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(16);
    ada.sync(&hub, &lines, 0);
    for _ in 0..2 {
        for (apart, accepted) in [(true, "gzip"), (false, "gzip"), (true, "identity"), (false, "identity")] {
            let cookie = ("cookie", bo.cookie.as_str());
            let headers = [cookie, ("content-type", "application/json"), ("accept-encoding", accepted)];
            let ask = json!({ "protocol": 1, "since": 0, "apart": apart }).to_string();
            let reply = hub.send("/api/sync", &headers, ask.as_bytes());
            let is_gzip = reply.header("content-encoding") == "gzip";
            assert_eq!((reply.status, is_gzip), (200, accepted == "gzip"), "{reply:?}");
            let answer: Value = serde_json::from_str(&reply.text).expect("JSON");
            let whole = answer["pull"].as_array().map(Vec::len);
            assert_eq!((answer["apart"].is_array(), whole), (apart, Some(if apart { 0 } else { 16 })));
            assert_eq!(SyncAnswer::read(&reply.text).expect("an answer").pull, lines);
        }
    }
}
