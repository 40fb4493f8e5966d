//! What becomes of each pushed line.

use std::collections::BTreeMap;

use super::Hub;
use crate::entry::Fact;
use crate::log::chain::Head;
use crate::log::testing::{Writer, minute, one_of_each, said};
use crate::log::wire::what_of;
use crate::log::{jws, wire};
use crate::sync::hub::{Intake, LostStretch, Taken, members_may_see};
use crate::sync::message::{PROTOCOL, Rejected, SyncRequest, Why};
use crate::sync::peer::Phone;

fn intake(lost: &[u64]) -> Intake {
    let dev = Writer::new(1).link().dev;
    Intake::new(dev, "m1".into(), Head::default(), BTreeMap::new(), lost)
}

fn lines(count: i64) -> Vec<String> {
    let mut writer = Writer::new(1);
    (0..count).map(|minutes| writer.write(&said("m1", minutes, Fact::WatchRound)).jws).collect()
}

#[test]
fn what_is_wrong_is_refused_and_the_head_stays() {
    let (lines, mut intake) = (lines(3), intake(&[]));
    assert!(matches!(intake.take(&lines[0]), Taken::Stored { after: None, .. }));
    let second_story = Writer::new(1).write(&said("m1", 9, Fact::Left)).jws;
    let stranger = Writer::new(2).write(&said("m1", 0, Fact::Left)).jws;
    let damaged = format!("{}A", &lines[1][..lines[1].len() - 1]);
    for (line, seq, why) in [
        (&second_story, 1, Why::Fork),
        (&stranger, 1, Why::OtherDevice),
        (&lines[2], 3, Why::Gap),
        (&damaged, 2, Why::Damaged),
        (&"rubbish".to_owned(), 0, Why::Damaged),
    ] {
        assert_eq!(intake.take(line), Taken::Refused { seq, why });
        assert_eq!(intake.head().seq, 1);
        assert_eq!(intake.rejected().last(), Some(&Rejected { seq, why }));
    }
    assert!(matches!(intake.take(&lines[1]), Taken::Stored { .. }), "the true entry still goes on");
}

/// A second story that is longer than the hub's, and one whose newest entry alone is pushed again.
#[test]
fn the_next_entry_must_name_the_head() {
    let lines = lines(2);
    let head = Head { seq: 1, hash: jws::hash(&lines[0]) };
    let intake = || Intake::new(Writer::new(1).link().dev, "m1".into(), head.clone(), BTreeMap::new(), &[]);
    let mut twin = Writer::new(1);
    twin.write(&said("m1", 40, Fact::WatchRound));
    let second = twin.write(&said("m1", 50, Fact::Left)).jws;
    assert_eq!(intake().take(&second), Taken::Refused { seq: 2, why: Why::Fork });
    assert_eq!(intake().take(&lines[0]), Taken::Duplicate { seq: 1 }, "the head is known without looking it up");
    assert!(matches!(intake().take(&lines[1]), Taken::Stored { .. }));
}

/// A phone that was put back to an older state goes on differently from there.
#[test]
fn a_second_story_is_refused_where_it_parts() {
    let (mut hub, lines) = (Hub::default(), lines(3));
    let question = |push: &[String]| {
        SyncRequest { protocol: PROTOCOL, push: push.to_vec(), lost: vec![], since: 0, forgot: 0 }.write()
    };
    hub.answer(&question(&lines)).expect("whole");
    let mut twin = Writer::new(1);
    twin.write(&said("m1", 0, Fact::WatchRound));
    let second = twin.write(&said("m1", 50, Fact::Left)).jws;
    let answer = hub.answer(&question(&[lines[0].clone(), second])).expect("whole");
    assert_eq!(answer.rejected, vec![Rejected { seq: 2, why: Why::Fork }]);
    assert_eq!((hub.stored, answer.head.seq), (lines, 3));
}

#[test]
fn what_counts_for_nothing_takes_its_place_and_is_told_until_heard() {
    let (mut hub, mut writer) = (Hub::default(), Writer::new(1));
    let too_long = Fact::Incident { note: "x".repeat(wire::NOTE_CHARS_MAX + 1) };
    let entries = [
        said("m1", 0, Fact::WatchRound),
        said("m2", 1, Fact::Left),
        said("m1", 2, too_long),
        said("m1", 3, Fact::Left),
    ];
    let lines = entries.map(|entry| writer.write(&entry).jws);
    let waiting: Vec<_> = (1..).zip(&lines).map(|(seq, line)| (seq, line.as_str())).collect();
    let mut phone = Phone::default();
    let told = vec![Rejected { seq: 2, why: Why::OtherMember }, Rejected { seq: 3, why: Why::Unreadable }];
    for lost_answer in [true, false] {
        let question = phone.generate(minute(0), &waiting, &[]).expect("nothing is in flight");
        let answer = hub.answer(&question.write()).expect("whole");
        assert_eq!(answer.rejected, told);
        if lost_answer {
            phone.failed(0);
        } else {
            assert_eq!(phone.receive(minute(0), answer, &writer.head).expect("in flight").rejected, told);
        }
    }
    assert_eq!(hub.stored, [lines[0].clone(), lines[3].clone()]);
    assert_eq!((hub.aside, phone.acked()), (vec![2, 3], 4));
}

#[test]
fn what_was_declared_lost_is_recorded_and_passed_over() {
    let (lines, mut intake) = (lines(7), intake(&[2, 3, 6]));
    assert!(matches!(intake.take(&lines[0]), Taken::Stored { after: None, .. }));
    let Taken::Stored { after, .. } = intake.take(&lines[3]) else { panic!("it goes on behind what is lost") };
    assert_eq!(after, Some(LostStretch { from: 2, to: 3 }));
    assert_eq!(intake.take(&lines[1]), Taken::Refused { seq: 2, why: Why::DeclaredLost });
    assert_eq!(intake.take(&lines[6]), Taken::Refused { seq: 7, why: Why::Gap }, "5 is neither here nor lost");
    assert_eq!(*intake.head(), Head { seq: 4, hash: jws::hash(&lines[3]) });
    assert!(matches!(intake.take(&lines[4]), Taken::Stored { after: None, .. }));
    assert!(matches!(intake.take(&lines[6]), Taken::Stored { after: Some(LostStretch { from: 6, to: 6 }), .. }));
}

/// The steward alone reads what somebody attested, what went wrong, and what is not understood.
#[test]
fn members_see_what_they_need_and_no_more() {
    let hidden: Vec<_> = one_of_each()
        .iter()
        .filter(|entry| !members_may_see(&entry.fact))
        .map(|entry| what_of(&entry.fact).to_owned())
        .collect();
    assert_eq!(hidden, ["attested", "incident", "clock_jumped", "weighed", "timer_set"]);
}
