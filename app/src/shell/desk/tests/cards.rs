//! Cards on a phone: what its own says decides, whom it believes, and what it does once it was taken off.

use ed25519_dalek::SigningKey;
use shared_core::card::face::Face;
use shared_core::card::revoked::Revoked;
use shared_core::card::{Card, GOOD_FOR, keys};
use shared_core::code::answer::{AnswerFault, Draft, Kind};
use shared_core::code::{Scanned, read};
use shared_core::members::Member;
use shared_core::refusal::Refusal;
use shared_core::view::door::DoorView;

use super::*;
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::{Key, proving};
use crate::store::{BuddySheet, Gate, Link, Notice};

/// A hub, by its key.
fn hub(seed: u8) -> SigningKey {
    SigningKey::from_bytes(&[seed; 32])
}

fn member(who: &str) -> Member {
    shop().members.get(&who.into()).cloned().expect("a member")
}

fn card(seed: u8, member: &Member) -> Card {
    Card::of(member, TestKey::of(seed).device_id().clone(), u32::from(seed), at(START))
}

/// The shop as its hub hands it to Ada's phone: with cards, for these phones.
fn with_cards(by: &SigningKey, phones: &[(u8, &str)], of_ada: &Member) -> ShopBundle {
    let face = |(seed, who): &(u8, &str)| {
        let face = Face::of(&card(*seed, &member(who)), by);
        face.and_then(|face| face.write()).expect("it fits")
    };
    let mut bundle = shop();
    bundle.keys = vec![keys::first(by, at(START))];
    bundle.revoked = Some(Revoked { number: 0, issued: at(START), devices: Vec::new() }.seal(by));
    bundle.faces = phones.iter().map(face).collect();
    bundle.card = Some(card(1, of_ada).seal(by));
    bundle
}

fn joined(bundle: &ShopBundle) -> Phone {
    let mut ada = Phone::open(TestKey::of(1), Memory::default(), at(START));
    ada.hub(Hub::Shop(Ok(text(bundle))));
    ada
}

fn barred(phone: &mut Phone) -> Option<Refusal> {
    match &phone.ui(Ui::ArriveAt("forge".into())).door {
        Some(DoorView::Barred(refusal)) => Some(refusal.clone()),
        _ => None,
    }
}

#[test]
fn what_the_card_says_decides_and_it_runs_out() {
    let not_inducted = Member { inducted_until: None, ..member("ada") };
    let mut ada = joined(&with_cards(&hub(100), &[], &not_inducted));
    assert_eq!(barred(&mut ada), Some(Refusal::NotInducted), "whatever the list of members says");

    let mut ada = joined(&with_cards(&hub(100), &[], &member("ada")));
    assert_eq!(barred(&mut ada), None);
    ada.come_in();
    let on = at(START) + GOOD_FOR;
    let mut ada = ada.reopened_after(GOOD_FOR.ms() / 60_000);
    ada.act(Command::Leave);
    assert_eq!(ada.said().last().map(String::as_str), Some("left"), "leaving is never blocked");
    assert_eq!(barred(&mut ada), Some(Refusal::CardExpired { on }));
    // A word of the hub's, and it is good again.
    let mut anew = with_cards(&hub(100), &[], &member("ada"));
    let fresh = Card::of(&member("ada"), TestKey::of(1).device_id().clone(), 9, on);
    anew.card = Some(fresh.seal(&hub(100)));
    ada.hub(Hub::Shop(Ok(text(&anew))));
    assert_eq!(barred(&mut ada), None);
}

#[test]
fn a_card_that_is_not_the_hubs_word_on_this_phone_gives_nothing() {
    let (ours, ada) = (hub(100), member("ada"));
    let none = Some(Refusal::CardExpired { on: Instant::default() });
    for (what, forged) in [
        ("another key's", Some(card(1, &ada).seal(&hub(66)))),
        ("another phone's", Some(card(4, &ada).seal(&ours))),
        ("no card", None),
    ] {
        let bundle = ShopBundle { card: forged, ..with_cards(&ours, &[], &ada) };
        assert_eq!(barred(&mut joined(&bundle)), none, "{what}");
    }
}

