//! Two phones without a network: a code shown, a code shown back, and what each of them may claim.

use shared_core::code::answer::{AnswerFault, Kind};
use shared_core::refusal::Refusal;
use shared_core::view::bench::{Cover, Standing};

use shared_core::entry::Given;
use shared_core::in_room::{Board, RoomKey};
use shared_core::pin::{CHECK_BYTES, PinFault, PinSet, SALT_BYTES};

use super::*;
use crate::store::{BuddySheet, Carriage, Notice, Pin};

fn code_of(shown: &Shown) -> String {
    match &shown.buddy {
        BuddySheet::Asking { code, .. } | BuddySheet::Answered { code, .. } => code.clone(),
        other => panic!("no code is shown: {other:?}"),
    }
}

fn say(kind: Kind) -> Ui {
    Ui::AnswerBuddy { kind, board: String::new() }
}

/// Ada asks, Ben answers; the code that Ben's phone shows.
fn answer(ada: &mut Phone, ben: &mut Phone, kind: Kind) -> String {
    let ask = code_of(ada.ui(Ui::AskBuddy { machine: None, to: None }));
    ben.ui(Ui::Scanned(ask));
    code_of(ben.ui(say(kind)))
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
        code_of(ben.ui(say(Kind::Here)))
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
    ben.ui(say(Kind::Here));
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
        Errand::Later(LaterErrand::Carry(carry)) => Some(carry.text.clone()),
        _ => None,
    });
    carry.expect("a code is carried")
}

fn said(from: &str, text: &str) -> crate::shell::hub_link::HubEvent {
    let carried = shared_core::sync::shop::Carried { from: from.into(), text: text.to_owned() };
    crate::shell::hub_link::HubEvent::Carry(carried)
}

/// The demo's shop with a board in the forge, and figures of Ben's.
fn equipped() -> ShopBundle {
    ShopBundle {
        boards: vec![Board { room: "forge".into(), key: RoomKey([5; 32]) }],
        pins: vec![PinSet::new(&[1; SALT_BYTES], &[2; CHECK_BYTES]).of("ben".into())],
        ..shop()
    }
}

fn given(phone: &Phone) -> Vec<Given> {
    let bench = phone.shown().bench.as_ref().expect("in a session");
    bench.buddies.iter().map(|row| row.given).collect()
}

#[test]
fn the_boards_code_marks_a_word_as_given_in_the_room_and_a_wrong_one_does_not_count() {
    let (mut ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    for phone in [&mut ada, &mut ben] {
        phone.hub(Hub::Shop(Ok(text(&equipped()))));
    }
    ada.come_in();
    let mut answer = |board: &str| {
        let ask = code_of(ada.ui(Ui::AskBuddy { machine: None, to: None }));
        assert!(matches!(&ben.ui(Ui::Scanned(ask)).buddy, BuddySheet::Asked(asked) if asked.board));
        let answered = ben.ui(Ui::AnswerBuddy { kind: Kind::Here, board: board.to_owned() }).clone();
        match answered.buddy {
            BuddySheet::Answered { code, .. } => Ok(ada.ui(Ui::Scanned(code)).notice.clone()),
            _ => Err(answered.notice),
        }
    };
    let shown = shared_core::in_room::shown(RoomKey([5; 32]).code(at(START)));
    assert_eq!(answer("12 34"), Err(Some(Notice::Pin(Pin::Fault(PinFault::NotSixFigures)))));
    assert_eq!(answer("000 000"), Ok(Some(Notice::BadAnswer(AnswerFault::BoardCode))));
    let counted = Some(Notice::BuddyHere { name: "ben".into() });
    assert_eq!(answer(&shown), Ok(counted.clone()));
    assert_eq!(given(&ada), [Given::InTheRoom]);
    ada.wait(Span::from_minutes(1));
    let code = self::answer(&mut ada, &mut ben, Kind::Here);
    assert_eq!(ada.ui(Ui::Scanned(code)).notice, counted);
    assert_eq!(given(&ada), [Given::OnTheirWord], "the newest word is what is shown");
}

#[test]
fn a_buddy_without_a_phone_confirms_with_their_figures_and_nobody_else_with_them() {
    let mut ada = Phone::joined(1);
    ada.hub(Hub::Shop(Ok(text(&equipped()))));
    ada.come_in();
    let shown = ada.ui(Ui::AskBuddy { machine: None, to: None });
    assert!(matches!(&shown.buddy, BuddySheet::Asking { pins, .. } if *pins == [("ben".into(), "ben".to_owned())]));
    let typed = |who: &str, figures: &str| Ui::ConfirmByPin { who: who.into(), figures: figures.to_owned() };
    let digested = |byte: u8| Intent::Phone(Told::Digested("ben".into(), Some(vec![byte; CHECK_BYTES])));
    assert_eq!(ada.ui(typed("ben", "123")).notice, Some(Notice::Pin(Pin::Fault(PinFault::NotSixFigures))));
    assert_eq!(ada.ui(typed("cem", "204817")).notice, Some(Notice::Pin(Pin::Unknown)));
    ada.ui(typed("ben", "204 817"));
    let digest = Errand::Later(LaterErrand::Digest {
        who: "ben".into(),
        figures: "204817".into(),
        salt: vec![1; 16],
        rounds: 600_000,
    });
    assert!(ada.errands.contains(&digest));
    assert_eq!(ada.send(digested(3)).notice, Some(Notice::Pin(Pin::Wrong)));
    assert_eq!(ada.said().iter().filter(|what| *what == "buddy_confirmed").count(), 0);
    assert_eq!(ada.send(digested(2)).notice, Some(Notice::BuddyHere { name: "ben".into() }));
    assert_eq!(given(&ada), [Given::ByPin]);
    // What comes late, when nobody asks any more, is nobody's word.
    ada.send(digested(2));
    assert_eq!(ada.said().iter().filter(|what| *what == "buddy_confirmed").count(), 1);
    // Five wrong tries, and the phone does not even reckon for a while.
    ada.ui(Ui::AskBuddy { machine: None, to: None });
    for _ in 0..5 {
        ada.send(digested(3));
    }
    let rests = Some(Notice::Pin(Pin::Rests { minutes: 10 }));
    assert_eq!(ada.ui(typed("ben", "204817")).notice, rests);
    assert!(!ada.errands.contains(&digest));
}

#[test]
fn a_members_own_figures_are_kept_by_the_hub_or_it_says_why_not() {
    let mut ada = Phone::joined(1);
    assert_eq!(ada.ui(Ui::SetPin("123456".into())).notice, Some(Notice::Pin(Pin::Fault(PinFault::Guessable))));
    ada.ui(Ui::SetPin("204817".into()));
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::SetPin("204817".into()))));
    assert_eq!(ada.hub(Hub::PinSet(Ok(()))).notice, Some(Notice::Pin(Pin::Kept)));
    let fault = crate::shell::hub_link::LinkFault::Offline;
    assert_eq!(ada.hub(Hub::PinSet(Err(fault.clone()))).notice, Some(Notice::Link(fault)));
}
