//! The log on its way: what waits, what the hub holds, what it will not take, and when it is asked again.

use shared_core::ids::SessionId;
use shared_core::log::chain::Head;
use shared_core::sync::message::{GoesOn, Rejected, SyncAnswer, SyncRequest, Why};
use shared_core::view::book::Standing;
use shared_core::view::door::DoorView;

use super::*;
use crate::shell::hub_link::{HubEvent, LinkFault};
use crate::shell::journal::Fault;
use crate::store::{Link, Notice};
use crate::words::faults;

fn asked(phone: &Phone) -> Option<SyncRequest> {
    phone.errands.iter().find_map(|errand| match errand {
        Errand::Later(LaterErrand::Sync(request)) => Some((**request).clone()),
        _ => None,
    })
}

/// An answer that holds the phone's log up to `seq`.
fn held(phone: &Phone, seq: u64) -> SyncAnswer {
    let line = phone.journal.kept().log.into_iter().find(|line| line.seq == seq);
    let head = line.map_or_else(Head::default, |line| Head { seq, hash: jws::hash(&line.jws) });
    SyncAnswer::new(phone.now.reading.wall, head, "1")
}

fn answered(phone: &mut Phone, answer: SyncAnswer) -> &Shown {
    phone.hub(Hub::Synced(Some(Ok(Box::new(answer)))))
}

/// Ada has come in: three lines wait, and the question that was in flight before has been answered.
fn waiting() -> (Phone, SyncRequest) {
    let mut ada = Phone::joined(1);
    let first = held(&ada, 0);
    answered(&mut ada, first);
    ada.come_in();
    let request = asked(&ada).expect("asks after each act");
    (ada, request)
}

#[test]
fn an_act_is_sent_and_its_lines_are_held() {
    let (mut ada, request) = waiting();
    assert_eq!((request.push.len(), ada.shown().sync.waiting), (3, 3));
    let some = held(&ada, 2);
    answered(&mut ada, some);
    assert!(!ada.errands.contains(&Errand::Later(LaterErrand::Pictures)), "a line waits");
    let (mut ada, _) = waiting();
    let answer = held(&ada, 3);
    let shown = answered(&mut ada, answer);
    assert_eq!((shown.sync.waiting, shown.sync.rejected), (0, 0));
    assert!(matches!(shown.sync.link, Link::Reached(_)));
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Pictures)));
    assert!(ada.book().iter().all(|line| line.standing == Standing::Held));
    assert!(ada.reopened_after(1).book().iter().all(|line| line.standing == Standing::Held));
}

#[test]
fn what_is_done_while_a_question_is_in_flight_is_sent_right_after_it() {
    let mut ada = Phone::joined(1);
    let (first, second) = (held(&ada, 0), held(&ada, 0));
    answered(&mut ada, first);
    assert_eq!(asked(&ada), None);
    ada.ui(Ui::Sync);
    assert_eq!(asked(&ada).expect("asks").push.len(), 0);
    ada.come_in();
    assert_eq!(asked(&ada), None, "one question at a time");
    answered(&mut ada, second);
    assert_eq!(asked(&ada).expect("asks again at once").push.len(), 3);
}

#[test]
fn what_the_hub_will_not_take_stays_and_is_shown_with_the_reason() {
    let (mut ada, _) = waiting();
    let mut answer = held(&ada, 3);
    answer.rejected.push(Rejected { seq: 2, why: Why::OtherMember });
    let shown = answered(&mut ada, answer);
    assert_eq!((shown.sync.waiting, shown.sync.rejected), (0, 1));
    let reason = ada.book().iter().find(|line| line.seq == 2).map(|line| line.standing.clone());
    let Some(Standing::Rejected(why)) = reason else { panic!("{reason:?}") };
    assert_eq!(why, "other_member", "kept by its name, told in the words of the phone's language");
    let told = faults::not_taken(&why);
    assert!(told.starts_with("This entry speaks for another member. It stays"), "{told}");
    assert_eq!(faults::not_taken("An older app's sentence."), "An older app's sentence.");
    assert_eq!(ada.said().len(), 3, "nothing is dropped");
}

#[test]
fn a_hub_restored_from_yesterday_gets_the_lines_again() {
    let (mut ada, _) = waiting();
    let answer = held(&ada, 3);
    answered(&mut ada, answer);
    ada.ui(Ui::Sync);
    let back = held(&ada, 1);
    let shown = answered(&mut ada, back);
    assert_eq!(shown.sync.waiting, 2);
    assert_eq!(asked(&ada).expect("asks at once").push.len(), 2);
}