/// A card that bears the name of the hub's key and was not signed by it is nobody's word: what it came with is not taken.
#[test]
fn what_comes_with_a_forged_card_is_not_taken() {
    let (ours, ada) = (hub(100), member("ada"));
    let forged = || {
        let mut bundle = with_cards(&ours, &[], &Member { inducted_until: None, ..ada.clone() });
        bundle.card = bundle.card.map(|card| unsigned(&card));
        bundle
    };
    let mut known = joined(&with_cards(&ours, &[], &ada));
    let shown = known.hub(Hub::Shop(Ok(text(&forged()))));
    assert_eq!((&shown.gate, &shown.sync.link), (&Gate::Open, &Link::Fault(LinkFault::OtherHub)));
    assert_eq!(barred(&mut known), None, "it goes on with what it has");
    let new = joined(&forged());
    assert_eq!(new.shown().gate, Gate::Fetching { fault: Some(LinkFault::OtherHub) });
}

/// What follows from the hub's words is kept beside the rules and believed at a start; once there is time they are proved again.
/// Spoilt, they give nothing until the hub's word has come anew.
#[test]
fn rules_that_storage_spoilt_give_nothing_once_they_are_proved() {
    let whole = with_cards(&hub(100), &[], &member("ada"));
    let spoilt_card = ShopBundle { card: whole.card.as_deref().map(unsigned), ..whole.clone() };
    let spoilt_keys = ShopBundle { keys: whole.keys.iter().map(|key| unsigned(key)).collect(), ..whole.clone() };
    for (what, kept, spoilt) in [("whole", &whole, false), ("card", &spoilt_card, true), ("keys", &spoilt_keys, true)] {
        let ada = joined(&whole);
        ada.journal.set(Key::Shop, text(kept));
        let mut ada = ada.reopened_after(1);
        assert_eq!(barred(&mut ada), None, "{what}");
        prove(&mut ada);
        assert_eq!(ada.errands.contains(&Errand::Later(LaterErrand::Shop)), spoilt, "{what}: it is asked for");
        let nothing = spoilt.then_some(Refusal::CardExpired { on: Instant::default() });
        assert_eq!(barred(&mut ada), nothing, "{what}");
        ada.send(Intent::Phone(Told::OtherTab));
        assert_eq!(barred(&mut ada), nothing, "{what}: read again");
        ada.hub(Hub::Shop(Ok(text(&whole))));
        assert_eq!(barred(&mut ada), None, "{what}: it came");
    }
}

/// As a phone that ran a version of before: it has the rules, and nothing that was proved of them.
#[test]
fn as_long_as_nothing_is_proved_nothing_may_be_begun() {
    let ada = joined(&with_cards(&hub(100), &[], &member("ada")));
    ada.journal.set(Key::Proved, String::new());
    let mut ada = ada.reopened_after(1);
    assert_eq!(barred(&mut ada), Some(Refusal::CardExpired { on: Instant::default() }));
    prove(&mut ada);
    assert_eq!(barred(&mut ada), None);
    assert_eq!(barred(&mut ada.reopened_after(1)), None, "and it is kept");
}

/// As the later part does once the page is idle.
fn prove(phone: &mut Phone) {
    let proved = done(proving::shop(&phone.journal, phone.key.device_id())).expect("memory");
    let (card, proved) = proved.expect("it has rules");
    phone.send(Intent::Phone(Told::ShopProved(card, proved)));
}

/// It reads as before, and nobody signed it.
fn unsigned(statement: &str) -> String {
    let (said, _) = statement.rsplit_once('.').expect("three parts");
    format!("{said}.{}", "A".repeat(86))
}

