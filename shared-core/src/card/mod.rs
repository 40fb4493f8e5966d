//! Cards: the hub's signed word on who holds a phone, until when they are inducted, and on what they are signed off.
//!
//! A card is a JWS (RFC 7515, RFC 8037) under the hub's key, so that a phone believes it without a network and any JOSE library
//! can check it. Its owner alone is handed it; what others see of it is its [`face::Face`]: this phone speaks for this
//! member. The hub's keys ([`keys`]) and the phones that were taken off ([`revoked`]) are signed statements of the same
//! form ([`statement`]). DESIGN.md section 2, "Card".
//!
//! Says what a card says and whether it holds at an instant; what its holder may do is asked of [`crate::decide`].

pub mod face;
pub mod keys;
pub mod revoked;
pub mod statement;
#[cfg(test)]
mod tests;

use ed25519_dalek::SigningKey;
use serde::Serialize;
use serde_json::Value;

use crate::ids::{DeviceId, PersonId};
use crate::json::{FromJson, Unfit, from_json};
use crate::members::Member;
use crate::ordered::Map;
use crate::time::{Instant, Span};

use face::Face;
use keys::Keys;
use revoked::Revoked;
use statement::Kind;

/// How long a card is good: a phone that meets its hub once in this time always has a good one.
pub const GOOD_FOR: Span = Span::from_minutes(60 * 24 * 60);
/// A card with less than this left is made anew, so that whoever comes once a month never meets the end of one.
pub const RENEWED_BEFORE: Span = Span::from_minutes(30 * 24 * 60);

/// What a member may be to the shop.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, borsh::BorshSerialize, borsh::BorshDeserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Works there.
    Member,
    /// Signs others off on machines.
    Signer,
    /// Looks after the shop.
    Steward,
}

impl Role {
    /// All of them, by their names on the wire.
    const NAMES: [(Self, &str); 3] = [(Self::Member, "member"), (Self::Signer, "signer"), (Self::Steward, "steward")];

    /// Its name on the wire.
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(role, _)| *role == self).map_or("", |(_, name)| name)
    }

    /// The role of a name.
    pub fn named(name: &str) -> Option<Self> {
        Self::NAMES.iter().find(|(_, known)| *known == name).map(|(role, _)| *role)
    }
}

/// A card: one member, on one phone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Card {
    /// Cards of a shop are numbered in the order they were made.
    pub number: u32,
    /// Whose it is.
    pub member: PersonId,
    /// What they are called.
    pub name: String,
    /// The phone that speaks for them: its public key.
    pub dev: DeviceId,
    /// Inducted until; absent, not inducted.
    pub inducted_until: Option<Instant>,
    /// Training, and until when they are signed off on it.
    pub signed_off: Map<String, Instant>,
    /// What they are to the shop.
    pub roles: Vec<Role>,
    /// When each word of the log was said that this follows ([`crate::standing::Key::name`]).
    #[serde(skip_serializing_if = "Map::is_empty")]
    pub said: Map<String, Instant>,
    /// When it was made.
    pub issued: Instant,
    /// Until when it is good.
    pub until: Instant,
}

from_json! {
    Card { number, member, name, dev, inducted_until, signed_off, roles, said, issued, until }
}

/// Why a card, its face or another word of the hub does not count.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardFault {
    /// It is not whole, or something else.
    #[error("it cannot be read")]
    Unreadable,
    /// No key of this hub that is known here signed it.
    #[error("the key `{kid}` is unknown here")]
    UnknownKey {
        /// Which it names.
        kid: String,
    },
    /// The key that signed it is no longer in use.
    #[error("its key was retired on {on}")]
    KeyRetired {
        /// Since when.
        on: Instant,
    },
    /// The signature is not that key's over this text.
    #[error("the signature does not hold")]
    Signature,
    /// It has run out.
    #[error("it ran out on {on}")]
    Expired {
        /// When.
        on: Instant,
    },
    /// Its phone was taken off the shop's list.
    #[error("its phone was taken off on {since}")]
    Revoked {
        /// When.
        since: Instant,
    },
    /// It is another phone's.
    #[error("it is another phone's")]
    OtherPhone,
    /// The hub's keys are not those that this phone knows, nor vouched for by them.
    #[error("the hub's keys are not those that are known here")]
    OtherHub,
}

/// What a phone believes cards by.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Trust {
    /// The hub's keys.
    pub keys: Keys,
    /// The phones that were taken off.
    pub revoked: Revoked,
}

impl Trust {
    /// What a hub hands out: believed as it stands by a phone that knows nothing yet. Later: [`Trust::follow`].
    pub fn read(keys: &[String], revoked: &str) -> Result<Self, CardFault> {
        let keys = Keys::read(keys)?;
        let revoked = Revoked::open(revoked, &keys)?;
        Ok(Self { keys, revoked })
    }

