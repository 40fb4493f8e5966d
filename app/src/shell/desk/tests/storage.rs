//! A full phone, two tabs, a spoilt line, a page that was killed: nothing that was shown is lost, nothing is shown early.

use shared_core::command::Command;

use super::*;
use crate::shell::journal::proving::spoilt;
use crate::shell::journal::{Change, Fault, Journal as _, Line, Other};
use crate::shell::photo::PhotoFault;
use crate::store::Notice;

#[test]
fn on_a_full_phone_nothing_is_shown_as_done() {
    for fault in [Fault::Full, Fault::Lost, Fault::Unavailable("no".into())] {
        let mut ada = Phone::joined(1);
        ada.come_in();
        let (said, bench) = (ada.said(), ada.shown().bench.clone());
        ada.journal.fail_next(fault.clone());
        let shown = ada.act(start("saw"));
        assert_eq!(shown.notice, Some(Notice::NotSaved(fault)));
        assert_eq!(shown.bench, bench, "the machine is not shown as running");
        assert_eq!(ada.said(), said);
        // The session goes on, and the same act does once there is room.
        ada.act(start("saw"));
        assert_eq!(ada.said().last().map(String::as_str), Some("machine_started"));
    }
}

#[test]
fn a_session_that_was_not_saved_did_not_begin() {
    let mut ada = Phone::joined(1);
    ada.journal.fail_next(Fault::Full);
    let shown = ada.come_in();
    assert_eq!((shown.notice.clone(), shown.bench.is_none()), (Some(Notice::NotSaved(Fault::Full)), true));
    assert_eq!(ada.said(), Vec::<String>::new());
    // What was attested is still there: one tap tries again.
    let out_by = ada.now.reading.wall + Span::from_minutes(60);
    assert!(ada.ui(Ui::Begin { out_by }).bench.is_some());
}

#[test]
fn two_tabs_write_one_chain() {
    let mut one = Phone::joined(1);
    one.come_in();
    let mut two = Phone::open(one.key.clone(), one.journal.clone(), one.now.reading.wall);
    one.act(start("saw"));
    // The second tab was not told; it reads again before it decides, and so refuses what is done already.
    let shown = two.act(start("saw"));
    assert!(matches!(shown.notice, Some(Notice::Refused(_))), "{:?}", shown.notice);
    two.act(Command::StopMachine { machine: "saw".into() });
    one.send(Intent::Phone(Told::OtherTab));
    assert_eq!(one.shown().bench, two.shown().bench);
    assert_eq!(one.said(), ["entered", "attested", "attested", "machine_started", "machine_stopped"]);
}

#[test]
fn a_conflict_is_read_again_and_decided_again_once() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada.journal.fail_next(Fault::Moved);
    assert_eq!(ada.act(start("saw")).notice, None);
    assert_eq!(ada.said().last().map(String::as_str), Some("machine_started"));
}

#[test]
fn a_killed_page_comes_back_where_it_was() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada.act(start("saw"));
    let (before, book) = (ada.shown().clone(), ada.book());
    let mut ada = ada.reopened_after(0);
    assert_eq!(ada.book(), book);
    let after = ada.shown();
    assert_eq!((&after.bench, &after.sweep), (&before.bench, &before.sweep));
    assert_eq!((&after.gate, &after.shop), (&before.gate, &before.shop));
}

#[test]
fn a_spoilt_line_is_set_aside_and_the_rest_goes_on() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada.act(start("saw"));
    ada.journal.spoil(2);
    let mut ada = ada.reopened_after(1);
    assert_eq!(ada.shown().notice, Some(Notice::SetAside { lines: 1 }));
    assert_eq!((ada.shown().sync.aside, ada.journal.kept().log.len()), (1, 3));
    let request = ada.errands.iter().find_map(|errand| match errand {
        Errand::Later(LaterErrand::Sync(request)) => Some(request.clone()),
        _ => None,
    });
    assert_eq!(request.expect("asks at the start").lost, [2]);
    // The session is known, and the chain goes on behind the hole.
    ada.act(Command::StopMachine { machine: "saw".into() });
    assert_eq!(ada.journal.kept().log.last().map(|line| line.seq), Some(5));
    assert_eq!(ada.reopened_after(0).shown().notice, None, "it is told once");
}

