//! Old app and new hub, new app and old hub, and damage: each is told apart.

use crate::log::chain::Head;
use crate::log::testing::minute;
use crate::sync::message::{GoesOn, MESSAGE_BYTES_MAX, MessageFault, Rejected, SyncAnswer, SyncRequest, Why};
use crate::words::Words;

#[test]
fn messages_are_written_and_read() {
    let request = SyncRequest {
        protocol: 1,
        push: vec!["a.b.c".to_owned()],
        lost: vec![4],
        since: 17,
        forgot: 0,
        heard_to: 0,
        apart: true,
    };
    assert_eq!(request.write(), r#"{"protocol":1,"push":["a.b.c"],"lost":[4],"since":17,"forgot":0,"apart":true}"#);
    assert_eq!(SyncRequest::read(&request.write()), Ok(request));
    let mut answer = SyncAnswer::new(minute(0), Head { seq: 3, hash: "h".to_owned() }, "r");
    answer.rejected = vec![Rejected { seq: 2, why: Why::OtherMember }];
    answer.goes_on = Some(GoesOn { since: 17, forgot: 0 });
    let written = concat!(
        r#"{"protocol":1,"goes_on":{"since":17,"forgot":0},"hub_now":"2026-04-24T03:06:40Z","head":{"seq":3,"hash":"h"},"rejected":[{"seq":2,"why":"#,
        r#""other_member"}],"pull":[],"cursor":0,"forget":[],"forgot":0,"more":false,"carried":[],"shop":"r"}"#
    );
    assert_eq!(answer.write(), written);
    assert_eq!(SyncAnswer::read(written), Ok(answer));
}

#[test]
fn what_a_newer_side_adds_is_no_error() {
    let request =
        SyncRequest::read(r#"{"protocol":1,"mood":{"a":[1]},"since":3}"#).expect("unknown fields are passed over");
    assert_eq!((request.push.len(), request.since), (0, 3));
    // Another program's JSON may write a whole number so.
    let request = SyncRequest::read(r#"{"protocol":1,"lost":[2.0],"since":3e2}"#).expect("whole numbers");
    assert_eq!((request.lost, request.since), (vec![2], 300));
    for wrong in ["0.5", "-1", "1e300", "\"3\"", "null"] {
        let text = format!(r#"{{"protocol":1,"since":{wrong}}}"#);
        assert!(SyncRequest::read(&text).is_err(), "{wrong}");
    }
    let json = r#"{"protocol":1,"hub_now":"2026-04-24T03:06:40Z","head":{"seq":0,"hash":""},"rejected":[{"seq":2,"why":"moon"}]}"#;
    assert_eq!(SyncAnswer::read(json).map(|answer| answer.rejected), Ok(vec![Rejected { seq: 2, why: Why::Unknown }]));
}

#[test]
fn another_protocol_is_no_damage() {
    for (json, wanted) in [
        (r#"{"protocol":2,"push":7}"#, MessageFault::Newer { theirs: 2 }),
        (r#"{"protocol":0}"#, MessageFault::Older { theirs: 0 }),
    ] {
        assert_eq!(SyncRequest::read(json), Err(wanted.clone()));
        assert_eq!(SyncAnswer::read(json), Err(wanted));
    }
    let long = format!(r#"{{"protocol":1,"push":["{}"]}}"#, "x".repeat(MESSAGE_BYTES_MAX));
    assert!(matches!(SyncRequest::read(&long), Err(MessageFault::TooLong { .. })));
    for json in ["", "{", "[]", "{}", r#"{"protocol":-1}"#, r#"{"protocol":1,"push":[7]}"#] {
        assert!(matches!(SyncRequest::read(json), Err(MessageFault::Damaged { .. })), "{json}");
    }
}

#[test]
fn each_reason_has_a_next_step() {
    for why in [
        Why::Damaged,
        Why::OtherDevice,
        Why::Gap,
        Why::Fork,
        Why::DeclaredLost,
        Why::OtherMember,
        Why::Unreadable,
        Why::Unknown,
    ] {
        let words = Words::english();
        assert!(why.reason(&words).ends_with('.') && why.next_step(&words).ends_with('.'), "{why:?}");
    }
}