    /// What a hub hands out now, by what was believed before: keys that the known ones vouch for, and a list of phones
    /// that is no older. An older answer that comes late changes nothing.
    pub fn follow(self, keys: &[String], revoked: &str) -> Result<Self, CardFault> {
        let keys = self.keys.follow(keys)?;
        let offered = Revoked::open(revoked, &keys)?;
        let revoked = if offered.is_older_than(&self.revoked) { self.revoked } else { offered };
        Ok(Self { keys, revoked })
    }

    /// Opens a card that must hold at `now`.
    pub fn open(&self, jws: &str, now: Instant) -> Result<Card, CardFault> {
        open(jws, &self.keys, &self.revoked, now)
    }

    /// What a phone's own card says of its member and until when it holds, whatever the time is now: until it runs out,
    /// or its key does.
    pub fn standing(&self, jws: &str, dev: &DeviceId) -> Result<Member, CardFault> {
        let (card, key_until) = signed(jws, &self.keys)?;
        if card.dev != *dev {
            return Err(CardFault::OtherPhone);
        }
        if let Some(since) = self.revoked.since(&card.dev) {
            return Err(CardFault::Revoked { since });
        }
        let until = key_until.map_or(card.until, |key_until| key_until.min(card.until));
        Ok(Member { card_until: Some(until), ..card.standing() })
    }

    /// Whose phone this is, by the first of these faces that is its own and holds at `now`.
    pub fn holder<'a>(&self, dev: &DeviceId, faces: impl Iterator<Item = &'a str>, now: Instant) -> Option<Face> {
        let mut own = faces.filter_map(Face::read).filter(|face| face.shown.dev == *dev);
        own.find(|face| self.check(face, now).is_ok())
    }

    /// Checks a face that must hold at `now`.
    pub fn check(&self, face: &Face, now: Instant) -> Result<(), CardFault> {
        let key = self.keys.short(&face.kid)?;
        face.signed_by(key)?;
        holds(key.until, face.shown.until, self.revoked.since(&face.shown.dev), now)
    }
}

impl Card {
    /// The card of a member's phone, made at `issued`.
    pub fn of(member: &Member, dev: DeviceId, number: u32, issued: Instant) -> Self {
        let roles = [(true, Role::Member), (member.signer, Role::Signer), (member.steward, Role::Steward)];
        Self {
            number,
            member: member.id.clone(),
            name: member.name.clone(),
            dev,
            inducted_until: member.inducted_until,
            signed_off: member.signed_off.clone(),
            roles: roles.into_iter().filter(|(is, _)| *is).map(|(_, role)| role).collect(),
            said: member.said.clone(),
            issued,
            until: issued + GOOD_FOR,
        }
    }

    /// What a member's phone is told of its member.
    pub fn standing(&self) -> Member {
        Member {
            id: self.member.clone(),
            name: self.name.clone(),
            inducted_until: self.inducted_until,
            signed_off: self.signed_off.clone(),
            steward: self.roles.contains(&Role::Steward),
            signer: self.roles.contains(&Role::Signer),
            said: self.said.clone(),
            used: Map::new(),
            card_until: None,
        }
    }

    /// Whether the hub should make it anew: it says otherwise than the members file by now, or soon runs out.
    pub fn is_due(&self, member: &Member, now: Instant) -> bool {
        self.standing() != *member || self.until - now < RENEWED_BEFORE
    }

    /// Signs it.
    pub fn seal(&self, key: &SigningKey) -> String {
        statement::seal(Kind::Card, key, self)
    }
}

/// Opens a card: the hub signed it, its key is in use, its phone is not taken off, and it is good at `now`.
pub fn open(jws: &str, keys: &Keys, revoked: &Revoked, now: Instant) -> Result<Card, CardFault> {
    let (card, key_until) = signed(jws, keys)?;
    holds(key_until, card.until, revoked.since(&card.dev), now)?;
    Ok(card)
}

/// A card that one of these keys signed, and until when that key is believed.
fn signed(jws: &str, keys: &Keys) -> Result<(Card, Option<Instant>), CardFault> {
    let read = statement::read(jws, Kind::Card)?;
    let key = keys.get(&read.kid)?;
    read.signed_by(key)?;
    let card = Card::from_json(&read.payload).map_err(|_| CardFault::Unreadable)?;
    Ok((card, key.until))
}

/// What a card says, and the name of the key that it names, believed by nobody: for the hub, which keeps its own.
pub fn peek(jws: &str) -> Option<(Card, String)> {
    let read = statement::read(jws, Kind::Card).ok()?;
    Some((Card::from_json(&read.payload).ok()?, read.kid))
}

fn holds(key_until: Option<Instant>, until: Instant, revoked: Option<Instant>, now: Instant) -> Result<(), CardFault> {
    if let Some(since) = revoked {
        return Err(CardFault::Revoked { since });
    }
    if now >= until {
        return Err(CardFault::Expired { on: until });
    }
    match key_until {
        Some(on) if now >= on => Err(CardFault::KeyRetired { on }),
        _ => Ok(()),
    }
}

impl FromJson for Role {
    /// A role of a newer hub gives no right that is known here.
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self::named(value.as_str().ok_or(Unfit("a role"))?).unwrap_or(Self::Member))
    }
}
