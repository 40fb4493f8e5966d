//! A word about a member, from one phone to another without a hub: in force at once, kept, overruled by a later card, and nothing
//! of it where its giver may not say it or the hub would not take it.

use shared_core::code::line;
use shared_core::refusal::Refusal;
use shared_core::standing::Key;
use shared_core::standing::act::Act;
use shared_core::sync::message::{Rejected, SyncAnswer, Why};

use super::*;
use crate::store::{At, Notice, Screen};

/// Ada looks after the shop.
fn yard() -> ShopBundle {
    let mut bundle = shop();
    if let Some(ada) = bundle.members.get_mut(&"ada".into()) {
        ada.steward = true;
    }
    bundle
}

fn phone(seed: u8) -> Phone {
    let mut phone = Phone::open(TestKey::of(seed), Memory::default(), at(START));
    phone.hub(Hub::Shop(Ok(text(&yard()))));
    phone
}

/// The code of a phone's newest line.
fn shown(phone: &Phone) -> String {
    let kept = phone.journal.kept();
    let last = kept.log.last().expect("it said something");
    line::write(&jws::open(&last.jws).expect("its own")).expect("such a line").expect("it fits")
}

fn inducted(phone: &Phone, who: &str) -> bool {
    let shop = phone.desk.shop.as_ref().expect("joined");
    shop.members.get(&who.into()).is_some_and(|member| member.inducted_until.is_some())
}

#[test]
fn a_word_counts_on_the_phone_that_is_shown_it_and_is_kept() {
    let (mut ada, mut cem) = (phone(1), phone(3));
    ada.ui(Ui::Act(Act::Induct("cem".into())));
    assert_eq!(ada.said(), ["inducted"]);
    assert!(inducted(&ada, "cem"), "on the giver's phone at once");
    assert!(!inducted(&cem, "cem"));
    assert_eq!(cem.ui(Ui::Scanned(shown(&ada))).notice, Some(Notice::WordTaken));
    assert!(inducted(&cem, "cem"));
    let mut cem = cem.reopened_after(5);
    assert!(inducted(&cem, "cem"), "kept");
    cem.come_in();
    assert_eq!(cem.said().first().map(String::as_str), Some("entered"));
    // Another's phone is told that it is not for it; twice is once.
    let mut ben = phone(2);
    assert_eq!(ben.ui(Ui::Scanned(shown(&ada))).notice, Some(Notice::OthersWord));
    assert_eq!(cem.ui(Ui::Scanned(shown(&ada))).notice, Some(Notice::WordTaken));

    ada.wait(Span::from_minutes(1));
    ada.ui(Ui::Act(Act::TakeBack("cem".into(), Key::Induction)));
    assert_eq!(cem.ui(Ui::Scanned(shown(&ada))).notice, Some(Notice::WordBack));
    assert!(!inducted(&cem, "cem"));
}

#[test]
fn what_the_hub_says_later_holds() {
    let (mut ada, mut cem) = (phone(1), phone(3));
    ada.ui(Ui::Act(Act::Induct("cem".into())));
    cem.ui(Ui::Scanned(shown(&ada)));
    // The hub has not heard of it: the word of this phone stands over its list.
    cem.hub(Hub::Shop(Ok(text(&yard()))));
    assert!(inducted(&cem, "cem"));
    // It has heard that it was taken back since.
    let mut later = yard();
    if let Some(member) = later.members.get_mut(&"cem".into()) {
        member.said.insert(Key::Induction.name(), at(START) + Span::from_minutes(1));
    }
    cem.hub(Hub::Shop(Ok(text(&later))));
    assert!(!inducted(&cem, "cem"));
}

#[test]
fn nobody_may_say_it_but_a_steward() {
    let mut ben = phone(2);
    let refused = |phone: &mut Phone, act: Act| match phone.ui(Ui::Act(act)).notice.clone() {
        Some(Notice::Refused(refusal)) => refusal,
        other => panic!("{other:?}"),
    };
    assert_eq!(refused(&mut ben, Act::Induct("cem".into())), Refusal::StewardsAct);
    let mut ada = phone(1);
    assert_eq!(refused(&mut ada, Act::SignOff("ada".into(), "basics".into())), Refusal::OwnSignOff);
    assert_eq!(ada.said(), [] as [String; 0]);
    // Ben's phone was taken apart and says it all the same.
    let mut forger = Phone::joined(2);
    if let Some(ben) = forger.desk.shop.as_mut().and_then(|shop| shop.members.get_mut(&"ben".into())) {
        ben.steward = true;
    }
    forger.ui(Ui::Act(Act::Induct("cem".into())));
    assert_eq!(forger.said(), ["inducted"]);
    let mut cem = phone(3);
    assert_eq!(cem.ui(Ui::Scanned(shown(&forger))).notice, Some(Notice::OthersWord));
    assert!(!inducted(&cem, "cem"));
}

#[test]
fn what_the_hub_would_not_take_counts_no_longer() {
    let mut ada = phone(1);
    ada.ui(Ui::Act(Act::Induct("cem".into())));
    assert!(inducted(&ada, "cem"));
    ada.wait(Span::from_minutes(1));
    let head = ada.desk.ledger.head().clone();
    let mut answer = SyncAnswer::new(at(START), head, "1".to_owned());
    answer.rejected = vec![Rejected { seq: 1, why: Why::NotAllowed }];
    ada.hub(Hub::Synced(Some(Ok(Box::new(answer)))));
    assert!(!inducted(&ada, "cem"));
}

#[test]
fn a_stop_opens_by_its_code() {
    let mut bundle = yard();
    bundle.rulebook.stops = serde_json::from_value(json!([
        { "id": "bin", "room": "forge", "text": "The bin.", "mark": "m" }
    ]))
    .expect("a stop");
    let mut cem = Phone::open(TestKey::of(3), Memory::default(), at(START));
    cem.hub(Hub::Shop(Ok(text(&bundle))));
    assert_eq!(cem.ui(Ui::Scanned(format!("{ORIGIN}/s/bin"))).at, At::Stop("bin".into()));
    assert_eq!(cem.shown().going.to, Screen::Walk);
    let refused = Some(Notice::Refused(Refusal::NoSuchStop));
    assert_eq!(cem.ui(Ui::Scanned(format!("{ORIGIN}/s/well"))).notice, refused);
}
