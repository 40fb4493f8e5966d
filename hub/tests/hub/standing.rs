//! What members are to the shop by the word of others: in the card that the hub makes, by whoever may say it, and by nobody else.

use serde_json::json;
use shared_core::card::{Card, Role, Trust};
use shared_core::entry::{Fact, Point};
use shared_core::ids::SessionId;
use shared_core::sync::message::{Rejected, Why};
use shared_core::sync::shop::ShopBundle;
use shared_core::time::{Instant, Span};

use crate::rules::until;
use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both! {
    a_word_of_a_steward_is_in_the_card,
    what_its_giver_may_not_say_is_set_aside,
    one_steward_is_left_whoever_speaks_first,
    the_members_file_says_as_of_when_it_speaks,
    a_phone_that_was_taken_off_signs_nobody_off_until_that_is_admitted,
    a_word_in_force_is_kept_and_goes_with_whom_it_is_about,
    a_new_phone_is_told_when_its_member_last_used_what,
}

const TRAINING: &str = "t-n0";

fn shop(phone: &Phone, hub: &Hub) -> ShopBundle {
    let reply = phone.ask(hub, "GET", "/api/shop", "");
    assert_eq!(reply.status, 200, "{reply:?}");
    serde_json::from_str(&reply.text).expect("a bundle")
}

fn card(phone: &Phone, hub: &Hub) -> Card {
    let bundle = shop(phone, hub);
    let trust = Trust::read(&bundle.keys, bundle.revoked.as_deref().expect("a list")).expect("the hub's own words");
    trust.open(bundle.card.as_deref().expect("a card"), bundle.hub_now).expect("it holds")
}

fn end() -> Instant {
    Instant::parse("2098-01-01T00:00:00Z").expect("an instant")
}

fn off(person: &str, until: Option<Instant>) -> Fact {
    Fact::SignedOff { person: person.into(), training: TRAINING.into(), until }
}

fn role(person: &str, role: Role) -> Fact {
    Fact::RoleGiven { person: person.into(), role }
}

/// Says it outside of any session, and what the hub would not take of it.
fn says(phone: &mut Phone, hub: &Hub, fact: Fact) -> Vec<Why> {
    phone.session = SessionId::outside();
    phone.at = phone.at + Span::from_ms(1_000);
    let line = phone.says(fact);
    let answer = phone.sync(hub, &[line], 0);
    answer.rejected.iter().map(|Rejected { why, .. }| *why).collect()
}

