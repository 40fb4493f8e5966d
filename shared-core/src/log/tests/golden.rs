//! Logs that earlier releases wrote open for ever; and this release writes its own, byte for byte.
//!
//! A golden file is never edited. A change of the format adds one, `UPDATE_EXPECT=1` writes it the first time.

use std::fs;
use std::path::Path;

use expect_test::expect_file;

use crate::entry::{Entry, Fact};
use crate::log::testing::{Writer, one_of_each};
use crate::log::{chain, jws, wire};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/data/golden");

#[test]
fn this_release_writes_the_same_bytes() {
    let mut writer = Writer::new(1);
    let lines: Vec<String> = one_of_each().iter().map(|entry| writer.write(entry).jws).collect();
    expect_file!["../../../../tests/data/golden/0.8-one-of-each.jws"].assert_eq(&(lines.join("\n") + "\n"));
}

#[test]
fn logs_of_every_release_open() {
    let mut files = 0;
    for file in fs::read_dir(Path::new(FOLDER)).expect("the golden folder") {
        let path = file.expect("a golden file").path();
        if path.extension().is_none_or(|extension| extension != "jws") {
            continue;
        }
        let log = fs::read_to_string(&path).expect("a golden file");
        let verified = chain::verify_log(&log);
        assert_eq!(verified.problems, vec![], "{}", path.display());
        assert_eq!(verified.entries, log.lines().count() as u64);
        files += 1;
    }
    assert!(files > 0, "no golden log was found");
}

#[test]
fn golden_entries_say_what_was_said() {
    // What each release knew of; a later one knows more and writes it behind.
    for (file, kinds) in [
        ("0.1-one-of-each.jws", 21),
        ("0.2-one-of-each.jws", 22),
        ("0.3-one-of-each.jws", 24),
        ("0.4-one-of-each.jws", 26),
        ("0.5-one-of-each.jws", 29),
        ("0.6-one-of-each.jws", 37),
        ("0.7-one-of-each.jws", 47),
        ("0.8-one-of-each.jws", 49),
    ] {
        let log = fs::read_to_string(Path::new(FOLDER).join(file)).expect("the golden file");
        says_what_was_said(&log, one_of_each().get(..kinds).expect("nothing is taken away"));
    }
}

fn says_what_was_said(log: &str, said: &[Entry]) {
    let entries: Vec<_> = log.lines().map(|line| jws::open(line).expect(line).entry).collect();
    assert_eq!(entries, said);
    let unrecognised = Fact::Unrecognised { what: "weighed".to_owned() };
    assert_eq!(entries.iter().filter(|entry| entry.fact == unrecognised).count(), 1);
    assert!(entries.iter().all(|entry| wire::read_line(&wire::write(entry)).as_ref() == Ok(entry)));
}
