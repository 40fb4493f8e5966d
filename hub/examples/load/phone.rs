//! One of the phones: a key, a session, and where it is in its own chain and in the log.
//!
//! Everything of it follows from its number, so that whoever fills the store and whoever asks the hub agree without a word.

use std::collections::VecDeque;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use ed25519_dalek::SigningKey;
use sha2::{Digest as _, Sha256};
use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Link, Signed};

use crate::http::Wire;

/// A phone that has joined.
pub(crate) struct Phone {
    key: SigningKey,
    pub(crate) dev: DeviceId,
    pub(crate) member: PersonId,
    /// What its cookie holds.
    pub(crate) token: String,
    /// The last line that it signed.
    pub(crate) head: Head,
    /// How far it has read.
    pub(crate) since: u64,
    /// How far it has forgotten.
    pub(crate) forgot: u64,
    /// Pushes that are signed and wait for their turn.
    pub(crate) signed: VecDeque<Vec<String>>,
    /// Its connection, while it has one.
    pub(crate) wire: Option<Wire>,
}

impl Phone {
    /// The phone of that number, whose log is still empty.
    pub(crate) fn new(number: usize) -> Self {
        let key = SigningKey::from_bytes(&digest(&format!("key {number}")));
        let dev = jws::device_of(&key.verifying_key());
        let token = URL_SAFE_NO_PAD.encode(digest(&format!("token {number}")));
        let member = PersonId::new(member(number));
        let (head, signed) = (Head::default(), VecDeque::new());
        Self { key, dev, member, token, head, since: 0, forgot: 0, signed, wire: None }
    }

    /// What the store keeps of its session.
    pub(crate) fn token_sha256(&self) -> [u8; 32] {
        digest(&self.token)
    }

    /// Signs its next line.
    pub(crate) fn sign(&mut self, entry: &Entry) -> Signed {
        let (dev, seq, prev) = (self.dev.clone(), self.head.seq + 1, self.head.hash.clone());
        let signed = jws::sign(entry, &Link { dev, seq, prev, book: "book".into() }, &self.key);
        self.head = Head { seq, hash: jws::hash(&signed.jws) };
        signed
    }
}

/// The id of the member whose phone has that number.
pub(crate) fn member(number: usize) -> String {
    format!("m{number:05}")
}

fn digest(text: &str) -> [u8; 32] {
    Sha256::digest(text).into()
}
