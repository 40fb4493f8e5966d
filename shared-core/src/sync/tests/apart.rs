//! Lines that are taken apart are the same again, to the letter, or are not taken apart.

use ed25519_dalek::SigningKey;
use serde_json::{Value, json};

use crate::entry::{Entry, Fact};
use crate::log::chain::Head;
use crate::log::jws::{self, Link};
use crate::log::testing::minute;
use crate::sync::apart::{lines_of, take_apart};
use crate::sync::message::SyncRequest;

/// The next entry of a phone.
fn say(key: &SigningKey, head: &mut Head, fact: Fact) -> String {
    let link = Link {
        dev: jws::device_of(&key.verifying_key()),
        seq: head.seq + 1,
        prev: head.hash.clone(),
        book: "b".into(),
    };
    let entry = Entry { at: minute(3), session: "s1".into(), who: "m1".into(), fact };
    let signed = jws::sign(&entry, &link, key).jws;
    *head = Head { seq: link.seq, hash: jws::hash(&signed) };
    signed
}

fn answer(apart: &Value) -> Option<Vec<String>> {
    lines_of(&json!({ "pull": [], "apart": apart }))
}

fn lines() -> Vec<String> {
    let (ada, bo) = (SigningKey::from_bytes(&[1; 32]), SigningKey::from_bytes(&[2; 32]));
    let (mut of_ada, mut of_bo) = (Head::default(), Head::default());
    let odd = |note: &str| Fact::Found {
        place: crate::entry::Place::Room("north".into()),
        condition: crate::entry::Condition::Mess,
        note: Some(note.to_owned()),
    };
    let unseen = say(&bo, &mut of_bo, Fact::Left);
    let lines = vec![
        say(&ada, &mut of_ada, Fact::Left),
        say(&bo, &mut of_bo, odd(r#"","prev":"","seq":1"#)),
        say(&ada, &mut of_ada, odd("\"prev\":\"\" \u{1f514} \\")),
        say(&ada, &mut of_ada, Fact::WatchRound),
        say(&bo, &mut of_bo, Fact::Left),
    ];
    assert!(!lines.contains(&unseen), "the line before one of these is not among them");
    lines
}

fn apart() -> Vec<String> {
    take_apart(&lines()).expect("lines")
}

#[test]
fn what_was_taken_apart_is_the_same_again_and_smaller() {
    let (lines, apart) = (lines(), apart());
    let left_out =
        |text: &String| text.rsplit_once("\"prev\":\"").map(|(_, behind)| behind.split('"').next() == Some("2"));
    assert_eq!(left_out(&apart[2]), Some(true), "{}", apart[2]);
    assert_eq!(answer(&json!(apart)), Some(lines.clone()));
    assert!(json!(apart).to_string().len() < json!(lines).to_string().len());
    assert_eq!(answer(&json!(take_apart(&[]).expect("none"))), Some(Vec::new()));
}

#[test]
fn what_is_no_line_is_not_taken_apart() {
    let good = lines().remove(0);
    let (start, signature) = good.rsplit_once('.').expect("three parts");
    let short = format!("{start}.{}", &signature[1..]);
    for bad in [String::new(), "a.b.c".to_owned(), format!("{start}="), start.to_owned(), short] {
        assert_eq!(take_apart(&[good.clone(), bad.clone()]), None, "{bad}");
    }
}

#[test]
fn what_does_not_fit_together_is_damage() {
    let apart = apart();
    let whole = |at: usize, text: &str| {
        let mut spoilt = apart.clone();
        text.clone_into(&mut spoilt[at]);
        spoilt
    };
    for spoilt in [
        json!([]),
        json!(7),
        json!([7]),
        json!(whole(5, "short")),
        json!(whole(1, "no line")),
        json!(whole(1, "\"prev\":\"")),
        json!(whole(1, "\"prev\":\"2\"")),
        json!(whole(1, "\"prev\":\"0\"")),
    ] {
        assert_eq!(answer(&spoilt), None, "{spoilt}");
    }
    // Put together wrongly, it is no line that opens.
    let wrong =
        answer(&json!(whole(2, &apart[2].replace("\"prev\":\"2\"", "\"prev\":\"1\"")))).expect("lines of some kind");
    assert!(jws::open(&wrong[2]).is_err() && jws::open(&wrong[0]).is_ok());
}

#[test]
fn lines_come_apart_to_whoever_asks_for_it() {
    for (question, asked) in [
        (r#"{"protocol":1,"apart":true}"#, true),
        (r#"{"protocol":1,"push":["a.b.c"],"apart":true,"mood":7}"#, true),
        (r#"{"protocol":1,"apart":false}"#, false),
        (r#"{"protocol":1,"mood":{"apart":true}}"#, false),
        (r#"{"protocol":1}"#, false),
    ] {
        let read = SyncRequest::read(question).expect("a question");
        assert_eq!(read.apart, asked, "{question}");
    }
    assert_eq!(lines_of(&json!({ "pull": ["a.b.c"] })), Some(vec!["a.b.c".to_owned()]));
}