/// Lines of others are read at once and proved when there is time: one that nobody signed is set aside then, and folded no more.
#[test]
fn a_line_of_another_that_storage_spoilt_is_set_aside_once_it_is_proved() {
    let (ada, mut ben) = (Phone::joined(1), Phone::joined(2));
    ben.come_in();
    ben.act(start("saw"));
    let lines = ben.journal.kept().log;
    let other = |line: &Line| Other { id: format!("{} {:016}", ben.key.device_id(), line.seq), jws: line.jws.clone() };
    let changes: Vec<Change> = lines.iter().map(|line| Change::Other(other(line))).collect();
    done(ada.journal.change(&changes)).expect("memory");
    assert_eq!(done(spoilt(&ada.journal)), Ok(Vec::new()));
    // The newest: what stands before it in its run was vouched for by it, and is proved by its own then.
    let last = format!("{} {:016}", ben.key.device_id(), lines.len());
    ada.journal.spoil_signature(&last);
    let mut ada = ada.reopened_after(1);
    assert_eq!((ada.shown().notice.clone(), ada.shown().sync.aside), (None, 0));
    let found = done(spoilt(&ada.journal)).expect("memory");
    assert!(matches!(&found[..], [Change::OtherAside(aside)] if aside.id == last), "{found:?}");
    let shown = ada.send(Intent::Phone(Told::Spoilt(found)));
    assert_eq!((shown.notice.clone(), shown.sync.aside), (Some(Notice::SetAside { lines: 1 }), 1));
    assert_eq!(ada.journal.kept().others.len(), lines.len() - 1);
    assert_eq!(done(spoilt(&ada.journal)), Ok(Vec::new()));
}

/// This phone's own lines likewise, each for itself: its number is told as lost, and the chain goes on.
#[test]
fn a_line_of_its_own_that_storage_spoilt_is_set_aside_once_it_is_proved() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada.act(start("saw"));
    let lines = ada.journal.kept().log.len() as u64;
    assert_eq!(done(spoilt(&ada.journal)), Ok(Vec::new()));
    ada.journal.spoil_own_signature(lines);
    let mut ada = ada.reopened_after(1);
    assert_eq!((ada.shown().notice.clone(), ada.shown().sync.aside), (None, 0));
    let found = done(spoilt(&ada.journal)).expect("memory");
    assert!(matches!(&found[..], [Change::LineAside { seq, .. }] if *seq == lines), "{found:?}");
    let shown = ada.send(Intent::Phone(Told::Spoilt(found)));
    assert_eq!((shown.notice.clone(), shown.sync.aside), (Some(Notice::SetAside { lines: 1 }), 1));
    assert_eq!(done(spoilt(&ada.journal)), Ok(Vec::new()));
    ada.act(Command::TagOut { machine: "saw".into(), problem: "it howls".into(), photo: None });
    assert_eq!(ada.journal.kept().log.last().map(|line| line.seq), Some(lines + 1));
}

#[test]
fn a_picture_that_does_not_fit_never_holds_a_chore_up() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada.act(Command::StartSweep { crew: 1 });
    let floor = || Command::FinishChore { chore: "forge/floor".into(), photo: None };
    ada.ui(Ui::Photograph(floor()));
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Photograph(floor()))));
    let shown = ada.send(Intent::Phone(Told::Photographed(floor(), Err(PhotoFault::Storage(Fault::Full)))));
    assert_eq!(shown.notice, Some(Notice::NoPhoto(PhotoFault::Storage(Fault::Full))));
    ada.send(Intent::Phone(Told::Photographed(floor(), Ok(None))));
    assert_eq!(ada.said().last().map(String::as_str), Some("sweep_started"));
    ada.send(Intent::Phone(Told::Photographed(floor(), Ok(Some("sha".into())))));
    assert_eq!(ada.said().last().map(String::as_str), Some("chore_done"));
}