fn a_word_of_a_steward_is_in_the_card(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (bo, mut cy) = (Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let before = card(&bo, &hub);
    assert!(before.signed_off.is_empty());
    assert_eq!(says(&mut cy, &hub, off("bo", Some(end()))), []);
    until(|| card(&bo, &hub).signed_off.get(TRAINING) == Some(&end()));
    assert!(card(&bo, &hub).number > before.number);
    let induction = Fact::Inducted { person: "bo".into(), until: Some(end()) };
    assert_eq!(says(&mut cy, &hub, induction), []);
    until(|| card(&bo, &hub).inducted_until == Some(end()));
    assert_eq!(says(&mut cy, &hub, off("bo", None)), []);
    until(|| card(&bo, &hub).signed_off.is_empty());
    assert!(card(&bo, &hub).said.len() == 2, "when each was said");
    // Nobody else's phone is handed these lines: the members' list and the cards carry them.
    assert_eq!(bo.sync(&hub, &[], 0).pull, [] as [String; 0]);
    assert_eq!(hub.stop(), Some(0));
    let hub = place.hub();
    assert_eq!(card(&bo, &hub).inducted_until, Some(end()), "a restart changes nothing");
}

fn what_its_giver_may_not_say_is_set_aside(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, mut cy) =
        (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    assert_eq!(says(&mut ada, &hub, off("bo", Some(end()))), [Why::NotAllowed]);
    assert_eq!(says(&mut ada, &hub, role("ada", Role::Steward)), [Why::NotAllowed]);
    let published = || Fact::RulesPublished { number: 1, book: "b".repeat(16).as_str().into(), note: None };
    assert_eq!(says(&mut ada, &hub, published()), [Why::NotAllowed]);
    assert_eq!(says(&mut cy, &hub, published()), []);
    assert_eq!(says(&mut ada, &hub, Fact::Walked { point: Point::Stop("bin".into()), mark: "k".into() }), []);
    assert_eq!(says(&mut cy, &hub, role("ada", Role::Signer)), []);
    until(|| card(&ada, &hub).roles.contains(&Role::Signer));
    // From now on her word counts; what was set aside stays so.
    assert!(card(&bo, &hub).signed_off.is_empty());
    assert_eq!(says(&mut ada, &hub, off("bo", Some(end()))), []);
    until(|| card(&bo, &hub).signed_off.get(TRAINING) == Some(&end()));
    assert_eq!(says(&mut cy, &hub, role("ada", Role::Member)), []);
    until(|| card(&ada, &hub).roles == [Role::Member]);
    assert_eq!(says(&mut ada, &hub, off("bo", None)), [Why::NotAllowed]);
    assert_eq!(card(&bo, &hub).signed_off.get(TRAINING), Some(&end()), "what she said as a signer stands");
    // A copy of the log keeps what was set aside there.
    assert_eq!(place.tool(&["verify", "log.jws"]).0, Some(2), "no such file yet");
    place.write("log.jws", &place.exported().join("\n"));
    assert_eq!(place.tool(&["verify", "log.jws"]).0, Some(0));
}

fn one_steward_is_left_whoever_speaks_first(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut cy) = (Phone::joined(1, "ada", &hub), Phone::joined(3, "cy", &hub));
    assert_eq!(says(&mut cy, &hub, role("cy", Role::Member)), [Why::NotAllowed], "the last one");
    assert_eq!(says(&mut cy, &hub, role("ada", Role::Steward)), []);
    until(|| card(&ada, &hub).roles.contains(&Role::Steward));
    // Each takes the role from the other, at the same instant and while out of reach of the hub.
    ada.at = cy.at;
    assert_eq!(says(&mut ada, &hub, role("cy", Role::Member)), []);
    assert_eq!(says(&mut cy, &hub, role("ada", Role::Member)), [Why::NotAllowed]);
    until(|| card(&cy, &hub).roles == [Role::Member]);
    assert_eq!(card(&ada, &hub).roles, [Role::Member, Role::Steward]);
    assert_eq!(cy.ask(&hub, "GET", "/api/invites", "").problem(), "not-steward");
    assert_eq!(ada.ask(&hub, "GET", "/api/invites", "").status, 200);
    // One push that gives the role up twice is judged line by line.
    ada.session = SessionId::outside();
    let lines = [role("cy", Role::Steward), role("ada", Role::Member), role("cy", Role::Member)];
    let lines: Vec<String> = lines.into_iter().map(|fact| ada.says(fact)).collect();
    let rejected: Vec<Why> = ada.sync(&hub, &lines, 0).rejected.iter().map(|it| it.why).collect();
    assert_eq!(rejected, [Why::NotAllowed], "the last of them: she looks after the shop no more");
}

