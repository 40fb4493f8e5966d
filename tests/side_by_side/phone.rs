//! A phone over real HTTP, with the parts that a phone ships: its key, its chain, `shared_core::sync::peer`.

use std::io::{Read as _, Write as _};
use std::time::Duration;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use ed25519_dalek::{Signer as _, SigningKey};
use flate2::Compression;
use flate2::read::GzDecoder;
use flate2::write::GzEncoder;
use serde_json::{Value, json};
use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Link};
use shared_core::log::run::open_runs;
use shared_core::sync::message::SyncAnswer;
use shared_core::sync::peer::{self, Received};
use shared_core::sync::shop::join_bytes;
use shared_core::time::Instant;
use ureq::Agent;

/// A body from here on is sent compressed, as the app does.
const COMPRESSED_FROM: usize = 2_048;

/// One phone that has joined.
pub(crate) struct Phone {
    agent: Agent,
    url: String,
    cookie: String,
    key: SigningKey,
    dev: DeviceId,
    member: PersonId,
    head: Head,
    peer: peer::Phone,
    lines: Vec<(u64, String)>,
    /// Whether it compresses what it sends and takes what is compressed.
    compresses: bool,
}

impl Phone {
    /// Joins with a one-time code.
    pub(crate) fn join(url: &str, number: u8, member: PersonId, code: &str, compresses: bool) -> Self {
        let key = SigningKey::from_bytes(&[number; 32]);
        let dev = jws::device_of(&key.verifying_key());
        let agent = Agent::config_builder().http_status_as_error(false).build().into();
        let (url, cookie) = (url.to_owned(), String::new());
        let (head, peer, lines) = (Head::default(), peer::Phone::default(), Vec::new());
        let mut phone = Self { agent, url, cookie, key, dev, member, head, peer, lines, compresses };
        let code: String = code.chars().filter(char::is_ascii_alphanumeric).collect();
        let signature = phone.key.sign(&join_bytes(&code, &phone.member)).to_bytes();
        let signature = URL_SAFE_NO_PAD.encode(signature);
        let body = json!({ "code": code, "member": phone.member, "dev": phone.dev, "signature": signature });
        let (_, cookie) = phone.ask("/api/join", &body.to_string());
        phone.cookie = cookie.expect("a session");
        phone
    }

    /// A one-time code for another member; this one looks after the shop.
    pub(crate) fn invite(&self, member: &PersonId) -> String {
        let (answer, _) = self.ask("/api/invites", &json!({ "member": member, "kind": "first" }).to_string());
        let answer: Value = serde_json::from_str(&answer).expect("JSON");
        answer["code"].as_str().expect("a code").to_owned()
    }

    /// Signs what it is going to say.
    pub(crate) fn say(&mut self, entries: &[Entry]) {
        for entry in entries {
            let (dev, seq, prev) = (self.dev.clone(), self.head.seq + 1, self.head.hash.clone());
            let book = "1rnk-W8d8cB2KOcL0rYJrHHnQd0MSqT9aUb5oQmbN8c".into();
            let signed = jws::sign(entry, &Link { dev, seq, prev, book }, &self.key);
            self.head = Head { seq, hash: jws::hash(&signed.jws) };
            self.lines.push((seq, signed.jws));
        }
    }

    /// Asks until the hub keeps everything that this phone said.
    pub(crate) fn push(&mut self) {
        while self.peer.acked() < self.head.seq {
            let received = self.exchange();
            assert!(received.rejected.is_empty(), "{:?}", received.rejected);
        }
    }

    /// Asks until `count` entries of others came, each proved.
    pub(crate) fn pull(&mut self, count: usize) {
        let mut proved = 0;
        while proved < count {
            let pulled = self.exchange().pulled;
            if pulled.is_empty() {
                // The hub would tell when there is more; it grants a phone twenty questions a second.
                std::thread::sleep(Duration::from_millis(50));
            }
            let opened = open_runs(pulled.iter().map(String::as_str));
            for (line, opened) in pulled.iter().zip(opened) {
                opened.and_then(|opened| opened.signed(line)).expect("a signed line");
                proved += 1;
            }
        }
    }

    /// Forgets how far it got, as after answers that never arrived.
    pub(crate) fn forget(&mut self) {
        self.peer = peer::Phone::default();
    }

    fn exchange(&mut self) -> Received {
        let now = Instant::from_ms(0);
        let waiting: Vec<(u64, &str)> = self.lines.iter().map(|(seq, line)| (*seq, line.as_str())).collect();
        let request = self.peer.generate(now, &waiting, &[]).expect("no question is in flight");
        let (answer, _) = self.ask("/api/sync", &request.write());
        let answer = SyncAnswer::read(&answer).expect("an answer");
        self.peer.receive(now, answer, &self.head).expect("the answer to the question")
    }

    /// Posts JSON; gives the answer's body, and the session that it began.
    fn ask(&self, path: &str, body: &str) -> (String, Option<String>) {
        let mut request = self.agent.post(format!("{}{path}", self.url)).header("content-type", "application/json");
        if !self.cookie.is_empty() {
            request = request.header("cookie", &self.cookie);
        }
        if self.compresses {
            request = request.header("accept-encoding", "gzip");
        }
        let answer = if self.compresses && body.len() >= COMPRESSED_FROM {
            request.header("content-encoding", "gzip").send(compressed(body))
        } else {
            request.send(body)
        };
        let mut answer = answer.expect("the hub is there");
        let of = |name| answer.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default().to_owned();
        let (cookie, encoding) = (of("set-cookie"), of("content-encoding"));
        let bytes = answer.body_mut().read_to_vec().expect("a whole body");
        let mut text = String::new();
        match encoding.as_str() {
            "gzip" => GzDecoder::new(bytes.as_slice()).read_to_string(&mut text).map(drop).expect("gzip"),
            _ => text = String::from_utf8(bytes).expect("text"),
        }
        assert!(answer.status().is_success(), "{path}: {} {text}", answer.status());
        (text, cookie.split_once(';').map(|(cookie, _)| cookie.to_owned()))
    }
}

fn compressed(body: &str) -> Vec<u8> {
    let mut gzip = GzEncoder::new(Vec::with_capacity(body.len() / 2), Compression::default());
    gzip.write_all(body.as_bytes()).expect("into memory");
    gzip.finish().expect("into memory")
}