#[test]
fn an_answer_to_another_question_is_none_and_it_asks_again() {
    let (mut ada, request) = waiting();
    let mut answer = held(&ada, 3);
    answer.goes_on = Some(GoesOn { since: request.since + 1, ..request.goes_on() });
    assert_eq!(answered(&mut ada, answer).sync.waiting, 3);
    ada.wait(Span::from_ms(1_000));
    assert_eq!(asked(&ada).expect("the first wait is a second at most"), request);
}

#[test]
fn without_a_network_it_asks_again_later_and_at_once_when_it_returns() {
    let (mut ada, _) = waiting();
    let shown = ada.hub(Hub::Synced(Some(Err(LinkFault::Offline))));
    assert_eq!(shown.sync.link, Link::Fault(LinkFault::Offline));
    assert_eq!(shown.notice, None, "being offline is normal");
    assert_eq!(asked(&ada), None);
    ada.wait(Span::from_ms(1_000));
    assert_eq!(asked(&ada).expect("the first wait is a second at most").push.len(), 3);
    ada.hub(Hub::Synced(Some(Err(LinkFault::TooMany { after_seconds: 30 }))));
    ada.wait(Span::from_ms(29_000));
    assert_eq!(asked(&ada), None);
    ada.wait(Span::from_ms(1_000));
    assert!(asked(&ada).is_some());
    ada.hub(Hub::Synced(Some(Err(LinkFault::TooMany { after_seconds: 300 }))));
    ada.send(Intent::Phone(Told::Woke(Wake::Network)));
    assert!(asked(&ada).is_some(), "the network is back");
}

#[test]
fn while_the_hub_is_heard_to_have_nothing_it_is_hardly_asked() {
    let mut ada = Phone::joined(1);
    let said = |ada: &mut Phone, event| drop(ada.hub(Hub::Said(event)).sync.link.clone());
    let answer = |ada: &mut Phone| {
        let nothing = held(ada, 0);
        answered(ada, nothing);
    };
    // So many questions in so many minutes, each answered; the hub says each 50 s that it is there, if it is.
    let questions = |ada: &mut Phone, minutes: i64, heard: bool| {
        let mut questions = 0;
        for second in 1..=minutes * 60 {
            ada.wait(Span::from_ms(1_000));
            let mut asks = asked(ada).is_some();
            if heard && second % 50 == 0 {
                said(ada, HubEvent::Still);
                asks |= asked(ada).is_some();
            }
            if asks {
                questions += 1;
                answer(ada);
            }
        }
        questions
    };
    answer(&mut ada);
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Listen)));
    said(&mut ada, HubEvent::Open);
    assert!(asked(&ada).is_some(), "what was said before it opened was not told");
    answer(&mut ada);
    assert_eq!(questions(&mut ada, 60, true), 6);
    said(&mut ada, HubEvent::Still);
    assert_eq!(
        ada.shown().sync.link,
        Link::Reached(ada.now.reading.wall),
        "whoever hears it knows that there is nothing"
    );
    said(&mut ada, HubEvent::Log);
    assert!(asked(&ada).is_some(), "there is something");
    answer(&mut ada);
    assert_eq!(questions(&mut ada, 10, false), 9, "a stream that is silent is none: from the third minute on each");
    said(&mut ada, HubEvent::Closed);
    assert_eq!(asked(&ada), None, "not all phones at once");
    ada.wait(Span::from_ms(5_100));
    assert!(asked(&ada).is_some(), "is there still a hub?");
    answer(&mut ada);
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Listen)), "and it is listened to again");
    ada.come_in();
    assert!(asked(&ada).is_some(), "an act is sent at once");
}

#[test]
fn lines_of_others_are_opened_kept_and_folded_once() {
    let (mut ben, mut ada) = (Phone::joined(2), Phone::joined(1));
    ben.come_in();
    let theirs: Vec<String> = ben.journal.kept().log.iter().map(|line| line.jws.clone()).collect();
    for _ in 0..2 {
        let mut answer = held(&ada, 0);
        answer.pull = theirs.clone();
        answer.pull.push("not a line".into());
        answer.cursor = 4;
        answered(&mut ada, answer);
        ada.ui(Ui::Sync);
    }
    let people = |phone: &Phone| {
        let room = phone.shown().room.clone().expect("joined");
        room.rooms[0].people.iter().map(|person| person.name.clone()).collect::<Vec<_>>()
    };
    assert_eq!(people(&ada), ["ben"]);
    assert_eq!(ada.journal.kept().others.len(), 3);
    assert_eq!(asked(&ada).map(|request| request.since), Some(4));
    assert_eq!(people(&ada.reopened_after(5)), ["ben"]);
}