#[test]
fn another_hubs_keys_change_nothing_and_the_next_key_is_followed() {
    let (ours, next) = (hub(100), hub(101));
    let mut ada = joined(&with_cards(&ours, &[], &member("ada")));
    for other in [with_cards(&hub(66), &[], &member("ada")), shop()] {
        let shown = ada.hub(Hub::Shop(Ok(text(&other))));
        assert_eq!((&shown.gate, &shown.sync.link), (&Gate::Open, &Link::Fault(LinkFault::OtherHub)));
        assert_eq!(barred(&mut ada), None, "it goes on with what it has");
    }
    let mut rotated = with_cards(&next, &[], &Member { inducted_until: None, ..member("ada") });
    rotated.keys = vec![keys::first(&ours, at(START)), keys::next(&ours, &next, at(START), at(START))];
    ada.hub(Hub::Shop(Ok(text(&rotated))));
    assert_eq!(barred(&mut ada), Some(Refusal::NotInducted));
    assert_eq!(barred(&mut ada.reopened_after(1)), Some(Refusal::NotInducted), "and it is kept");
}

/// The answer of the phone of that seed, for `who`, to what Ada's shows.
fn answer(ada: &Phone, seed: u8, who: &str) -> String {
    let BuddySheet::Asking { code, .. } = &ada.shown().buddy else { panic!("no ask: {:?}", ada.shown().buddy) };
    let Ok(Scanned::Ask(ask)) = read(code, ORIGIN) else { panic!("{code}") };
    let key = TestKey::of(seed);
    let draft = Draft::to(&ask, Kind::Here, at(START), who.into(), key.device_id().clone());
    let input = draft.signing_input(&ask).expect("it fits");
    draft.assemble(done(key.sign(&input)).expect("it signs")).write().expect("it fits")
}

#[test]
fn a_buddy_whose_phone_is_new_shows_their_card() {
    let ours = hub(100);
    let mut ada = joined(&with_cards(&ours, &[(1, "ada")], &member("ada")));
    ada.come_in();
    ada.ui(Ui::AskBuddy { machine: None, to: None });
    let of_ben = answer(&ada, 2, "ben");
    ada.ui(Ui::Scanned(of_ben.clone()));
    assert_eq!(ada.shown().notice, Some(Notice::BadAnswer(AnswerFault::UnknownPhone)));

    let shows = |who: &str, by: &SigningKey| {
        let face = Face::of(&card(2, &Member { id: who.into(), name: who.to_uppercase(), ..Member::default() }), by);
        face.and_then(|face| face.write()).expect("it fits")
    };
    ada.ui(Ui::Scanned(shows("ben", &hub(66))));
    assert_eq!(ada.shown().notice, Some(Notice::BadCard));
    ada.ui(Ui::Scanned(of_ben.clone()));
    assert_eq!(ada.shown().notice, Some(Notice::BadAnswer(AnswerFault::UnknownPhone)));
    ada.ui(Ui::Scanned(shows("ben", &ours)));
    assert_eq!(ada.shown().notice, Some(Notice::CardSeen { name: "BEN".into() }));
    ada.ui(Ui::Scanned(of_ben));
    assert_eq!(ada.shown().notice, Some(Notice::BuddyHere { name: "ben".into() }));
    assert_eq!(ada.said().last().map(String::as_str), Some("buddy_confirmed"));
}

#[test]
fn a_phone_that_was_taken_off_says_so_once_begins_nothing_and_loses_nothing() {
    let mut ada = joined(&with_cards(&hub(100), &[], &member("ada")));
    ada.come_in();
    let revoked = || Hub::Synced(Some(Err(LinkFault::Revoked)));
    let shown = ada.hub(revoked());
    assert_eq!(shown.notice, Some(Notice::Link(LinkFault::Revoked)));
    assert_eq!(shown.sync.link, Link::Fault(LinkFault::Revoked));
    ada.ui(Ui::Dismiss);
    assert_eq!(ada.hub(revoked()).notice, None, "once is enough");
    ada.act(start("saw"));
    assert!(matches!(ada.shown().notice, Some(Notice::Refused(Refusal::CardExpired { .. }))));
    ada.act(Command::Leave);
    assert!(matches!(barred(&mut ada), Some(Refusal::CardExpired { .. })));
    assert_eq!(ada.shown().sync.waiting, ada.said().len(), "all of it is still here");
}
