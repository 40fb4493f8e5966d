//! Two phones without a network: a code shown, a code shown back, and what each of them may claim.

use shared_core::code::answer::{AnswerFault, Kind};
use shared_core::refusal::Refusal;
use shared_core::view::bench::{Cover, Standing};

use super::*;
use crate::store::{BuddySheet, Carriage, Notice};

fn code_of(shown: &Shown) -> String {
    match &shown.buddy {
        BuddySheet::Asking { code, .. } | BuddySheet::Answered { code, .. } => code.clone(),
        other => panic!("no code is shown: {other:?}"),
    }
}

/// Ada asks, Ben answers; the code that Ben's phone shows.
fn answer(ada: &mut Phone, ben: &mut Phone, kind: Kind) -> String {
    let ask = code_of(ada.ui(Ui::AskBuddy { machine: None, to: None }));
    ben.ui(Ui::Scanned(ask));
    code_of(ben.ui(Ui::AnswerBuddy(kind)))
}

#[test]
fn a_buddy_machine_is_refused_then_allowed_then_lapses() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    assert_eq!(
        ada.act(start("mill")).notice,
        Some(Notice::Refused(Refusal::NoBuddy { machine: "mill".into(), renew_minutes: 15 }))
    );
    let code = answer(&mut ada, &mut ben, Kind::Here);
    let shown = ada.ui(Ui::Scanned(code));
    assert_eq!(shown.notice, Some(Notice::BuddyHere { name: "ben".into() }));
    assert_eq!(shown.buddy, BuddySheet::Closed);
    ada.act(start("mill"));
    let since = ada.now.reading.wall;
    assert_eq!(cover(&ada), Some(Cover::Until(since + Span::from_minutes(15))));
    ada.wait(Span::from_minutes(15));
    assert_eq!(cover(&ada), Some(Cover::GapSince(since + Span::from_minutes(15))));
}

fn cover(phone: &Phone) -> Option<Cover> {
    let bench = phone.shown().bench.as_ref()?;
    bench.machines.iter().find_map(|row| match row.standing {
        Standing::Running { covered_until, .. } => covered_until,
        _ => None,
    })
}

#[test]
fn an_answer_counts_once_and_for_its_ask_alone() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    let code = answer(&mut ada, &mut ben, Kind::Here);
    ada.ui(Ui::Scanned(code.clone()));
    let wrong = |shown: &Shown, fault| assert_eq!(shown.notice, Some(Notice::BadAnswer(fault)));
    wrong(ada.ui(Ui::Scanned(code.clone())), AnswerFault::OtherAsk);
    ada.ui(Ui::AskBuddy { machine: None, to: None });
    wrong(ada.ui(Ui::Scanned(code)), AnswerFault::OtherAsk);
    let late = {
        let ask = code_of(ada.shown());
        ben.ui(Ui::Scanned(ask));
        code_of(ben.ui(Ui::AnswerBuddy(Kind::Here)))
    };
    ada.wait(Span::from_minutes(6));
    wrong(ada.ui(Ui::Scanned(late)), AnswerFault::AskTooOld);
    assert_eq!(ada.said().iter().filter(|what| *what == "buddy_confirmed").count(), 1);
}

#[test]
fn an_answer_to_a_session_that_is_over_counts_for_no_other() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    let code = answer(&mut ada, &mut ben, Kind::Here);
    ada.act(Command::Leave);
    ada.come_in();
    assert_eq!(ada.ui(Ui::Scanned(code)).notice, Some(Notice::BadAnswer(AnswerFault::OtherAsk)));
    assert_eq!(ada.said().iter().filter(|what| *what == "buddy_confirmed").count(), 0);
}

#[test]
fn the_answer_survives_as_proof_and_is_known_after_a_restart() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    let code = answer(&mut ada, &mut ben, Kind::Here);
    ada.ui(Ui::Scanned(code));
    let ada = ada.reopened_after(1);
    let bench = ada.shown().bench.clone().expect("in a session");
    assert_eq!(bench.buddies.iter().map(|row| (row.name.as_str(), row.signed)).collect::<Vec<_>>(), [("ben", true)]);
}

#[test]
fn a_buddy_who_leaves_covers_no_longer() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    let code = answer(&mut ada, &mut ben, Kind::Here);
    ada.ui(Ui::Scanned(code));
    ada.wait(Span::from_minutes(2));
    let code = answer(&mut ada, &mut ben, Kind::Leaving);
    assert_eq!(ada.ui(Ui::Scanned(code)).notice, Some(Notice::BuddyGone { name: "ben".into() }));
    assert_eq!(
        ada.act(start("mill")).notice,
        Some(Notice::Refused(Refusal::NoBuddy { machine: "mill".into(), renew_minutes: 15 }))
    );
}

#[test]
fn nobody_is_their_own_buddy() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let ask = code_of(ada.ui(Ui::AskBuddy { machine: None, to: None }));
    assert_eq!(ada.ui(Ui::Scanned(ask)).notice, Some(Notice::Refused(Refusal::OwnBuddy)));
}

#[test]
fn the_hub_carries_both_ways_and_a_repeat_does_nothing() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ada.come_in();
    ada.ui(Ui::AskBuddy { machine: None, to: Some("ben".into()) });
    let ask = carried(&ada);
    ben.hub(Hub::Said(said("ada", &ask)));
    assert!(matches!(ben.shown().buddy, BuddySheet::Asked(_)));
    ben.ui(Ui::AnswerBuddy(Kind::Here));
    let answer = carried(&ben);
    let shown = ben.hub(Hub::Carried(Ok(())));
    assert!(matches!(shown.buddy, BuddySheet::Answered { carried: Carriage::Handed, .. }));
    for _ in 0..2 {
        ada.hub(Hub::Said(said("ben", &answer)));
    }
    assert_eq!(ada.shown().notice, Some(Notice::BuddyHere { name: "ben".into() }));
    assert_eq!(ada.said().iter().filter(|what| *what == "buddy_confirmed").count(), 1);
    // The ask comes again with a sync: Ben is not asked twice.
    ben.ui(Ui::CloseBuddy);
    assert_eq!(ben.hub(Hub::Said(said("ada", &ask))).buddy, BuddySheet::Closed);
}

fn carried(phone: &Phone) -> String {
    let carry = phone.errands.iter().find_map(|errand| match errand {
        Errand::Carry(carry) => Some(carry.text.clone()),
        _ => None,
    });
    carry.expect("a code is carried")
}

fn said(from: &str, text: &str) -> crate::shell::hub_link::HubEvent {
    let carried = shared_core::sync::shop::Carried { from: from.into(), text: text.to_owned() };
    crate::shell::hub_link::HubEvent::Carry(carried)
}
