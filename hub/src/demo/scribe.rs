//! Signs the invented entries as their members' phones would have: one device a member, each with its own chain.

use std::collections::BTreeMap;

use ed25519_dalek::SigningKey;
use shared_core::entry::Entry;
use shared_core::ids::{BookId, DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Link, Signed};

use crate::secret;

/// Holds the keys for as long as the story is told.
pub(super) struct Scribe {
    book: BookId,
    secret: [u8; 32],
    phones: BTreeMap<PersonId, Phone>,
}

struct Phone {
    key: SigningKey,
    dev: DeviceId,
    head: Head,
}

impl Phone {
    fn of(secret: &[u8; 32], member: &PersonId) -> Self {
        let key = SigningKey::from_bytes(&secret::digest([&secret[..], member.as_str().as_bytes()].concat()));
        let dev = jws::device_of(&key.verifying_key());
        Self { key, dev, head: Head::default() }
    }
}

impl Scribe {
    /// A scribe whose keys come from `secret`.
    pub(super) fn new(book: BookId, secret: [u8; 32]) -> Self {
        Self { book, secret, phones: BTreeMap::new() }
    }

    fn phone(&mut self, member: &PersonId) -> &mut Phone {
        let secret = &self.secret;
        self.phones.entry(member.clone()).or_insert_with(|| Phone::of(secret, member))
    }

    /// A member's device.
    pub(super) fn device(&mut self, member: &PersonId) -> &DeviceId {
        &self.phone(member).dev
    }

    /// Signs the next entry of its member's device.
    pub(super) fn sign(&mut self, entry: &Entry) -> Signed {
        let book = self.book.clone();
        let Phone { key, dev, head } = self.phone(&entry.who);
        let link = Link { dev: dev.clone(), seq: head.seq + 1, prev: head.hash.clone(), book };
        let signed = jws::sign(entry, &link, key);
        *head = Head { seq: signed.seq, hash: jws::hash(&signed.jws) };
        signed
    }

    /// The hash of a member's newest line.
    pub(super) fn hash_of_last(&self, member: &PersonId) -> &str {
        self.phones.get(member).map_or("", |phone| &phone.head.hash)
    }
}
