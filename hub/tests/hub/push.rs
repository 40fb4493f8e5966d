//! Web Push end to end: what a push service on loopback is sent, when, to whom, and when no more.
//!
//! The evenings lie in the past as far as needed: a sweep bell that was two minutes ago, but for a second, is repeated in a
//! second. Of the shop's rules: ten minutes of reserve, no first bell for who came for minutes.

use std::time::Duration;

use serde_json::{Value, json};
use shared_core::entry::{Fact, Given};
use shared_core::ids::SessionId;
use shared_core::time::{Instant, Span};

use crate::rules::until;
use crate::support::{Engine, Hub, Listening, Phone, Place, PushService, Pushed, now_ms, on_both};

on_both! {
    a_bell_comes_at_its_second_and_is_sealed_for_its_phone,
    a_bell_is_repeated_until_it_is_answered,
    a_session_that_has_left_is_told_nothing,
    what_nobody_answers_goes_to_people,
    stewards_are_told_of_who_stays_and_of_a_watch_cut_short,
    a_phone_that_is_gone_is_forgotten_and_a_busy_service_tried_again,
    what_was_said_is_not_said_again_after_a_restart,
    a_subscription_can_be_ended_and_goes_with_its_phone,
}

const RESERVE: Span = Span::from_minutes(10);
/// Whatever a test sets lies this far ahead, so that the hub has heard of it before.
const AHEAD: Span = Span::from_ms(1_500);
/// A call may be this late where two databases and other tests share two cores.
const LATE_MS: i64 = 900;

fn hub(place: &Place) -> Hub {
    place.hub_with(&["--push-to-loopback"])
}

fn now() -> Instant {
    Instant::from_ms(now_ms())
}

/// Enters the north room an hour before `out_by`.
fn enters(phone: &mut Phone, hub: &Hub, out_by: Instant) {
    phone.at = out_by - Span::from_minutes(60);
    says(phone, hub, Fact::Entered { room: "north".into(), out_by });
}

fn says(phone: &mut Phone, hub: &Hub, fact: Fact) {
    let line = phone.says(fact);
    assert_eq!(phone.sync(hub, &[line], 0).head, phone.head);
}

/// The next message, which is due at `at` and says `what`.
#[track_caller]
fn check(service: &PushService, phone: &Listening, at: Instant, what: &str) -> (Pushed, Value) {
    let pushed = service.next(10);
    let late = pushed.at_ms - at.ms();
    assert!((0..LATE_MS).contains(&late), "{what} came {late} ms late");
    println!("{what} came {late} ms after its instant");
    let told = phone.open(&pushed);
    assert_eq!(told["what"], what);
    (pushed, told)
}

fn a_bell_comes_at_its_second_and_is_sealed_for_its_phone(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let mut ada = Phone::joined(1, "ada", &hub);
    let listening = Listening::of(&ada, &hub, &service, "ada");
    let sweep = now() + AHEAD;
    ada.at = now();
    says(&mut ada, &hub, Fact::Entered { room: "north".into(), out_by: sweep + RESERVE });
    let (pushed, told) = check(&service, &listening, sweep, "sweep_bell");
    assert_eq!((&told["at"], &told["late_minutes"]), (&json!(sweep.ms()), &json!(0)));
    assert_eq!(told["tag"].as_str(), pushed.headers.get("topic").map(String::as_str), "a repeat takes its place");
    let ttl: i64 = pushed.headers["ttl"].parse().expect("seconds");
    assert!((590..=600).contains(&ttl), "of use until out-by: {ttl}");
    let text = told.to_string();
    assert!(!text.contains("ada") && !text.contains(ada.session.as_str()), "{text}");
    let keys: Vec<_> = told.as_object().expect("an object").keys().collect();
    assert_eq!(keys, ["at", "late_minutes", "tag", "what"]);
    assert!(
        !hub.logged().contains(&listening.body()["subscription"]["endpoint"].to_string()),
        "an address is a secret"
    );
    // The key is kept.
    let key = |hub: &Hub| ada.ask(hub, "GET", "/api/push", "").json()["key"].clone();
    let before = key(&hub);
    drop(hub);
    assert_eq!(key(&self::hub(&place)), before);
}

