//! The hub's half of sync: what becomes of each pushed entry, and who may read what.
//!
//! An entry is stored, known already, set aside (signed and in order, but not acceptable: it takes its place, so
//! that the log goes on behind it, and counts for nothing) or refused (its place stays open). Whatever is not
//! stored is told to the phone with the reason, at every question that brings it, until the phone has heard.
//!
//! Stores nothing itself: the caller writes what it is told, in one transaction, and answers after that is durable.

use std::collections::{BTreeMap, BTreeSet};

use super::message::{Rejected, Why};
use crate::entry::Fact;
use crate::ids::{DeviceId, PersonId};
use crate::log::chain::Head;
use crate::log::erased::Erased;
use crate::log::jws::{self, Link, Sealed, Signed};

/// An entry that the hub keeps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Its [`jws::hash`].
    pub hash: String,
    /// Why it counts for nothing, if it was set aside.
    pub aside: Option<Why>,
}

/// Entries that a device can no longer read, and that will not come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LostStretch {
    /// The first.
    pub from: u64,
    /// The last.
    pub to: u64,
}

/// What became of one pushed line.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// The next entry: store it. `after` is a stretch that was declared lost just before it: record it.
    Stored {
        /// The entry.
        signed: Box<Signed>,
        /// Its [`jws::hash`].
        hash: String,
        /// What is missing before it.
        after: Option<LostStretch>,
    },
    /// The hub has it, letter for letter. Nothing to do.
    Duplicate {
        /// Its sequence number.
        seq: u64,
    },
    /// Signed and in order, but it counts for nothing: store the line with the reason, where nothing folds it.
    SetAside {
        /// Its sequence number.
        seq: u64,
        /// Its [`jws::hash`].
        hash: String,
        /// Why.
        why: Why,
        /// What is missing before it.
        after: Option<LostStretch>,
    },
    /// Not taken; the head did not move.
    Refused {
        /// Its sequence number; 0 when it could not be read.
        seq: u64,
        /// Why.
        why: Why,
    },
}

/// One device's push, line by line.
#[derive(Clone, Debug)]
pub struct Intake {
    dev: DeviceId,
    member: PersonId,
    head: Head,
    kept: BTreeMap<u64, Kept>,
    lost: BTreeSet<u64>,
    rejected: Vec<Rejected>,
}

impl Intake {
    /// A push of `dev`, which belongs to `member`. `head` is the device's newest entry at the hub and `kept` what the
    /// hub keeps of it at the sequence numbers that are pushed (a phone repeats what it heard no answer to; without
    /// `kept` a repeat cannot be told from a second story). `lost` comes from the question.
    pub fn new(dev: DeviceId, member: PersonId, head: Head, kept: BTreeMap<u64, Kept>, lost: &[u64]) -> Self {
        Self { dev, member, head, kept, lost: lost.iter().copied().collect(), rejected: Vec::new() }
    }

    /// The newest entry, for the answer.
    pub fn head(&self) -> &Head {
        &self.head
    }

    /// What the phone must be told, for the answer.
    pub fn rejected(&self) -> &[Rejected] {
        &self.rejected
    }

    /// Takes one pushed line.
    pub fn take(&mut self, line: &str) -> Taken {
        let taken = self.judge(line);
        match &taken {
            Taken::Stored { signed, hash, .. } => self.advance(signed.seq, hash, None),
            Taken::SetAside { seq, hash, why, .. } => self.advance(*seq, hash, Some(*why)),
            Taken::Refused { seq, why } => self.reject(*seq, *why),
            Taken::Duplicate { .. } => {}
        }
        if let Taken::SetAside { seq, .. } | Taken::Duplicate { seq } = taken
            && let Some(why) = self.kept.get(&seq).and_then(|kept| kept.aside)
        {
            self.reject(seq, why);
        }
        taken
    }