fn the_members_file_says_as_of_when_it_speaks(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (bo, mut cy) = (Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let word = Fact::Inducted { person: "bo".into(), until: None };
    assert_eq!(says(&mut cy, &hub, word), []);
    until(|| card(&bo, &hub).inducted_until.is_none());
    let members = place.read("members.toml");
    let as_of = |day: &str| members.replace("id = \"bo\"", &format!("id = \"bo\"\nas_of = {day}"));
    place.write("members.toml", &as_of("2090-01-01"));
    until(|| card(&bo, &hub).inducted_until.is_some());
    place.write("members.toml", &as_of("2020-01-01"));
    until(|| card(&bo, &hub).inducted_until.is_none());
}

fn a_phone_that_was_taken_off_signs_nobody_off_until_that_is_admitted(engine: Engine) {
    let place = Place::with(engine);
    let members = place.read("members.toml").replace("id = \"ada\"", "id = \"ada\"\nsigner = true");
    place.write("members.toml", &members);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    ada.session = SessionId::outside();
    let line = ada.says(off("bo", Some(end())));
    assert_eq!(cy.post(&hub, "/api/devices/revoke", &json!({ "dev": ada.dev })).status, 204);
    assert_eq!(hub.post("/api/late", &json!({ "lines": [line] })).json(), json!({ "waiting": 1 }));
    let phones = cy.ask(&hub, "GET", "/api/devices", "").json();
    assert_eq!(phones["devices"][0]["late"], 1);
    assert_eq!(bo.ask(&hub, "GET", "/api/devices", "").json()["devices"][0]["late"], 0);
    assert!(card(&bo, &hub).signed_off.is_empty());
    let admit = json!({ "dev": ada.dev });
    assert_eq!(bo.post(&hub, "/api/devices/admit", &admit).problem(), "not-steward");
    assert_eq!(cy.post(&hub, "/api/devices/admit", &json!({ "dev": "nobody" })).problem(), "unknown-phone");
    assert_eq!(cy.post(&hub, "/api/devices/admit", &admit).json(), json!({ "taken": 1, "refused": 0 }));
    until(|| card(&bo, &hub).signed_off.get(TRAINING) == Some(&end()));
    assert_eq!(cy.post(&hub, "/api/devices/admit", &admit).json(), json!({ "taken": 0, "refused": 0 }));
}

fn a_word_in_force_is_kept_and_goes_with_whom_it_is_about(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut bo, mut cy) = (Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let today = cy.at;
    cy.at = today - Span::from_minutes(92 * 24 * 60);
    bo.at = cy.at;
    let walked = || Fact::Walked { point: Point::Stop("bin".into()), mark: "k".into() };
    for _ in 0..2 {
        assert_eq!(says(&mut cy, &hub, off("bo", Some(end()))), []);
        assert_eq!(says(&mut bo, &hub, walked()), []);
    }
    assert_eq!(hub.stop(), Some(0));
    place.received_when_said();
    let hub = place.hub();
    // Of each the earlier word is over; the last one is in force, however old it is.
    until(|| place.exported().iter().filter(|line| line.contains("erased")).count() == 2);
    assert_eq!(card(&bo, &hub).signed_off.get(TRAINING), Some(&end()));
    assert_eq!(bo.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 0, "stays": 2 }));
    let leaving = json!({ "member": "bo", "leaving": true });
    assert_eq!(cy.post(&hub, "/api/erase", &leaving).json(), json!({ "erased": 2, "stays": 0 }));
    let new = Phone::joined(4, "bo", &hub);
    assert!(card(&new, &hub).signed_off.is_empty(), "whoever comes back begins anew");
}

fn a_new_phone_is_told_when_its_member_last_used_what(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut bo = Phone::joined(2, "bo", &hub);
    bo.session = SessionId::from_entropy([7; 8]);
    let started = || Fact::MachineStarted { machine: "n0".into(), material: None };
    let lines = [bo.says(started()), bo.says(started())];
    let last = bo.at;
    bo.sync(&hub, &lines, 0);
    let (new, ada) = (Phone::joined(4, "bo", &hub), Phone::joined(1, "ada", &hub));
    let used = |phone: &Phone, who: &str| {
        let bundle = shop(phone, &hub);
        let machine = bundle.rulebook.machines.iter().find(|machine| machine.id.as_str() == "n0");
        let training = machine.expect("the case has it").training.clone();
        bundle.members.get(&who.into()).and_then(|member| member.used.get(&training).copied())
    };
    assert!(used(&new, "bo").is_some_and(|at| at <= last && at > last - Span::from_minutes(10)));
    assert_eq!((used(&ada, "bo"), used(&ada, "ada")), (None, None), "and nobody else is");
}
