//! What a sync sends and gets may be compressed, and is bounded by what it is when it is whole again.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::GzEncoder;
use shared_core::sync::message::{MESSAGE_BYTES_MAX, SyncAnswer, SyncRequest};

use crate::support::{Hub, Phone, Place, Reply};

fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut gzip = GzEncoder::new(Vec::new(), Compression::best());
    gzip.write_all(bytes).expect("into memory");
    gzip.finish().expect("into memory")
}

fn send(hub: &Hub, phone: &Phone, path: &str, encoding: &str, body: &[u8]) -> Reply {
    let json = ("content-type", "application/json");
    hub.send(path, &[("cookie", phone.cookie.as_str()), json, ("content-encoding", encoding)], body)
}

#[test]
fn a_compressed_push_is_taken_as_any_other() {
    let place = Place::new();
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(100);
    let ask = SyncRequest {
        protocol: 1,
        push: lines.clone(),
        lost: Vec::new(),
        since: 0,
        forgot: 0,
        heard_to: 0,
        apart: false,
    }
    .write();
    let small = gzip(ask.as_bytes());
    assert!(small.len() * 3 < ask.len(), "{} of {} bytes", small.len(), ask.len());
    let reply = send(&hub, &phone, "/api/sync", "gzip", &small);
    assert_eq!(reply.status, 200, "{reply:?}");
    assert_eq!(SyncAnswer::read(&reply.text).expect("an answer").head, phone.head);
    assert_eq!(place.exported(), lines);
}

#[test]
fn an_answer_is_compressed_for_whoever_takes_it_and_for_nobody_else() {
    let place = Place::new();
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(16);
    ada.sync(&hub, &lines, 0);
    let ask =
        SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since: 0, forgot: 0, heard_to: 0, apart: false }
            .write();
    for (accepted, encoding) in [("gzip, deflate, br", "gzip"), ("identity", ""), ("br", "")] {
        let headers =
            [("cookie", bo.cookie.as_str()), ("content-type", "application/json"), ("accept-encoding", accepted)];
        let reply = hub.send("/api/sync", &headers, ask.as_bytes());
        assert_eq!((reply.status, reply.header("content-encoding")), (200, encoding), "{accepted}");
        assert_eq!(SyncAnswer::read(&reply.text).expect("an answer").pull, lines, "{accepted}");
    }
}

/// Squeezing what fits one packet anyway costs more than it saves.
#[test]
fn an_answer_without_lines_is_not_compressed() {
    let place = Place::new();
    let hub = place.hub();
    let bo = Phone::joined(2, "bo", &hub);
    let ask =
        SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since: 0, forgot: 0, heard_to: 0, apart: false }
            .write();
    let headers = [("cookie", bo.cookie.as_str()), ("content-type", "application/json"), ("accept-encoding", "gzip")];
    let reply = hub.send("/api/sync", &headers, ask.as_bytes());
    assert_eq!((reply.status, reply.header("content-encoding")), (200, ""));
    assert_eq!(SyncAnswer::read(&reply.text).expect("an answer").pull, Vec::<String>::new());
}

#[test]
fn what_does_not_become_a_message_is_a_typed_problem() {
    let place = Place::new();
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let ask =
        SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since: 0, forgot: 0, heard_to: 0, apart: false }
            .write();
    // A thousandth of what it becomes.
    let bomb = gzip(&vec![b' '; 200 * MESSAGE_BYTES_MAX]);
    assert!(bomb.len() < MESSAGE_BYTES_MAX, "the bomb is small: {} bytes", bomb.len());
    let whole = gzip(ask.as_bytes());
    for (what, path, encoding, body, status, problem) in [
        ("a bomb", "/api/sync", "gzip", &bomb[..], 413, "too-large"),
        ("cut short", "/api/sync", "gzip", &whole[..whole.len() / 2], 400, "unreadable"),
        ("plain text that says it is not", "/api/sync", "gzip", ask.as_bytes(), 400, "unreadable"),
        ("another encoding", "/api/sync", "br", &whole[..], 400, "unreadable"),
        ("a bomb elsewhere", "/api/carry", "gzip", &bomb[..], 413, "too-large"),
    ] {
        let reply = send(&hub, &phone, path, encoding, body);
        assert_eq!((reply.status, reply.problem().as_str()), (status, problem), "{what}: {reply:?}");
    }
    assert!(hub.peak_kib() < 100 * 1024, "{} KiB", hub.peak_kib());
    assert_eq!(phone.sync(&hub, &[], 0).head.seq, 0, "and the hub goes on");
}
