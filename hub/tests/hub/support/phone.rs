//! A member's phone: its key, its chain, its session with a hub.

use std::time::{Duration, Instant as Steady};

use ed25519_dalek::{Signer as _, SigningKey};
use serde_json::{Value, json};
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, PersonId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Link};
use shared_core::sync::message::{ENTRIES_MAX, SyncAnswer, SyncRequest};
use shared_core::sync::shop::{join_bytes, session_bytes};
use shared_core::time::Instant;
use ureq::Agent;

use super::http::agent;
use super::{Hub, Reply};

/// One phone.
pub(crate) struct Phone {
    key: SigningKey,
    pub(crate) dev: DeviceId,
    pub(crate) member: PersonId,
    pub(crate) head: Head,
    pub(crate) cookie: String,
    /// What entries say of when; now, unless a test says otherwise.
    pub(crate) at: Instant,
    pub(crate) session: SessionId,
    agent: Agent,
}

impl Phone {
    /// A phone whose key comes from `seed`.
    pub(crate) fn new(seed: u8, member: &str) -> Self {
        let key = SigningKey::from_bytes(&[seed; 32]);
        let dev = jws::device_of(&key.verifying_key());
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
        let at = Instant::from_ms(i64::try_from(since.as_millis()).expect("this era"));
        let session = SessionId::from_entropy([seed; 8]);
        let (head, cookie) = (Head::default(), String::new());
        Self { key, dev, member: member.into(), head, cookie, at, session, agent: agent() }
    }

    /// A phone that has joined.
    pub(crate) fn joined(seed: u8, member: &str, hub: &Hub) -> Self {
        let mut phone = Self::new(seed, member);
        let code = hub.invite(member);
        let reply = phone.join(hub, &code);
        assert_eq!(reply.status, 204, "{reply:?}");
        phone
    }

    /// Joins with a code, and keeps the session.
    pub(crate) fn join(&mut self, hub: &Hub, code: &str) -> Reply {
        let signature = self.signature(&join_bytes(code, &self.member));
        let reply = hub.post(
            "/api/join",
            &json!({ "code": code, "member": self.member, "dev": self.dev, "signature": signature }),
        );
        self.keep_cookie(&reply);
        reply
    }

    /// Signs in anew.
    pub(crate) fn sign_in(&mut self, hub: &Hub) -> Reply {
        let given = hub.post("/api/session/challenge", &json!({ "dev": self.dev }));
        if given.status != 200 {
            return given;
        }
        let challenge = given.json()["challenge"].as_str().expect("a challenge").to_owned();
        let reply = self.answer_challenge(hub, &challenge);
        self.keep_cookie(&reply);
        reply
    }

    pub(crate) fn answer_challenge(&self, hub: &Hub, challenge: &str) -> Reply {
        let signature = self.signature(&session_bytes(challenge));
        hub.post("/api/session", &json!({ "dev": self.dev, "challenge": challenge, "signature": signature }))
    }

    pub(crate) fn signature(&self, message: &[u8]) -> String {
        use base64::Engine as _;
        base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(self.key.sign(message).to_bytes())
    }

    fn keep_cookie(&mut self, reply: &Reply) {
        if let Some((cookie, _)) = reply.header("set-cookie").split_once(';') {
            cookie.clone_into(&mut self.cookie);
        }
    }

    /// Signs the next entry.
    pub(crate) fn says(&mut self, fact: Fact) -> String {
        let who = self.member.clone();
        self.says_as(who, fact)
    }

    /// Signs the next entry in somebody's name.
    pub(crate) fn says_as(&mut self, who: PersonId, fact: Fact) -> String {
        let entry = Entry { at: self.at, session: self.session.clone(), who, fact };
        let (dev, seq, prev) = (self.dev.clone(), self.head.seq + 1, self.head.hash.clone());
        let signed = jws::sign(&entry, &Link { dev, seq, prev, book: "book".into() }, &self.key);
        self.head = Head { seq, hash: jws::hash(&signed.jws) };
        signed.jws
    }

    /// The next entry with a signature that is none; what comes behind it names it all the same.
    pub(crate) fn says_unsigned(&mut self, fact: Fact) -> String {
        let signed = self.says(fact);
        let (input, _) = signed.rsplit_once('.').expect("three parts");
        let line = jws::assemble(input, [7; 64]);
        self.head.hash = jws::hash(&line);
        line
    }

    /// Some entries that others may see.
    pub(crate) fn says_rounds(&mut self, count: usize) -> Vec<String> {
        (0..count).map(|_| self.says(Fact::WatchRound)).collect()
    }

    pub(crate) fn ask(&self, hub: &Hub, method: &str, path: &str, body: &str) -> Reply {
        let headers = [("cookie", self.cookie.as_str()), ("content-type", "application/json")];
        hub.ask_by(&self.agent, method, path, &headers, body)
    }

    pub(crate) fn post(&self, hub: &Hub, path: &str, body: &Value) -> Reply {
        self.ask(hub, "POST", path, &body.to_string())
    }

    /// Pushes, and gives the hub's answer if there is one; the hub may be gone.
    pub(crate) fn try_sync(&self, hub: &Hub, push: &[String]) -> Option<Reply> {
        let request = SyncRequest {
            protocol: 1,
            push: push.to_vec(),
            lost: Vec::new(),
            since: 0,
            forgot: 0,
            heard_to: 0,
            apart: true,
        };
        let headers = [("cookie", self.cookie.as_str()), ("content-type", "application/json")];
        hub.try_ask(&self.agent, "POST", "/api/sync", &headers, &request.write())
    }

    /// Pushes, pulls, and expects an answer.
    pub(crate) fn sync(&self, hub: &Hub, push: &[String], since: u64) -> SyncAnswer {
        self.sync_with(
            hub,
            &SyncRequest {
                protocol: 1,
                push: push.to_vec(),
                lost: Vec::new(),
                since,
                forgot: 0,
                heard_to: 0,
                apart: true,
            },
        )
    }

    /// What others said since a cursor, once there is so much of it: a long push is handed out some moments after it was taken.
    pub(crate) fn pulls(&self, hub: &Hub, mut since: u64, count: usize) -> Vec<String> {
        let (mut lines, began) = (Vec::new(), Steady::now());
        while lines.len() < count && began.elapsed() < Duration::from_secs(20) {
            let answer = self.sync(hub, &[], since);
            assert!(answer.pull.len() <= ENTRIES_MAX, "{} at once", answer.pull.len());
            since = answer.cursor;
            if answer.pull.is_empty() {
                std::thread::sleep(Duration::from_millis(60));
            }
            lines.extend(answer.pull);
        }
        lines
    }

    pub(crate) fn sync_with(&self, hub: &Hub, request: &SyncRequest) -> SyncAnswer {
        let reply = self.ask(hub, "POST", "/api/sync", &request.write());
        assert_eq!(reply.status, 200, "{reply:?}");
        let answer = SyncAnswer::read(&reply.text).expect("an answer");
        assert_eq!(answer.goes_on, Some(request.goes_on()), "it says which question it answers");
        answer
    }
}
