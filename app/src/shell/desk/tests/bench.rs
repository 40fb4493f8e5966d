//! From the door to the door: what is written, and what a refusal or a jump of the clock does.

use shared_core::command::Command;
use shared_core::plan::explain::Mark;
use shared_core::refusal::Refusal;
use shared_core::time::Span;
use shared_core::view::door::DoorView;
use shared_core::view::moved::Cause;

use super::*;
use crate::shell::desk::extra::Weighed;
use crate::store::{Extra, Notice, Screen};
use crate::words::chosen;

#[test]
fn nothing_is_written_before_the_session_begins() {
    let mut ada = Phone::joined(1);
    ada.ui(Ui::ArriveAt("forge".into()));
    ada.ui(Ui::Attest("eyes".into()));
    assert_eq!(ada.said(), Vec::<String>::new());
    let shown = ada.ui(Ui::Decline);
    assert_eq!(shown.notice, Some(Notice::Declined("Another day, then.".into())));
    assert!(matches!(shown.door, Some(DoorView::Outside { .. })));
    assert_eq!(ada.said(), Vec::<String>::new());
    assert_eq!(ada.journal.kept().head, None);
}

#[test]
fn statements_are_attested_in_order_and_one_by_one() {
    let mut ada = Phone::joined(1);
    ada.ui(Ui::ArriveAt("forge".into()));
    ada.ui(Ui::Attest("sober".into()));
    let out_by = ada.now.reading.wall + Span::from_minutes(60);
    let shown = ada.ui(Ui::Begin { out_by });
    assert!(matches!(shown.notice, Some(Notice::Refused(Refusal::NotAttested { .. }))), "{:?}", shown.notice);
    assert_eq!(ada.said(), Vec::<String>::new());
}

#[test]
fn a_whole_session_is_one_verified_chain() {
    let mut ada = Phone::joined(1);
    let shown = ada.come_in();
    assert_eq!((shown.going.to, shown.notice.clone()), (Screen::Bench, None));
    ada.act(start("saw"));
    ada.wait(Span::from_minutes(5));
    let shown = ada.act(Command::StartSweep { crew: 1 });
    assert_eq!(shown.going.to, Screen::Sweep);
    for chore in ["saw/chips", "forge/floor"] {
        ada.wait(Span::from_minutes(3));
        ada.act(Command::FinishChore { chore: chore.into(), photo: None });
    }
    let shown = ada.act(Command::Leave);
    assert_eq!((shown.going.to, shown.bench.is_none()), (Screen::Door, true));
    let kinds = ["entered", "attested", "attested", "machine_started", "machine_stopped", "sweep_started"];
    let mut wanted: Vec<&str> = kinds.to_vec();
    wanted.extend(["chore_done", "chore_done", "left"]);
    assert_eq!(ada.said(), wanted);
}

#[test]
fn a_refusal_writes_nothing_and_says_why() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let before = ada.said();
    let shown = ada.act(start("mill"));
    assert_eq!(shown.notice, Some(Notice::Refused(Refusal::NoBuddy { machine: "mill".into(), renew_minutes: 15 })));
    assert_eq!(ada.said(), before);
    assert_eq!(ada.ui(Ui::Dismiss).notice, None);
}

#[test]
fn an_out_by_that_is_weighed_moves_nothing() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let (before, said) = (ada.shown().bench.clone().expect("in a session"), ada.said());
    let later = before.out_by + Span::from_minutes(30);
    let shown = ada.ui(Ui::Want(Wanted::OutBy(later)));
    let sweep_from = before.times.as_ref().expect("a plan").sweep_from;
    let Some(Weighed { times: Some(weighed), .. }) = shown.extra.seen() else { panic!("{:?}", shown.extra) };
    assert_eq!(weighed.sweep_from, sweep_from + Span::from_minutes(30));
    assert_eq!(shown.bench.as_ref().map(|bench| bench.out_by), Some(before.out_by));
    assert_eq!(ada.ui(Ui::Want(Wanted::Nothing)).extra, Extra::default());
    assert_eq!(ada.said(), said);
}