fn a_bell_is_repeated_until_it_is_answered(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let mut ada = Phone::joined(1, "ada", &hub);
    let listening = Listening::of(&ada, &hub, &service, "ada");
    let sweep = now() + AHEAD - Span::from_minutes(2);
    enters(&mut ada, &hub, sweep + RESERVE);
    let (first, told) = (service.next(5), 1);
    assert_eq!(listening.open(&first)["late_minutes"], told, "said late, and how late");
    let (second, _) = check(&service, &listening, sweep + Span::from_minutes(2), "sweep_bell");
    assert_eq!(first.headers["topic"], second.headers["topic"]);
    ada.at = now();
    says(&mut ada, &hub, Fact::Left);
    // Three minutes later it would come again; answered, it does not.
    let mut bo = Phone::joined(2, "bo", &hub);
    let bos = Listening::of(&bo, &hub, &service, "bo");
    let again = now() + AHEAD;
    enters(&mut bo, &hub, again - Span::from_minutes(5) + RESERVE);
    assert_eq!(bos.open(&service.next(5))["late_minutes"], 2);
    bo.at = now();
    says(&mut bo, &hub, Fact::SweepStarted { crew: 1 });
    service.is_silent(2_500);
}

fn a_session_that_has_left_is_told_nothing(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let mut ada = Phone::joined(1, "ada", &hub);
    let listening = Listening::of(&ada, &hub, &service, "ada");
    let sweep = now() + AHEAD;
    enters(&mut ada, &hub, sweep + RESERVE);
    assert_eq!(listening.open(&service.next(5))["what"], "first_bell");
    ada.at = now();
    says(&mut ada, &hub, Fact::Left);
    service.is_silent(2_500);
}

