//! Nothing is left out, put in, swapped or told twice unseen.

use expect_test::{Expect, expect};
use proptest::prelude::*;

use crate::entry::Fact;
use crate::log::chain::{Accepted, Chain, ChainFault, Head, verify_log};
use crate::log::erased::Erased;
use crate::log::jws;
use crate::log::testing::{Writer, key, said};

fn lines(device: u8, count: i64) -> Vec<String> {
    let mut writer = Writer::new(device);
    (0..count).map(|minutes| writer.write(&said("m1", minutes, Fact::WatchRound)).jws).collect()
}

fn chain(device: u8) -> Chain {
    Chain::new(jws::device_of(&key(device).verifying_key()))
}

#[test]
fn takes_entries_in_order_and_knows_a_repeat() {
    let lines = lines(1, 3);
    let mut chain = chain(1);
    for (seq, line) in (1..).zip(&lines) {
        assert!(matches!(chain.accept(line), Ok(Accepted::Next(signed)) if signed.seq == seq));
        assert_eq!(chain.accept(line), Ok(Accepted::Known { seq }));
        assert_eq!(*chain.head(), Head { seq, hash: jws::hash(line) });
    }
    let mut later = Chain::from(jws::device_of(&key(1).verifying_key()), chain.head().clone());
    assert_eq!(later.accept(&lines[2]), Ok(Accepted::Known { seq: 3 }));
}

#[test]
fn names_a_gap_a_second_story_and_a_stranger() {
    let (ours, mut twin) = (lines(1, 4), Writer::new(1));
    let second = twin.write(&said("m1", 90, Fact::Left)).jws;
    let after_second = twin.write(&said("m1", 91, Fact::Left)).jws;
    let mut chain = chain(1);
    assert_eq!(chain.accept(&ours[1]), Err(ChainFault::Gap { from: 1, to: 1 }));
    assert!(chain.accept(&ours[0]).is_ok());
    assert_eq!(chain.accept(&ours[3]), Err(ChainFault::Gap { from: 2, to: 3 }));
    assert_eq!(chain.accept(&second), Err(ChainFault::Fork { seq: 1 }));
    assert_eq!(chain.accept(&after_second), Err(ChainFault::Fork { seq: 2 }));
    assert_eq!(chain.accept(&lines(2, 1)[0]), Err(ChainFault::WrongDevice));
    assert!(matches!(chain.accept("rubbish"), Err(ChainFault::Jws(_))));
    assert_eq!(chain.head().seq, 1, "faults leave the chain as it was");
    assert!(chain.accept(&ours[1]).is_ok());
}

/// Two devices, interleaved, with a change of the file in each case.
#[test]
fn a_log_tells_each_problem_at_its_line() {
    let (one, two) = (lines(1, 4), lines(2, 2));
    let log = [&one[0], &two[0], &one[1], &one[2], &two[1], &one[3]].map(String::as_str);
    let check = |lines: &[&str], wanted: Expect| {
        let verified = verify_log(&lines.join("\n"));
        let problems: Vec<_> = verified.problems.iter().map(|at| format!("{}: {}", at.line, at.why)).collect();
        wanted.assert_eq(&format!("{} of {}\n{}", verified.entries, verified.devices, problems.join("\n")));
    };
    check(
        &log,
        expect![[r#"
        6 of 2
    "#]],
    );
    check(
        &["", log[0], "  ", log[1], "\r"],
        expect![[r#"
        2 of 2
    "#]],
    );
    check(
        &[log[0], log[1], log[3], log[4], log[5]],
        expect![[r#"
        4 of 2
        3: entry 2 of this device is missing"#]],
    );
    check(
        &[log[0], log[3], log[2], log[5]],
        expect![[r#"
        2 of 1
        2: entry 2 of this device is missing
        3: entry 2 does not follow this device's entries before it: there are two stories"#]],
    );
    check(
        &[log[5], log[4]],
        expect![[r#"
        0 of 2
        1: entries 1 to 3 of this device are missing
        2: entry 1 of this device is missing"#]],
    );
    check(
        &[log[0], log[0], log[2]],
        expect![[r#"
        2 of 1
        2: entry 1 of this device is in the log already"#]],
    );
    check(
        &["{}", log[0]],
        expect![[r#"
        1 of 1
        1: not a JWS compact: three parts with two dots between are needed"#]],
    );
}

/// An erased line keeps its place, is vouched for by the next one, and hides neither a gap nor a second story.
#[test]
fn a_log_with_erased_lines_is_whole_and_tells_its_problems() {
    let one = lines(1, 4);
    let erased = |seq: u64, hash: String| {
        Erased { dev: jws::device_of(&key(1).verifying_key()), seq, hash, session: None }.line()
    };
    let gone = |seq: u64| erased(seq, jws::hash(&one[usize::try_from(seq - 1).expect("few")]));
    let check = |lines: [String; 4], wanted: (u64, u64, &[&str])| {
        let verified = verify_log(&lines.join("\n"));
        let problems: Vec<_> = verified.problems.iter().map(|at| format!("{}: {}", at.line, at.why)).collect();
        assert_eq!(
            (verified.entries, verified.erased, problems),
            (wanted.0, wanted.1, wanted.2.iter().map(ToString::to_string).collect())
        );
    };
    let line = |seq: usize| one[seq - 1].clone();
    let two_stories = "does not follow this device's entries before it: there are two stories";
    check([gone(1), line(2), gone(3), line(4)], (2, 2, &[]));
    check([gone(1), gone(2), gone(3), gone(4)], (0, 4, &[]));
    check(
        [line(1), erased(2, "A".repeat(43)), line(3), line(4)],
        (1, 1, &[&format!("3: entry 3 {two_stories}"), "4: entry 3 of this device is missing"]),
    );
    check([line(1), gone(3), line(4), String::new()], (2, 0, &["2: entry 2 of this device is missing"]));
    check([line(1), line(2), gone(2), line(3)], (3, 0, &["3: entry 2 of this device is in the log already"]));
    check([line(1), line(2), erased(1, "A".repeat(43)), line(3)], (3, 0, &[&format!("3: entry 1 {two_stories}")]));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn any_change_of_a_log_is_found(place in 0_usize..1_300, mask in 1_u8..=127) {
        let log = lines(1, 3).join("\n");
        let mut changed = log.clone().into_bytes();
        let place = place % changed.len();
        changed[place] ^= mask;
        let verified = verify_log(&String::from_utf8_lossy(&changed));
        prop_assert!(!verified.problems.is_empty(), "byte {place} of {log}");
    }

    #[test]
    fn any_order_but_the_right_one_is_found(order in Just(vec![0_usize, 1, 2, 3]).prop_shuffle()) {
        let log = lines(1, 4);
        let shuffled: Vec<_> = order.iter().map(|place| log[*place].as_str()).collect();
        prop_assert_eq!(verify_log(&shuffled.join("\n")).problems.is_empty(), order.is_sorted());
    }
}
