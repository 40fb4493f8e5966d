//! What somebody is to the shop by the word of others: inducted, signed off on a training, given a role; and which word holds.
//!
//! The members file is the base. A word of the log counts over it when it was said later than the file says of itself (`as_of`;
//! a file that says nothing is older than any word); of two words the later holds, and of two of one instant the one that lets
//! less be done. So any order of the same words gives the same. A word without an end takes back what stood before.
//!
//! Whose words count is asked once, where a word comes in ([`Words::may_give`]): by the phone that says it, by the phone that is
//! shown it, and by the hub when it arrives, which sets aside what its giver may not say. What came in stands when its giver
//! loses the role, leaves, or loses the phone; what comes after that does not, whatever date it bears. Here nobody is asked again.

pub mod act;
pub mod fresh;
pub mod walk;

#[cfg(test)]
mod tests;

use std::cmp::Reverse;

use borsh::{BorshDeserialize, BorshSerialize};

use crate::card::Role;
use crate::entry::{Entry, Fact};
use crate::ids::PersonId;
use crate::members::{Member, Members};
use crate::ordered::Map;
use crate::refusal::Refusal;
use crate::rulebook::Rulebook;
use crate::time::Instant;

/// What a word is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Key {
    /// The induction.
    Induction,
    /// A training.
    Training(String),
    /// The role.
    Role,
}

/// What a word says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Says {
    /// It holds until then; no longer, if there is no such instant.
    Until(Option<Instant>),
    /// This role.
    Role(Role),
}

/// Somebody's word.
#[derive(Clone, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Word {
    /// When it was said.
    pub at: Instant,
    /// What it says.
    pub says: Says,
    /// Whose it is.
    pub by: PersonId,
}

/// The words that hold.
#[derive(Clone, Debug, Default, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Words(Map<(PersonId, Key), Word>);

impl Key {
    /// How cards and the members' list name it.
    pub fn name(&self) -> String {
        match self {
            Self::Induction => "induction".to_owned(),
            Self::Training(training) => ["training ", training].concat(),
            Self::Role => "role".to_owned(),
        }
    }
}

/// What a fact says of somebody, if it does.
pub fn said_by(fact: &Fact) -> Option<(&PersonId, Key, Says)> {
    match fact {
        Fact::Inducted { person, until } => Some((person, Key::Induction, Says::Until(*until))),
        Fact::SignedOff { person, training, until } => {
            Some((person, Key::Training(training.clone()), Says::Until(*until)))
        }
        Fact::RoleGiven { person, role } => Some((person, Key::Role, Says::Role(*role))),
        _ => None,
    }
}

impl Word {
    /// The greater of two holds: the later; at one instant the one that lets less be done.
    fn rank(&self) -> (Instant, Reverse<Says>, Reverse<&PersonId>) {
        (self.at, Reverse(self.says), Reverse(&self.by))
    }
}

impl Words {
    /// Takes an entry in, if it is such a word.
    pub fn take(&mut self, entry: &Entry) {
        let Some((person, key, says)) = said_by(&entry.fact) else { return };
        let word = Word { at: entry.at, says, by: entry.who.clone() };
        let key = (person.clone(), key);
        if self.0.get(&key).is_none_or(|known| known.rank() < word.rank()) {
            self.0.insert(key, word);
        }
    }

    /// The words that hold.
    pub fn iter(&self) -> impl Iterator<Item = (&PersonId, &Key, &Word)> {
        self.0.iter().map(|((person, key), word)| (person, key, word))
    }

    /// The members as these words make them. Done twice, it is as done once.
    pub fn apply(&self, members: &mut Members) {
        for ((person, key), word) in &self.0 {
            if let Some(member) = members.get_mut(person) {
                word.apply(key, member);
            }
        }
    }

    /// Whether somebody may say that now, given who everybody is.
    pub fn may_give(giver: &PersonId, fact: &Fact, book: &Rulebook, members: &Members) -> Result<(), Refusal> {
        let Some((person, key, says)) = said_by(fact) else { return Ok(()) };
        let member = members.get(giver).ok_or(Refusal::NotAMember)?;
        let about = members.get(person).ok_or_else(|| Refusal::NoSuchMember { person: person.clone() })?;
        match &key {
            Key::Induction if !member.steward => return Err(Refusal::StewardsAct),
            Key::Training(training) if !may_sign(book, member, training) => {
                return Err(Refusal::NotASigner { training: book.training_name(training).to_owned() });
            }
            Key::Role => {
                if !member.steward {
                    return Err(Refusal::StewardsAct);
                }
                let others = members.iter().filter(|other| other.steward && other.id != about.id).count();
                if about.steward && says != Says::Role(Role::Steward) && others == 0 {
                    return Err(Refusal::LastSteward);
                }
                return Ok(());
            }
            _ => {}
        }
        // What somebody may do is said by somebody else; that they may not, by anybody who could say that they may.
        if giver == person && matches!(says, Says::Until(Some(_))) { Err(Refusal::OwnSignOff) } else { Ok(()) }
    }
}

impl Word {
    fn apply(&self, key: &Key, member: &mut Member) {
        let name = key.name();
        if member.said.get(&name).is_some_and(|said| *said >= self.at) {
            return;
        }
        match (key, self.says) {
            (Key::Induction, Says::Until(until)) => member.inducted_until = until,
            (Key::Training(training), Says::Until(Some(until))) => {
                member.signed_off.insert(training.clone(), until);
            }
            (Key::Training(training), Says::Until(None)) => {
                member.signed_off.remove(training);
            }
            (Key::Role, Says::Role(role)) => {
                (member.signer, member.steward) = (role == Role::Signer, role == Role::Steward);
            }
            _ => return,
        }
        member.said.insert(name, self.at);
    }
}

/// Whether a member may sign others off on a training: a steward may, and a signer whom the training names, or any where it
/// names nobody.
pub fn may_sign(book: &Rulebook, member: &Member, training: &str) -> bool {
    let named = book.training(training).map_or(&[][..], |training| &training.signers);
    member.steward || (member.signer && (named.is_empty() || named.contains(&member.id)))
}