fn what_nobody_answers_goes_to_people(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let (mut ada, bo, mut cy) =
        (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let [to_ada, to_bo, to_cy] =
        [(&ada, "ada"), (&bo, "bo"), (&cy, "cy")].map(|(phone, name)| Listening::of(phone, &hub, &service, name));
    let help = now() + AHEAD;
    let sweep = help - Span::from_minutes(3);
    // Cy works in the same room until late; bo is the buddy, without a session.
    enters(&mut cy, &hub, now() + Span::from_minutes(60));
    enters(&mut ada, &hub, sweep + RESERVE);
    assert_eq!(to_ada.open(&service.next(5))["what"], "sweep_bell");
    ada.at = now();
    let word = Fact::BuddyConfirmed { buddy: "bo".into(), machine: None, proof: None, given: Given::OnTheirWord };
    says(&mut ada, &hub, word);
    let both = [service.next(10), service.next(10)];
    for pushed in both {
        assert!((0..LATE_MS).contains(&(pushed.at_ms - help.ms())), "{pushed:?}");
        let phone = if pushed.to == "bo" { &to_bo } else { &to_cy };
        assert_eq!(phone.open(&pushed)["what"], "not_sweeping");
    }
    service.is_silent(500);
}

fn stewards_are_told_of_who_stays_and_of_a_watch_cut_short(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let (mut ada, mut bo, cy) =
        (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let to_cy = Listening::of(&cy, &hub, &service, "cy");
    let due = now() + AHEAD;
    enters(&mut ada, &hub, due - Span::from_minutes(3));
    check(&service, &to_cy, due, "not_out");
    let due = now() + AHEAD;
    enters(&mut bo, &hub, due - Span::from_minutes(30));
    assert_eq!(to_cy.open(&service.next(5))["late_minutes"], 26, "the last bell was long ago");
    check(&service, &to_cy, due, "long_past");
    ada.at = now() - Span::from_minutes(10);
    says(&mut ada, &hub, Fact::MachineStarted { machine: "n2".into(), material: None });
    ada.at = now();
    says(&mut ada, &hub, Fact::MachineStopped { machine: "n2".into() });
    says(&mut ada, &hub, Fact::Left);
    let left = ada.at;
    check(&service, &to_cy, left, "watch_cut_short");
    service.is_silent(500);
}

fn a_phone_that_is_gone_is_forgotten_and_a_busy_service_tried_again(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let to_ada = Listening::of(&ada, &hub, &service, "ada");
    service.answers(503);
    enters(&mut ada, &hub, now() + AHEAD + RESERVE);
    assert_eq!(to_ada.open(&service.next(5))["what"], "first_bell");
    assert_eq!(to_ada.open(&service.next(5))["what"], "sweep_bell");
    service.answers(201);
    assert_eq!(to_ada.open(&service.next(8))["what"], "sweep_bell", "once more, and then it is taken");
    // A redirect is not followed, wherever it leads; an address that is gone is not written to again.
    service.answers(307);
    let to_bo = Listening::of(&bo, &hub, &service, "bo");
    enters(&mut bo, &hub, now() + AHEAD + RESERVE);
    assert_eq!(to_bo.open(&service.next(5))["what"], "first_bell");
    service.answers(410);
    check(&service, &to_bo, bo.at + Span::from_minutes(50), "sweep_bell");
    let known = || !bo.ask(&hub, "GET", "/api/push", "").json()["endpoint"].is_null();
    until(|| !known());
    assert!(hub.logged().contains("410"), "{}", hub.logged());
}

fn what_was_said_is_not_said_again_after_a_restart(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let mut ada = Phone::joined(1, "ada", &hub);
    let listening = Listening::of(&ada, &hub, &service, "ada");
    enters(&mut ada, &hub, now() + RESERVE + Span::from_minutes(5));
    assert_eq!(listening.open(&service.next(5))["what"], "first_bell");
    assert_eq!(hub.stop(), Some(0));
    let hub = self::hub(&place);
    service.is_silent(1_500);
    // What came due while no hub ran is said at once when one does, and once.
    ada.at = now();
    says(&mut ada, &hub, Fact::Left);
    (ada.session, ada.at) = (SessionId::from_entropy([9; 8]), now());
    let sweep = now() + AHEAD;
    says(&mut ada, &hub, Fact::Entered { room: "north".into(), out_by: sweep + RESERVE });
    assert_eq!(hub.stop(), Some(0));
    std::thread::sleep(Duration::from_millis(2_500));
    service.is_silent(1);
    let _hub = self::hub(&place);
    let late = service.next(5);
    assert_eq!((listening.open(&late)["what"].as_str(), late.at_ms - sweep.ms() >= 1_000), (Some("sweep_bell"), true));
    service.is_silent(1_000);
}

fn a_subscription_can_be_ended_and_goes_with_its_phone(engine: Engine) {
    let place = Place::with(engine);
    let (hub, service) = (hub(&place), PushService::new());
    let (ada, mut other) = (Phone::joined(1, "ada", &hub), Phone::joined(4, "ada", &hub));
    let at = |phone: &Phone| phone.ask(&hub, "GET", "/api/push", "").json()["endpoint"].clone();
    assert_eq!(at(&ada), Value::Null);
    Listening::of(&ada, &hub, &service, "old");
    let to_ada = Listening::of(&ada, &hub, &service, "new");
    assert_eq!(at(&ada), json!(service.endpoint("new")), "the new one in place of the old one");
    Listening::of(&other, &hub, &service, "other");
    // Both phones of a member ring.
    let mut rings: Vec<String> = Vec::new();
    enters(&mut other, &hub, now() + RESERVE + Span::from_minutes(5));
    rings.extend([service.next(5).to, service.next(5).to]);
    rings.sort();
    assert_eq!(rings, ["new", "other"]);
    assert_eq!(ada.post(&hub, "/api/devices/revoke", &json!({ "dev": other.dev })).status, 204);
    assert_eq!(ada.post(&hub, "/api/push", &json!({ "subscription": null })).status, 204);
    assert_eq!(at(&ada), Value::Null);
    assert_eq!(ada.post(&hub, "/api/push/try", &json!({})).problem(), "no-address");
    assert_eq!(to_ada.tell(&ada, &hub).status, 204);
    // What the hub holds about somebody says so; a phone that was taken off left nothing to be rung at.
    assert_eq!(ada.ask(&hub, "GET", "/api/mine", "").json()["rung"], true);
    let mut unfit = to_ada.body();
    for (place, value) in [
        ("/subscription/endpoint", json!("ftp://127.0.0.1/x")),
        ("/subscription/endpoint", json!("https://push.example/x")),
        ("/subscription/keys/p256dh", json!("AAAA")),
        ("/subscription/keys/auth", json!("AAAA")),
    ] {
        let kept = unfit.pointer(place).cloned().expect("a field");
        *unfit.pointer_mut(place).expect("a field") = value;
        let reply = ada.post(&hub, "/api/push", &unfit);
        assert_eq!((reply.status, reply.problem().as_str()), (422, "unfit-push"), "{unfit}");
        *unfit.pointer_mut(place).expect("a field") = kept;
    }
    assert_eq!(hub.post("/api/push", &to_ada.body()).status, 401);
}

/// Without the argument for tests, a hub sends nothing into its own network: not what says so, and not what resolves so.
#[test]
fn a_hub_is_not_made_to_speak_to_its_own_network() {
    let place = Place::new();
    let (hub, service) = (place.hub(), PushService::new());
    let mut ada = Phone::joined(1, "ada", &hub);
    let there = |endpoint: &str| {
        let keys = json!({ "p256dh": "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4",
            "auth": "BTBZMqHH6r4Tts7J_aSIgg" });
        json!({ "subscription": { "endpoint": endpoint, "keys": keys } })
    };
    for plain in [service.endpoint("ada").as_str(), "https://user@push.example/", "https://push.example:8443/"] {
        assert_eq!(ada.post(&hub, "/api/push", &there(plain)).problem(), "unfit-push", "{plain}");
    }
    assert_eq!(ada.post(&hub, "/api/push", &there("https://localhost/ada")).status, 204);
    enters(&mut ada, &hub, now() + RESERVE + Span::from_minutes(5));
    until(|| hub.logged().contains("it leads to an address that is not on the public internet"));
    service.is_silent(200);
}

/// A move takes along who listens, the key that they listen by, and what was said to them.
#[test]
fn a_move_takes_phones_and_what_was_said_along() {
    let (place, service) = (Place::new(), PushService::new());
    let hub = hub(&place);
    let mut ada = Phone::joined(1, "ada", &hub);
    let listening = Listening::of(&ada, &hub, &service, "ada");
    let again = now() + Span::from_ms(6_000);
    enters(&mut ada, &hub, again - Span::from_minutes(2) + RESERVE);
    assert_eq!(listening.open(&service.next(5))["late_minutes"], 1);
    assert_eq!(hub.stop(), Some(0));
    let moved = Place::with(Engine::Postgres);
    let address = moved.database.clone().expect("an address");
    assert_eq!(place.tool(&["move", "data", &address]).0, Some(0));
    let _hub = self::hub(&moved);
    // Opened with the key that the phone was given before.
    check(&service, &listening, again, "sweep_bell");
}

/// Two processes on one database know the same bell, and one of them says it.
#[test]
fn of_two_hubs_one_says_it() {
    let place = Place::with(Engine::Postgres);
    let (one, other, service) = (hub(&place), hub(&place), PushService::new());
    let mut ada = Phone::joined(1, "ada", &one);
    let listening = Listening::of(&ada, &other, &service, "ada");
    let key = |hub: &Hub| ada.ask(hub, "GET", "/api/push", "").json()["key"].clone();
    assert_eq!(key(&one), key(&other), "one key");
    for round in 0..3 {
        ada.session = SessionId::from_entropy([round; 8]);
        let sweep = now() + AHEAD;
        ada.at = now();
        says(&mut ada, &one, Fact::Entered { room: "north".into(), out_by: sweep + RESERVE });
        check(&service, &listening, sweep, "sweep_bell");
        service.is_silent(700);
        ada.at = now();
        says(&mut ada, &one, Fact::Left);
    }
    // Both woke for it: each said that it looked, one that it called.
    let called = [&one, &other].map(|hub| hub.logged().matches("called").count());
    assert_eq!(called.iter().sum::<usize>(), 3, "{called:?}");
}
