//! Every refusal is a typed problem (RFC 9457), whatever was sent.

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::support::{Engine, Phone, Place, on_both};

on_both!(damaged_requests_are_never_a_fault_of_the_hub);

const JSON: (&str, &str) = ("content-type", "application/json");

#[test]
fn each_mistake_has_its_problem() {
    let place = Place::new();
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let cookie = ("cookie", phone.cookie.as_str());
    let long = "x".repeat(513);
    let carry = |to: &str, text: &str| json!({ "to": to, "text": text }).to_string();
    let deep = "[".repeat(100_000);
    for (method, path, headers, body, status, kind) in [
        ("GET", "/api/nothing", vec![], String::new(), 404, "not-found"),
        ("GET", "/api/", vec![], String::new(), 404, "not-found"),
        ("DELETE", "/api/sync", vec![cookie], String::new(), 405, "method-not-allowed"),
        ("GET", "/api/join", vec![], String::new(), 405, "method-not-allowed"),
        ("POST", "/index.html", vec![JSON], String::new(), 405, "method-not-allowed"),
        ("POST", "/api/join/check", vec![], "{}".into(), 415, "not-json"),
        ("POST", "/api/join/check", vec![("content-type", "text/plain")], "{}".into(), 415, "not-json"),
        ("POST", "/api/join/check", vec![JSON], "{".into(), 400, "unreadable"),
        ("POST", "/api/join/check", vec![JSON], "{}".into(), 400, "unreadable"),
        ("POST", "/api/join/check", vec![JSON], deep.clone(), 400, "unreadable"),
        ("POST", "/api/sync", vec![JSON, cookie], "{\"protocol\":1,\"push\":[1]}".into(), 400, "unreadable"),
        ("POST", "/api/sync", vec![JSON, cookie], "not json".into(), 400, "unreadable"),
        ("POST", "/api/sync", vec![JSON, cookie], deep, 400, "unreadable"),
        ("POST", "/api/sync", vec![JSON, cookie], "{\"protocol\":0}".into(), 409, "other-protocol"),
        ("POST", "/api/sync", vec![JSON, cookie], "{\"protocol\":2,\"news\":[]}".into(), 409, "other-protocol"),
        ("POST", "/api/carry", vec![JSON, cookie], carry("bo", &long), 422, "code-too-long"),
        ("POST", "/api/carry", vec![JSON, cookie], carry("nobody", "hi"), 404, "unknown-member"),
        ("POST", "/api/carry", vec![JSON, cookie], carry("ilse", "h\u{ef}"), 400, "unreadable"),
    ] {
        let reply = hub.ask(method, path, &headers, &body);
        let what = format!("{method} {path} {}", body.chars().take(40).collect::<String>());
        assert_eq!((reply.status, reply.problem().as_str()), (status, kind), "{what}");
        assert_eq!(reply.header("x-content-type-options"), "nosniff", "{what}");
    }
    assert!(!hub.logged().contains("panicked"), "{}", hub.logged());
}

/// Requests that were good once, with bytes changed, cut or doubled: refused or answered, never a fault.
fn damaged_requests_are_never_a_fault_of_the_hub(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let push = phone.says_rounds(2);
    let good = [
        ("/api/sync", json!({ "protocol": 1, "push": push, "lost": [7, 8], "since": 3 }).to_string()),
        ("/api/carry", json!({ "to": "bo", "text": "ASK:1" }).to_string()),
        ("/api/session", json!({ "dev": phone.dev, "challenge": "abc", "signature": "def" }).to_string()),
        ("/api/session/challenge", json!({ "dev": phone.dev }).to_string()),
    ];
    let mut chance = 0x5eed_u32;
    let mut draw = |below: usize| {
        chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (chance >> 8) as usize % below
    };
    for round in 0..240 {
        let (path, body) = &good[round % good.len()];
        let mut bytes: Vec<char> = body.chars().collect();
        for _ in 0..=draw(3) {
            let at = draw(bytes.len());
            match draw(4) {
                0 => bytes[at] = ['"', '{', '}', '9', '-', '\u{0}', '\u{1f514}'][draw(7)],
                1 => bytes.truncate(at.max(1)),
                2 => bytes.extend_from_within(at..),
                _ => drop(bytes.remove(at.min(bytes.len() - 1))),
            }
            if bytes.is_empty() {
                bytes.push('{');
            }
        }
        let body: String = bytes.into_iter().collect();
        let reply = phone.ask(&hub, "POST", path, &body);
        assert!(reply.status < 500, "{path} {body}: {reply:?}");
        if reply.status >= 400 {
            reply.problem();
        }
        // Slower than the limit, so that the bodies are read.
        std::thread::sleep(Duration::from_millis(15));
    }
    assert!(!hub.logged().contains("panicked") && !hub.logged().contains("the hub failed"), "{}", hub.logged());
}