    /// Goes on past an entry whose body was erased after it was taken. False if it is not the next.
    pub fn pass(&mut self, erased: &Erased) -> bool {
        let Erased { dev, seq, hash, .. } = erased;
        let link = Link { dev: dev.clone(), seq: *seq, prev: self.head.hash.clone(), book: "".into() };
        let is_next = matches!(self.place(&link, hash), Place::Here { .. });
        if is_next {
            self.advance(*seq, hash, None);
        }
        is_next
    }

    fn judge(&self, line: &str) -> Taken {
        let Ok(Sealed { link, body }) = jws::unseal(line) else {
            return Taken::Refused { seq: jws::claimed_seq(line).unwrap_or(0), why: Why::Damaged };
        };
        let seq = link.seq;
        let hash = jws::hash(line);
        let after = match self.place(&link, &hash) {
            Place::Here { after } => after,
            Place::Known => return Taken::Duplicate { seq },
            Place::Nowhere(why) => return Taken::Refused { seq, why },
        };
        match body {
            Err(_) => Taken::SetAside { seq, hash, why: Why::Unreadable, after },
            Ok(entry) if entry.who != self.member => Taken::SetAside { seq, hash, why: Why::OtherMember, after },
            Ok(entry) => {
                let Link { dev, seq, prev, book } = link;
                let signed = Box::new(Signed { jws: line.to_owned(), dev, seq, prev, book, entry });
                Taken::Stored { signed, hash, after }
            }
        }
    }

    fn place(&self, link: &Link, hash: &str) -> Place {
        let next = self.head.seq + 1;
        if link.dev != self.dev {
            return Place::Nowhere(Why::OtherDevice);
        }
        if link.seq == self.head.seq && hash == self.head.hash {
            return Place::Known;
        }
        if link.seq < next {
            return match self.kept.get(&link.seq) {
                Some(kept) if kept.hash == hash => Place::Known,
                Some(_) => Place::Nowhere(Why::Fork),
                None => Place::Nowhere(Why::DeclaredLost),
            };
        }
        if link.seq == next {
            let follows = link.prev == self.head.hash;
            return if follows { Place::Here { after: None } } else { Place::Nowhere(Why::Fork) };
        }
        // What was lost cannot be named by its hash any more, so `prev` is not asked for behind a declared stretch.
        if (next..link.seq).all(|seq| self.lost.contains(&seq)) {
            Place::Here { after: Some(LostStretch { from: next, to: link.seq - 1 }) }
        } else {
            Place::Nowhere(Why::Gap)
        }
    }

    fn advance(&mut self, seq: u64, hash: &str, aside: Option<Why>) {
        self.head = Head { seq, hash: hash.to_owned() };
        self.kept.insert(seq, Kept { hash: hash.to_owned(), aside });
    }

    fn reject(&mut self, seq: u64, why: Why) {
        self.rejected.push(Rejected { seq, why });
    }
}

enum Place {
    Here { after: Option<LostStretch> },
    Known,
    Nowhere(Why),
}

/// Whether other members' phones are handed a fact. What somebody attested, an incident's words and what this hub
/// does not know go to the steward alone.
pub const fn members_may_see(fact: &Fact) -> bool {
    match fact {
        Fact::Entered { .. }
        | Fact::MachineStarted { .. }
        | Fact::MachineStopped { .. }
        | Fact::BuddyConfirmed { .. }
        | Fact::BuddyLeft { .. }
        | Fact::OutByMoved { .. }
        | Fact::SweepStarted { .. }
        | Fact::ChoreDone { .. }
        | Fact::WatchRound
        | Fact::RoundDone { .. }
        | Fact::Found { .. }
        | Fact::TaggedOut { .. }
        | Fact::TagCleared { .. }
        | Fact::ClearCalled { .. }
        | Fact::Left => true,
        Fact::Attested { .. }
        | Fact::Incident { .. }
        | Fact::ClockJumped { .. }
        | Fact::TimerSet { .. }
        | Fact::Unrecognised { .. } => false,
    }
}