#[test]
fn a_session_that_another_phone_of_the_same_person_left_is_over_here() {
    let (mut old, mut new) = (Phone::joined(1), Phone::joined(4));
    old.come_in();
    pull(&mut new, &old);
    assert!(new.come_in().bench.is_some(), "the old phone is not in the way");
    pull(&mut old, &new);
    assert_eq!((old.shown().bench.is_none(), old.shown().sweep.is_none()), (true, true));
    assert!(old.errands.contains(&Errand::KeepLit(false)));
    old.ui(Ui::ArriveAt("forge".into()));
    assert!(matches!(old.shown().door, Some(DoorView::Attest { .. })), "{:?}", old.shown().door);
}

/// `to` hears everything that `from` has said.
fn pull(to: &mut Phone, from: &Phone) {
    let mut answer = held(to, 0);
    answer.pull = from.journal.kept().log.iter().map(|line| line.jws.clone()).collect();
    to.ui(Ui::Sync);
    answered(to, answer);
}

#[test]
fn an_answer_that_could_not_be_kept_is_as_if_lost() {
    let (mut ada, _) = waiting();
    ada.journal.fail_next(Fault::Full);
    let answer = held(&ada, 3);
    let shown = answered(&mut ada, answer);
    assert_eq!((shown.sync.waiting, shown.notice.clone()), (3, None));
    ada.wait(Span::from_ms(1_000));
    assert_eq!(asked(&ada).expect("asks again").push.len(), 3);
}

#[test]
fn two_stories_are_told_to_the_member() {
    let (mut ada, _) = waiting();
    let mut answer = held(&ada, 3);
    answer.head.hash = "another".into();
    assert_eq!(answered(&mut ada, answer.clone()).notice, Some(Notice::Forked));
    ada.ui(Ui::Dismiss);
    ada.ui(Ui::Sync);
    assert_eq!(answered(&mut ada, answer).notice, None, "once is enough");
}

#[test]
fn a_newer_shop_is_fetched_until_it_is_here() {
    let (mut ada, _) = waiting();
    for _ in 0..2 {
        let mut answer = held(&ada, 3);
        answer.shop = "2".into();
        answered(&mut ada, answer);
        assert!(ada.errands.contains(&Errand::Later(LaterErrand::Shop)));
        ada.hub(Hub::Shop(Err(LinkFault::Offline)));
        ada.ui(Ui::Sync);
    }
    let mut newer = shop();
    newer.rev = "2".into();
    ada.hub(Hub::Shop(Ok(text(&newer))));
    let mut answer = held(&ada, 3);
    answer.shop = "2".into();
    answered(&mut ada, answer);
    assert!(!ada.errands.contains(&Errand::Later(LaterErrand::Shop)));
    assert_eq!(ada.shown().bench.as_ref().map(|bench| bench.room.as_str()), Some("Forge"));
    assert_ne!(ada.desk.ledger.my_session(), Some(&SessionId::outside()));
}

/// The page is closed and opened in between: what holds for the session is what the journal has.
#[test]
fn a_session_keeps_the_rules_that_it_began_under() {
    let (mut ada, _) = waiting();
    let mut newer = shop();
    (newer.rev, newer.book) = ("2".into(), "other rules".into());
    newer.rulebook.rooms[0].name = "Smithy".into();
    newer.members = shared_core::members::Members::default();
    let room = |ada: &Phone| ada.shown().bench.as_ref().map(|bench| bench.room.clone());
    ada.hub(Hub::Shop(Ok(text(&newer))));
    assert_eq!(room(&ada).as_deref(), Some("Forge"));
    assert!(ada.desk.viewer().is_some_and(|viewer| viewer.members.get(viewer.me).is_none()), "members hold at once");
    let mut ada = ada.reopened_after(1);
    assert_eq!(room(&ada).as_deref(), Some("Forge"));
    ada.act(Command::Leave);
    let mut answer = held(&ada, 4);
    answer.shop = "2".into();
    answered(&mut ada, answer);
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Shop)), "it is over");
    ada.hub(Hub::Shop(Ok(text(&newer))));
    assert_eq!(ada.desk.shop.as_ref().map(|shop| shop.book.as_str()), Some("other rules"));
}
