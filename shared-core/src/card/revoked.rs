//! The phones that were taken off: a numbered, dated statement of the hub's.
//!
//! The number grows with every change; the date is when the hub last said that this is all. An older list never takes
//! the place of a newer one, so that a phone that was taken off does not come back by a copy of yesterday's. A phone stands
//! on it until its last card would have run out by itself.

use ed25519_dalek::SigningKey;
use serde::Serialize;

use super::CardFault;
use super::keys::Keys;
use super::statement::{self, Kind};
use crate::ids::DeviceId;
use crate::json::{FromJson as _, from_json};
use crate::time::Instant;

/// The phones that were taken off, as the hub had it at an instant.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Revoked {
    /// Grows with every change; 0 before the first.
    pub number: u64,
    /// When the hub said so.
    pub issued: Instant,
    /// Which.
    pub devices: Vec<TakenOff>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TakenOff {
    /// Which.
    pub dev: DeviceId,
    /// Since when, by the hub's clock.
    pub since: Instant,
}

from_json! {
    Revoked { number, issued, devices }
    TakenOff { dev, since }
}

impl Revoked {
    /// Signs it.
    pub fn seal(&self, key: &SigningKey) -> String {
        statement::seal(Kind::Revoked, key, self)
    }

    /// Opens one: a key that was in use on its date signed it.
    pub fn open(jws: &str, keys: &Keys) -> Result<Self, CardFault> {
        let read = statement::read(jws, Kind::Revoked)?;
        let key = keys.get(&read.kid)?;
        read.signed_by(key)?;
        let list = Self::from_json(&read.payload).map_err(|_| CardFault::Unreadable)?;
        match key.until {
            Some(on) if list.issued >= on => Err(CardFault::KeyRetired { on }),
            _ => Ok(list),
        }
    }

    /// Whether it says less than the other: fewer changes, or the same ones earlier.
    pub fn is_older_than(&self, other: &Self) -> bool {
        (self.number, self.issued) < (other.number, other.issued)
    }

    /// Since when a phone is taken off, if it is.
    pub fn since(&self, dev: &DeviceId) -> Option<Instant> {
        self.devices.iter().find(|taken| taken.dev == *dev).map(|taken| taken.since)
    }
}
