//! A long push is taken by one signature, and handed out once each line was proved by itself.

use serde_json::json;
use shared_core::entry::Fact;
use shared_core::sync::message::{Rejected, Why};

use crate::support::{Engine, Phone, Place, Stream, on_both};

on_both! {
    a_long_push_is_handed_out_whole_and_told,
    what_is_vouched_for_and_not_signed_is_handed_to_nobody,
    a_kill_between_taking_and_proving_loses_nothing_and_lets_nothing_through,
    what_another_process_left_is_proved,
    a_long_push_without_a_good_signature_is_refused,
}

/// Forty lines, the tenth of them not signed.
fn forty(phone: &mut Phone) -> (Vec<String>, Vec<String>) {
    let mut lines = phone.says_rounds(9);
    let unsigned = phone.says_unsigned(Fact::WatchRound);
    let good = [lines.clone(), phone.says_rounds(30)].concat();
    lines.push(unsigned);
    lines.extend_from_slice(&good[9..]);
    (lines, good)
}

fn a_long_push_is_handed_out_whole_and_told(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let stream = Stream::open(&hub, &bo.cookie);
    assert_eq!(stream.next().map(|(name, _)| name), Some("shop".to_owned()));
    let lines = ada.says_rounds(150);
    let answer = ada.sync(&hub, &lines, 0);
    assert_eq!((answer.head, answer.rejected), (ada.head.clone(), vec![]));
    assert_eq!(stream.next().map(|(name, _)| name), Some("log".to_owned()));
    assert_eq!(bo.sync(&hub, &[], 0).pull, lines, "told after it is handed out");
    assert_eq!(place.exported(), lines);
}

fn what_is_vouched_for_and_not_signed_is_handed_to_nobody(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let cy = Phone::joined(3, "cy", &hub);
    let (lines, good) = forty(&mut ada);
    assert_eq!(ada.sync(&hub, &lines, 0).head, ada.head);
    let short = bo.says_rounds(1);
    bo.sync(&hub, &short, 0);
    assert_eq!(cy.pulls(&hub, 0, 40), [good.clone(), short.clone()].concat());
    assert_eq!(cy.sync(&hub, &[], 0).pull.len(), 40, "nor later");
    // Its phone hears of it, may repeat it, and goes on.
    let unsigned = Rejected { seq: 10, why: Why::Damaged };
    assert_eq!(ada.sync(&hub, &[], 0).rejected, vec![unsigned.clone()]);
    let more = ada.says_rounds(2);
    let repeated = ada.sync(&hub, &[&lines[..], &more].concat(), 0);
    assert_eq!((repeated.head, repeated.rejected), (ada.head.clone(), vec![unsigned]));
    assert_eq!(bo.sync(&hub, &[], 0).rejected, vec![]);
    assert_eq!(cy.pulls(&hub, 0, 42), [good, short, more].concat());
    // It keeps its place, and a copy is proved with it.
    assert_eq!(hub.stop(), Some(0));
    assert_eq!(place.exported().len(), 43);
    if engine == Engine::Sqlite {
        let (code, answer, said) = place.tool(&["backup", "copy.sqlite", "--data", "data"]);
        assert_eq!((code, &answer["entries"]), (Some(0), &json!(43)), "{said}");
    }
}

fn a_kill_between_taking_and_proving_loses_nothing_and_lets_nothing_through(engine: Engine) {
    let place = Place::with(engine);
    let mut hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let mut all = Vec::new();
    for _ in 0..3 {
        let (lines, good) = forty(&mut ada);
        assert_eq!(ada.sync(&hub, &lines, 0).head, ada.head);
        hub.cut_off();
        all.extend(good);
        hub = place.hub();
    }
    assert_eq!(bo.pulls(&hub, 0, all.len()), all);
    let unsigned = ada.sync(&hub, &[], 0).rejected;
    assert_eq!(unsigned.iter().map(|rejected| rejected.seq).collect::<Vec<_>>(), [90, 50, 10]);
}

fn what_another_process_left_is_proved(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(12);
    ada.sync(&hub, &lines, 0);
    assert_eq!(hub.stop(), Some(0));
    place.tell("INSERT INTO unproved (from_pos, to_pos) VALUES (5, 9)");
    let hub = place.hub();
    assert_eq!(bo.pulls(&hub, 0, 12), lines);
}

fn a_long_push_without_a_good_signature_is_refused(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let good = ada.says_rounds(20);
    let head = ada.head.clone();
    let bad: Vec<_> = (0..20).map(|_| ada.says_unsigned(Fact::WatchRound)).collect();
    let answer = ada.sync(&hub, &[good.clone(), bad].concat(), 0);
    assert_eq!(answer.head, head, "up to the newest good one");
    assert!(answer.rejected.iter().all(|rejected| rejected.why == Why::Damaged && rejected.seq > 20));
    assert_eq!((answer.rejected.len(), place.exported()), (20, good));
}
