//! Who may do what: the members file, from which the hub makes cards.
//!
//! The hub reads it beside the rulebook; a phone is told of its own member by its card ([`crate::card`]), and of others no
//! more than their names. It holds dates, not verdicts: whether somebody may start a machine is asked in
//! [`crate::decide`].

use serde::Serialize;

use crate::ids::PersonId;
use crate::json::{FromJson, Unfit, from_json};
use crate::ordered::Map;
use crate::time::{HOUR_MS, Instant};

/// Milliseconds in a day of UTC.
pub(crate) const DAY_MS: i64 = 24 * HOUR_MS;

/// Whether an instant is a day as the members file writes one: the last moment of a day of UTC. It is shown as that day, however
/// early the next one begins where it is read.
pub fn is_written_day(at: Instant) -> bool {
    at.ms().rem_euclid(DAY_MS) == DAY_MS - 1
}

/// One person of the shop.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Member {
    /// Their id, at most 24 bytes, so that a signed answer fits a small code.
    pub id: PersonId,
    /// What they are called.
    pub name: String,
    /// Inducted until; absent, not inducted.
    pub inducted_until: Option<Instant>,
    /// Training, and until when they are signed off on it.
    pub signed_off: Map<String, Instant>,
    /// Whether they look after the shop.
    pub steward: bool,
    /// Whether they sign others off on machines.
    pub signer: bool,
    /// When each word of the log was said that the above follows ([`crate::standing::Key::name`]): an earlier one changes
    /// nothing any more. Of what the members file says, the date that it gives, if it does.
    #[serde(skip_serializing_if = "Map::is_empty")]
    pub said: Map<String, Instant>,
    /// On their own phone: when they last used a machine of each training, as far as the hub knew.
    #[serde(skip_serializing_if = "Map::is_empty")]
    pub used: Map<String, Instant>,
    /// On their own phone: until when the card is good that says all this. Absent in the members file, and on a phone
    /// whose hub knows no cards.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub card_until: Option<Instant>,
}

/// Everybody of the shop.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Members(Vec<Member>);

from_json! {
    Member { id, name, inducted_until, signed_off, steward, signer, said, used, card_until }
}

impl FromJson for Members {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        FromJson::from_json(value).map(Self)
    }
}

impl Members {
    /// The members, in the file's order.
    pub fn new(members: Vec<Member>) -> Self {
        Self(members)
    }

    /// The member of that id.
    pub fn get(&self, id: &PersonId) -> Option<&Member> {
        self.0.iter().find(|member| member.id == *id)
    }

    /// The member of that id, to change.
    pub fn get_mut(&mut self, id: &PersonId) -> Option<&mut Member> {
        self.0.iter_mut().find(|member| member.id == *id)
    }

    /// Puts a member in the place of the one of that id, or behind all.
    pub fn put(&mut self, member: Member) {
        match self.0.iter_mut().find(|known| known.id == member.id) {
            Some(known) => *known = member,
            None => self.0.push(member),
        }
    }

    /// What a person is called; their id if they are not in the file.
    pub fn name<'a>(&'a self, id: &'a PersonId) -> &'a str {
        self.get(id).map_or(id.as_str(), |member| &member.name)
    }

    /// All members.
    pub fn iter(&self) -> std::slice::Iter<'_, Member> {
        self.0.iter()
    }
}

impl<'a> IntoIterator for &'a Members {
    type Item = &'a Member;
    type IntoIter = std::slice::Iter<'a, Member>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl FromIterator<Member> for Members {
    fn from_iter<I: IntoIterator<Item = Member>>(members: I) -> Self {
        Self(members.into_iter().collect())
    }
}