#[test]
fn bytes_that_are_no_text_are_a_problem() {
    let place = Place::new();
    let hub = place.hub();
    let head =
        "POST /api/join/check HTTP/1.1\r\nHost: hub\r\nContent-Type: application/json\r\nContent-Length: 4\r\n\r\n";
    let reply = raw(&hub.url, &[head.as_bytes(), &[0xff, 0xfe, 0, 0xff]].concat());
    assert!(reply.starts_with("HTTP/1.1 400 ") && reply.contains("UTF-8"), "{reply}");
}

/// A body of 100 MB is refused by what it announces; one that announces nothing, as soon as it is over the limit.
#[test]
fn a_hundred_megabytes_are_refused_at_once_and_not_kept() {
    let place = Place::new();
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let before_kib = hub.peak_kib();
    let picture = format!("PUT /api/picture/{}", "A".repeat(43));
    for (line, kind) in [
        ("POST /api/sync", "application/json"),
        ("POST /api/join/check", "application/json"),
        ("POST /api/carry", "application/json"),
        (&picture, "image/jpeg"),
    ] {
        let began = Instant::now();
        let begins = format!("{line} HTTP/1.1\r\nHost: hub\r\nContent-Type: {kind}\r\nCookie: {}", phone.cookie);
        let head = format!("{begins}\r\nContent-Length: 104857600\r\n\r\n");
        let reply = raw(&hub.url, head.as_bytes());
        assert!(reply.starts_with("HTTP/1.1 413 ") && reply.contains("/problems/too-large"), "{line}: {reply}");
        assert!(began.elapsed() < Duration::from_secs(2), "{line} took {:?}", began.elapsed());
        let reply = endless(&hub.url, &begins);
        assert!(reply.starts_with("HTTP/1.1 413 "), "{line}: {reply}");
    }
    let grown_kib = hub.peak_kib() - before_kib;
    // The allocator takes memory for each thread by the piece: 16 MiB have been seen, of 800 that were sent.
    assert!(grown_kib < 32 * 1024, "the hub grew by {grown_kib} KiB");
    assert_eq!(phone.sync(&hub, &[], 0).head.seq, 0, "and goes on serving");
}

/// Sends bytes, and reads what comes until nothing does.
fn raw(url: &str, bytes: &[u8]) -> String {
    let mut stream = connect(url);
    stream.write_all(bytes).expect("sent");
    first_answer(&mut stream)
}

/// Sends a chunked body of 100 MB, or as much of it as is taken.
fn endless(url: &str, begins: &str) -> String {
    let mut stream = connect(url);
    let head = format!("{begins}\r\nTransfer-Encoding: chunked\r\n\r\n");
    stream.write_all(head.as_bytes()).expect("sent");
    let mut writer = stream.try_clone().expect("a second handle");
    let sending = std::thread::spawn(move || {
        let chunk = format!("10000\r\n{}\r\n", " ".repeat(0x10000));
        (0..1600).take_while(|_| writer.write_all(chunk.as_bytes()).is_ok()).count()
    });
    let answer = first_answer(&mut stream);
    drop(stream);
    let sent = sending.join().expect("the sender ends");
    assert!(sent < 1600, "all of it was taken");
    answer
}

/// A connection without a client's manners.
pub(crate) fn connect(url: &str) -> TcpStream {
    let stream = TcpStream::connect(url.trim_start_matches("http://")).expect("connected");
    stream.set_read_timeout(Some(Duration::from_secs(5))).expect("a timeout");
    stream
}

/// What comes on it first.
pub(crate) fn first_answer(stream: &mut TcpStream) -> String {
    let mut bytes = vec![0; 16 * 1024];
    let length = stream.read(&mut bytes).expect("an answer");
    String::from_utf8_lossy(bytes.get(..length).unwrap_or_default()).into_owned()
}
