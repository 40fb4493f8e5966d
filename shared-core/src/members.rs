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

/// Everybody of the shop. Asked for by id at each name that is shown, so nobody is looked for from the beginning.
#[derive(Clone, Debug, Default, Serialize)]
#[serde(transparent)]
pub struct Members {
    all: Vec<Member>,
    /// Where each stands in that, by id; of one id the first.
    #[serde(skip)]
    by_id: Vec<usize>,
}

from_json! {
    Member { id, name, inducted_until, signed_off, steward, signer, said, used, card_until }
}

impl FromJson for Members {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        FromJson::from_json(value).map(Self::new)
    }
}

impl Members {
    /// The members, in the file's order.
    pub fn new(all: Vec<Member>) -> Self {
        let mut by_id: Vec<usize> = (0..all.len()).collect();
        let id = |at: &usize| all.get(*at).map(|member| &member.id);
        by_id.sort_by(|a, b| id(a).cmp(&id(b)));
        by_id.dedup_by(|a, b| id(a) == id(b));
        Self { all, by_id }
    }

    /// The member of that id.
    pub fn get(&self, id: &PersonId) -> Option<&Member> {
        self.place(id).ok().and_then(|place| self.all.get(self.by_id[place]))
    }

    /// The member of that id, to change; the id stays.
    pub fn get_mut(&mut self, id: &PersonId) -> Option<&mut Member> {
        let place = self.place(id).ok()?;
        self.all.get_mut(self.by_id[place])
    }

    /// Puts a member in the place of the one of that id, or behind all.
    pub fn put(&mut self, member: Member) {
        match self.place(&member.id) {
            Ok(place) => self.all[self.by_id[place]] = member,
            Err(place) => {
                self.by_id.insert(place, self.all.len());
                self.all.push(member);
            }
        }
    }

    fn place(&self, id: &PersonId) -> Result<usize, usize> {
        self.by_id.binary_search_by(|at| self.all[*at].id.cmp(id))
    }

    /// What a person is called; their id if they are not in the file.
    pub fn name<'a>(&'a self, id: &'a PersonId) -> &'a str {
        self.get(id).map_or(id.as_str(), |member| &member.name)
    }

    /// All members.
    pub fn iter(&self) -> std::slice::Iter<'_, Member> {
        self.all.iter()
    }
}

/// The rest follows from the members.
impl PartialEq for Members {
    fn eq(&self, other: &Self) -> bool {
        self.all == other.all
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
        Self::new(members.into_iter().collect())
    }
}
