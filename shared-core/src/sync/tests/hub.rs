//! What becomes of each pushed line.

use super::Hub;
use crate::entry::{Fact, Told};
use crate::log::chain::Head;
use crate::log::testing::{Writer, minute, one_of_each, said};
use crate::log::wire::what_of;
use crate::log::{jws, wire};
use crate::ordered::Map;
use crate::sync::hub::{Intake, Judged, LostStretch, ONE_BY_ONE_MAX, Push, Taken, members_may_see, stewards_may_see};
use crate::sync::message::{PROTOCOL, Rejected, SyncRequest, Why};
use crate::sync::peer::Phone;

fn intake(lost: &[u64]) -> Intake {
    let dev = Writer::new(1).link().dev;
    Intake::new(dev, "m1".into(), Head::default(), Map::new(), lost)
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
    let intake = || Intake::new(Writer::new(1).link().dev, "m1".into(), head.clone(), Map::new(), &[]);
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
        SyncRequest {
            protocol: PROTOCOL,
            push: push.to_vec(),
            lost: vec![],
            since: 0,
            forgot: 0,
            heard_to: 0,
            apart: false,
        }
        .write()
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
    let too_long = Fact::Incident { note: "x".repeat(wire::NOTE_CHARS_MAX + 1), told: Told::default() };
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

/// Nobody is handed what somebody attested or whether their timer runs; the steward alone what went wrong and what became of it.
#[test]
fn members_see_what_they_need_and_no_more() {
    let seldom = ["attested", "incident", "clock_jumped", "weighed", "timer_set", "bell_heard", "sweep_undone"];
    let walks = ["walked", "walked", "walk_done"];
    // Cards and the members' list carry these.
    let standing = ["inducted", "inducted", "signed_off", "signed_off", "role_given"];
    let hidden = |may_see: fn(&Fact) -> bool| -> Vec<String> {
        let all = one_of_each();
        let hidden = all.iter().filter(|entry| !may_see(&entry.fact)).map(|entry| match &entry.fact {
            Fact::Noted { of, .. } => format!("noted of {:?}", of.matter),
            fact => what_of(fact).to_owned(),
        });
        hidden.collect()
    };
    let notes = ["noted of Found", "noted of Found", "noted of Incident", "noted of Session"];
    assert_eq!(
        hidden(members_may_see),
        [&seldom[..], &walks, &standing, &["incident"], &notes, &["rules_published"; 2]].concat()
    );
    let from_stewards = ["attested", "weighed", "timer_set", "bell_heard"];
    assert_eq!(hidden(stewards_may_see), [&from_stewards[..], &walks, &standing].concat());
}

/// A push as a phone that was taken apart makes it: entry `unsigned` bears a signature of nothing, and the next names it.
fn vouched(count: i64, unsigned: &[i64]) -> Vec<String> {
    let mut writer = Writer::new(1);
    let line = |minutes: i64| {
        let signed = writer.write(&said("m1", minutes, Fact::WatchRound)).jws;
        if !unsigned.contains(&(minutes + 1)) {
            return signed;
        }
        let (input, _) = signed.rsplit_once('.').expect("three parts");
        let forged = jws::assemble(input, [7; 64]);
        writer.head.hash = jws::hash(&forged);
        forged
    };
    (0..count).map(line).collect()
}

/// `o` stored and proved, `v` stored and still to be proved, `k` known already, and the first letter of why it is refused.
fn check_push(what: &str, intake: &mut Intake, lines: &[String], wanted: &str, head: u64) {
    let judged = intake.take_all(Push::open(lines.to_vec()));
    let letter = |judged: &Judged| match &judged.taken {
        Taken::Stored { .. } => ["o", "v"][usize::from(judged.owes_proof)].to_owned(),
        Taken::Duplicate { .. } => "k".to_owned(),
        Taken::SetAside { .. } => "a".to_owned(),
        Taken::Refused { why, .. } => why.name()[..1].to_owned(),
    };
    assert_eq!(judged.iter().map(letter).collect::<String>(), wanted, "{what}");
    assert_eq!(intake.head().seq, head, "{what}");
}

#[test]
fn a_long_push_is_taken_by_its_newest_good_line_and_owes_the_rest() {
    let (few, many) = (i64::try_from(ONE_BY_ONE_MAX).expect("few"), 20);
    let (v, o) = ("v".repeat(19), "o".repeat(ONE_BY_ONE_MAX));
    let again = |lines: &[String]| [&lines[..18], &lines[17..]].concat();
    for (what, lines, wanted, head) in [
        ("as many as are checked one by one", vouched(few, &[]), o.clone(), 16),
        ("one of them unsigned", vouched(few, &[15]), format!("{}dg", &o[2..]), 14),
        ("more", vouched(many, &[]), format!("{v}o"), 20),
        ("one of them unsigned", vouched(many, &[5]), format!("{v}o"), 20),
        ("the newest unsigned", vouched(many, &[20]), format!("{}od", &v[1..]), 19),
        ("all from one on unsigned", vouched(many, &[18, 19, 20]), format!("{}oddd", &v[3..]), 17),
        ("a line twice", again(&vouched(many, &[])), format!("{}okvo", &v[2..]), 20),
        (
            "a line left out",
            [&vouched(many, &[])[..9], &vouched(many, &[])[10..]].concat(),
            format!("vvvvvvvvo{}", "g".repeat(10)),
            9,
        ),
    ] {
        check_push(what, &mut intake(&[]), &lines, &wanted, head);
    }
}

#[test]
fn a_long_push_goes_on_over_what_is_lost_and_what_is_known() {
    let lines = vouched(40, &[30]);
    let behind = [&lines[..10], &lines[20..]].concat();
    let lost: Vec<u64> = (11..=20).collect();
    let mut intake = intake(&lost);
    check_push("a stretch that was lost", &mut intake, &behind, &format!("{}o{}o", "v".repeat(9), "v".repeat(19)), 40);
    check_push("all of it again", &mut intake, &behind, &"k".repeat(30), 40);
}

#[test]
fn another_phones_long_push_and_another_story_are_refused_whole() {
    let ours = vouched(20, &[]);
    let dev = Writer::new(2).link().dev;
    let mut stranger = Intake::new(dev, "m1".into(), Head::default(), Map::new(), &[]);
    check_push("another phone's", &mut stranger, &ours, &"o".repeat(20), 0);
    let head = Head { seq: 1, hash: "x".repeat(43) };
    let mut elsewhere = Intake::new(Writer::new(1).link().dev, "m1".into(), head, Map::new(), &[]);
    check_push("another story", &mut elsewhere, &ours[1..], &format!("f{}", "g".repeat(18)), 1);
}
