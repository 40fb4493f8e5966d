//! One signature opens a run of lines, and nothing that its device has not said.

use proptest::prelude::*;

use crate::entry::Fact;
use crate::log::jws::{self, JwsFault};
use crate::log::run::{Opened, Proof, open_one, open_runs};
use crate::log::testing::{Writer, any_entry, minute, said};

/// Lines of a device; those at `unsigned` bear a signature of nothing, and the chain goes on over them.
fn lines(device: u8, count: u64, unsigned: &[u64]) -> Vec<String> {
    let mut writer = Writer::new(device);
    let mut line = |seq: u64| {
        let signed = writer.write(&said("m1", i64::try_from(seq).expect("few"), Fact::WatchRound)).jws;
        if !unsigned.contains(&seq) {
            return signed;
        }
        let (input, _) = signed.rsplit_once('.').expect("three parts");
        let forged = jws::assemble(input, [7; 64]);
        writer.head.hash = jws::hash(&forged);
        forged
    };
    (1..=count).map(&mut line).collect()
}

/// `o` by its own signature, `l` by a later one, `x` not signed.
fn check(what: &str, lines: &[String], wanted: &str) {
    let opened = open_runs(lines.iter().map(String::as_str));
    let letter = |opened: &Result<Opened, JwsFault>| match opened {
        Ok(opened) if opened.proof == Proof::Own => "o",
        Ok(_) => "l",
        Err(_) => "x",
    };
    assert_eq!(opened.iter().map(letter).collect::<String>(), wanted, "{what}");
    for (line, opened) in lines.iter().zip(opened) {
        let Ok(opened) = opened else { continue };
        assert_eq!(opened.hash, jws::hash(line), "{what}");
        assert!(opened.proof == Proof::Later || open_one(line).is_ok(), "{what}");
    }
}

#[test]
fn the_newest_good_line_of_a_run_vouches_for_those_before_it() {
    let (ours, theirs) = (lines(1, 4, &[]), lines(2, 3, &[]));
    let of = |parts: &[&[String]]| parts.concat();
    check("nothing", &[], "");
    check("one", &ours[..1], "o");
    check("a run", &ours, "lllo");
    check("a run from the middle", &ours[1..], "llo");
    check("a bad signature in the middle", &lines(1, 4, &[2]), "lllo");
    check("a bad newest", &lines(1, 4, &[4]), "llox");
    check("two bad newest", &lines(1, 4, &[3, 4]), "loxx");
    check("nothing but bad ones", &lines(1, 3, &[1, 2, 3]), "xxx");
    check("a gap", &of(&[&ours[..2], &ours[3..]]), "loo");
    check("a bad one behind a gap", &of(&[&ours[..2], &lines(1, 4, &[4])[3..]]), "lox");
    check("a bad one before a gap", &of(&[&lines(1, 2, &[2]), &ours[3..]]), "oxo");
    check("a line twice", &of(&[&ours[..2], &ours[1..]]), "lollo");
    check("backwards", &ours.iter().rev().cloned().collect::<Vec<_>>(), "oooo");
    check("two devices", &of(&[&ours, &theirs]), "lllollo");
    check("two devices in turn", &of(&[&ours[..1], &theirs[..1], &ours[1..2], &theirs[1..2]]), "oooo");
    check("rubbish between", &of(&[&ours[..2], &["rubbish".to_owned()], &ours[2..]]), "loxlo");
}

/// Another story goes on under the same numbers: it names another line, and so does not vouch for ours.
#[test]
fn a_second_story_vouches_for_its_own_lines_alone() {
    let (ours, mut twin) = (lines(1, 3, &[3]), Writer::new(1));
    let second: Vec<_> = (0..4).map(|at| twin.write(&said("m1", 90 + at, Fact::Left)).jws).collect();
    check("a second story behind an unsigned line", &[&ours[..3], &second[3..]].concat(), "loxo");
}

/// A changed byte anywhere, signature included, is another line, which the next one does not name.
#[test]
fn no_changed_line_is_vouched_for() {
    let good = lines(1, 3, &[]);
    for at in 0..good[1].len() {
        let mut bytes = good[1].clone().into_bytes();
        bytes[at] = if bytes[at] == b'A' { b'B' } else { b'A' };
        let changed = String::from_utf8(bytes).expect("ASCII");
        if changed == good[1] {
            continue;
        }
        let lines = [good[0].clone(), changed, good[2].clone()];
        let opened = open_runs(lines.iter().map(String::as_str));
        assert!(opened[0].is_ok() && opened[1].is_err() && opened[2].is_ok(), "byte {at}");
    }
}

proptest! {
    /// Whoever opens honest lines by runs opens what everybody opens one by one.
    #[test]
    fn honest_lines_open_alike_either_way(
        entries in proptest::collection::vec(any_entry(), 1..20),
        kept in proptest::collection::vec(any::<bool>(), 20),
    ) {
        let mut writer = Writer::new(3);
        let all: Vec<_> = entries.iter().map(|entry| writer.write(entry).jws).collect();
        let some: Vec<_> = all.iter().zip(kept).filter(|(_, kept)| *kept).map(|(line, _)| line.as_str()).collect();
        for (line, opened) in some.iter().zip(open_runs(some.iter().copied())) {
            let (opened, one) = (opened.expect("signed"), open_one(line).expect("signed"));
            prop_assert_eq!(&opened.sealed, &one.sealed);
            prop_assert_eq!(opened.hash, one.hash);
        }
    }
}

#[test]
fn what_is_vouched_for_may_not_open_by_itself() {
    let lines = lines(1, 3, &[2]);
    assert_eq!(open_one(&lines[1]), Err(JwsFault::Signature));
    let opened = open_runs(lines.iter().map(String::as_str)).remove(1).expect("vouched for");
    assert_eq!(opened.signed(&lines[1]).expect("readable").entry.at, minute(2));
}