#[test]
fn a_jump_of_the_wall_clock_is_entered_and_moves_nothing() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let before = ada.shown().bench.clone().expect("in a session");
    ada.now.reading.wall = ada.now.reading.wall + Span::from_minutes(60);
    let shown = ada.wait(Span::from_ms(1_000));
    assert_eq!(shown.notice, Some(Notice::ClockJumped { seconds: 3_600 }));
    let after = shown.bench.clone().expect("still in it");
    assert_eq!((after.out_by, after.from), (before.out_by, before.from));
    assert_eq!(shown.bell, None, "no bell is rung by a clock that was set");
    assert_eq!(ada.said().last().map(String::as_str), Some("clock_jumped"));
}

#[test]
fn a_new_version_never_takes_over_a_session() {
    for (inside, takes_over) in [(false, true), (true, false)] {
        let mut ada = Phone::joined(1);
        if inside {
            ada.come_in();
        }
        ada.send(Intent::Phone(Told::UpdateWaits));
        assert_eq!(ada.errands.contains(&Errand::TakeOver), takes_over, "inside: {inside}");
        assert!(ada.shown().sync.update_waits);
        ada.ui(Ui::Update);
        assert!(ada.errands.contains(&Errand::TakeOver), "a tap is enough");
    }
}

#[test]
fn codes_of_others_are_told_apart() {
    for (text, wanted) in [
        ("https://shop.test/d/forge", None),
        ("https://elsewhere.test/d/forge", Some("This code belongs to another shop (elsewhere.test).")),
        ("https://shop.test/d/", Some("This code did not come across whole.")),
        ("SWB9:XYZ", Some("This code was made by a newer app.")),
        ("4006381333931", Some("This is not a code of this shop.")),
    ] {
        let mut ada = Phone::joined(1);
        let shown = ada.ui(Ui::Scanned(text.into()));
        let reason = match &shown.notice {
            Some(Notice::Unreadable(unreadable)) => Some(unreadable.reason(chosen())),
            None => None,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(reason.as_deref(), wanted, "{text}");
    }
}

/// 97 dB(A) is half an hour (NIOSH 98-126, Table 1-1): of the day, not of the session, and a new day begins anew.
#[test]
fn what_is_left_for_ears_is_the_days_and_not_the_sessions() {
    #[track_caller]
    fn left(ada: &Phone) -> Option<i64> {
        let Some(bench) = &ada.shown().bench else { panic!("no session: {:?}", ada.shown().notice) };
        let saw = bench.machines.iter().find(|row| row.id == "saw".into()).expect("the saw");
        saw.left_today.map(|left| left.minutes)
    }
    let mut ada = Phone::joined(1);
    ada.come_in();
    assert_eq!(left(&ada), Some(30));
    ada.act(start("saw"));
    ada.wait(Span::from_minutes(10));
    ada.act(Command::StopMachine { machine: "saw".into() });
    assert_eq!(left(&ada), Some(20));
    ada.act(Command::Leave);
    ada.wait(Span::from_minutes(1));
    ada.come_in();
    assert_eq!(left(&ada), Some(20));
    ada.act(Command::Leave);
    let mut ada = ada.reopened_after(24 * 60);
    ada.hub(Hub::Shop(Ok(text(&shop()))));
    // A page opened anew draws the same test chance again: a tick later, the session has another name.
    ada.wait(Span::from_minutes(1));
    ada.come_in();
    assert_eq!(left(&ada), Some(30));
}

#[test]
fn what_an_act_moved_is_told_until_the_next() {
    let mut ada = Phone::joined(1);
    assert_eq!(ada.come_in().moved, None);
    let out_by = ada.now.reading.wall + Span::from_minutes(90);
    let shown = ada.act(Command::MoveOutBy { out_by }).clone();
    let moved = shown.moved.expect("everything moves along");
    assert_eq!((&moved.cause, moved.times[0].mark, moved.times[0].to), (&Cause::OutByMoved, Mark::OutBy, Some(out_by)));
    let sweep = moved.times.iter().find(|time| time.mark == Mark::SweepFrom).expect("the sweep moved");
    assert_eq!(sweep.to, shown.bench.and_then(|bench| bench.times.ok()).map(|times| times.sweep_from));
    ada.wait(Span::from_minutes(1));
    assert!(ada.shown().moved.is_some(), "time alone takes nothing away");
    assert_eq!(ada.act(Command::StopMachine { machine: "saw".into() }).moved, None, "a refusal moves nothing");
}
