//! The hub's keys, from the first to the one in use: each vouched for by the one before.
//!
//! The first vouches for itself and is believed because it came with the rulebook. A new one is a statement under the one
//! before, which also says until when that one is still believed; so a phone that was away for years follows from the
//! key it knows to the one in use, and nobody who lacks a key of the hub can slip in another. The list only grows: a
//! phone takes one that begins with what it knows, and no other.

use ed25519_dalek::SigningKey;
use serde::Serialize;

use super::CardFault;
use super::statement::{self, Kind};
use crate::ids::DeviceId;
use crate::json::{FromJson as _, from_json};
use crate::log::jws;
use crate::time::Instant;

/// More keys than a hub makes in a century are none of ours.
pub const KEYS_MAX: usize = 200;

/// One key of the hub's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HubKey {
    /// Its name: the thumbprint of [`HubKey::public`].
    pub kid: String,
    /// The public key.
    pub public: [u8; 32],
    /// Since when it signs.
    pub from: Instant,
    /// Until when it is believed; nothing of the one in use.
    pub until: Option<Instant>,
}

/// All keys of a hub, the one in use last.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Keys {
    keys: Vec<HubKey>,
    statements: Vec<String>,
}

/// What a statement says of a key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
struct Vouch {
    /// The public key, as RFC 8037 `x`.
    key: DeviceId,
    /// Since when it signs.
    from: Instant,
    /// Until when the key before it is still believed; nothing for the first.
    before_until: Option<Instant>,
}

from_json! { Vouch { key, from, before_until } }

/// The first key's word for itself.
pub fn first(key: &SigningKey, from: Instant) -> String {
    vouch(key, key, from, None)
}

/// A key's word for the next one; the old one is believed until `old_until`.
pub fn next(old: &SigningKey, new: &SigningKey, from: Instant, old_until: Instant) -> String {
    vouch(old, new, from, Some(old_until))
}

fn vouch(by: &SigningKey, key: &SigningKey, from: Instant, before_until: Option<Instant>) -> String {
    statement::seal(Kind::Key, by, &Vouch { key: jws::device_of(&key.verifying_key()), from, before_until })
}

impl Keys {
    /// Reads a hub's statements, first to last; each must be vouched for.
    pub fn read(statements: &[String]) -> Result<Self, CardFault> {
        Self::default().extended(statements)
    }

    /// What a hub says now, by what was known: more of the same list is taken, and less of it is an older answer. Any other
    /// list is another hub's.
    pub fn follow(self, statements: &[String]) -> Result<Self, CardFault> {
        if self.statements.starts_with(statements) && !statements.is_empty() {
            return Ok(self);
        }
        let rest = statements.strip_prefix(&*self.statements).ok_or(CardFault::OtherHub)?;
        self.extended(rest)
    }

    fn extended(mut self, statements: &[String]) -> Result<Self, CardFault> {
        if self.keys.len() + statements.len() > KEYS_MAX || (self.keys.is_empty() && statements.is_empty()) {
            return Err(CardFault::Unreadable);
        }
        for text in statements {
            let read = statement::read(text, Kind::Key)?;
            let said = Vouch::from_json(&read.payload).map_err(|_| CardFault::Unreadable)?;
            let public = jws::key_bytes(&said.key).ok_or(CardFault::Unreadable)?;
            let key = HubKey { kid: statement::thumbprint(&public), public, from: said.from, until: None };
            let by = self.keys.last().unwrap_or(&key);
            if read.kid != by.kid {
                return Err(CardFault::UnknownKey { kid: read.kid });
            }
            read.signed_by(by)?;
            if let Some(before) = self.keys.last_mut() {
                before.until = Some(said.before_until.unwrap_or(said.from));
            }
            self.keys.push(key);
            self.statements.push(text.clone());
        }
        Ok(self)
    }

    /// The key of that name.
    pub fn get(&self, kid: &str) -> Result<&HubKey, CardFault> {
        let known = self.keys.iter().find(|key| key.kid == kid);
        known.ok_or_else(|| CardFault::UnknownKey { kid: kid.to_owned() })
    }

    /// The key whose name begins like this; a code has no room for all of it.
    pub(super) fn short(&self, start: &str) -> Result<&HubKey, CardFault> {
        let known = self.keys.iter().find(|key| key.kid.starts_with(start));
        known.ok_or_else(|| CardFault::UnknownKey { kid: start.to_owned() })
    }

    /// The key in use.
    pub fn newest(&self) -> Option<&HubKey> {
        self.keys.last()
    }

    /// All of them, the one in use last.
    pub fn all(&self) -> &[HubKey] {
        &self.keys
    }

    /// The statements that they were read from.
    pub fn statements(&self) -> &[String] {
        &self.statements
    }
}
