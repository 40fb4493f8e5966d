//! The hub's half of sync: what becomes of each pushed entry, and who may read what.
//!
//! An entry is stored, known already, set aside (signed and in order, but not acceptable: it takes its place, so
//! that the log goes on behind it, and counts for nothing) or refused (its place stays open). Whatever is not
//! stored is told to the phone with the reason, at every question that brings it, until the phone has heard.
//!
//! Lines of a few are checked each by its own signature. Of a longer push the newest line of each run vouches for those
//! before it ([`crate::log::run`]): the caller then has to check by itself what was vouched for, before anybody is handed it.
//!
//! Stores nothing itself: the caller writes what it is told, in one transaction, and answers after that is durable.

use super::message::{Rejected, Why};
use crate::entry::{Entry, Fact, Matter, Of};
use crate::ids::{DeviceId, PersonId};
use crate::log::chain::Head;
use crate::log::erased::Erased;
use crate::log::jws::{self, JwsFault, Link, Sealed, Signed};
use crate::log::run::{Opened, Proof, open_one, open_runs};
use crate::ordered::{Map, Set};

/// A push of no more lines than this is checked line by line: an evening's acts as they happen.
pub const ONE_BY_ONE_MAX: usize = 16;

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

/// Pushed lines, opened before anything is asked of the store: what costs most needs no lock.
#[derive(Clone, Debug, Default)]
pub struct Push(Vec<(String, Result<Opened, JwsFault>)>);

impl Push {
    /// A few by their own signatures, more by runs.
    pub fn open(lines: Vec<String>) -> Self {
        if lines.len() <= ONE_BY_ONE_MAX {
            return Self::open_each(lines);
        }
        let opened = open_runs(lines.iter().map(String::as_str));
        Self(lines.into_iter().zip(opened).collect())
    }

    /// Each by its own signature, however many.
    fn open_each(lines: Vec<String>) -> Self {
        let open = |line: String| {
            let opened = open_one(&line);
            (line, opened)
        };
        Self(lines.into_iter().map(open).collect())
    }

    /// The same lines, each opened by its own signature.
    #[must_use]
    pub fn one_by_one(self) -> Self {
        Self::open_each(self.0.into_iter().map(|(line, _)| line).collect())
    }

    /// The same lines, as they were before they were judged.
    pub fn of(judged: Vec<Judged>) -> Self {
        Self::open(judged.into_iter().map(|judged| judged.line).collect())
    }

    /// How many lines there are.
    pub fn lines(&self) -> usize {
        self.0.len()
    }

    /// Whether a line is known by another's signature alone.
    pub fn owes_proof(&self) -> bool {
        self.0.iter().any(|(_, opened)| opened.as_ref().is_ok_and(|opened| opened.proof == Proof::Later))
    }

    /// Whether one of them says something of that kind.
    pub fn says(&self, kind: fn(&Entry) -> bool) -> bool {
        let said = |opened: &Result<Opened, JwsFault>| opened.as_ref().ok()?.sealed.body.as_ref().ok().map(kind);
        self.0.iter().any(|(_, opened)| said(opened) == Some(true))
    }

    /// The sequence numbers of those that were opened, the least and the greatest.
    pub fn seqs(&self) -> Option<(u64, u64)> {
        let seqs = || self.0.iter().filter_map(|(_, opened)| opened.as_ref().ok()).map(|opened| opened.sealed.link.seq);
        Some((seqs().min()?, seqs().max()?))
    }
}

/// What became of one line of a push.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The line.
    pub line: String,
    /// What became of it.
    pub taken: Taken,
    /// It counts, and its own signature was not checked: nobody may be handed it before that is done.
    pub owes_proof: bool,
}

/// Whether a member may say something: what is accepted may change what they may say next.
pub type MaySay<'a> = &'a mut dyn FnMut(&Entry) -> bool;

/// One device's push, line by line.
#[derive(Clone, Debug)]
pub struct Intake {
    dev: DeviceId,
    member: PersonId,
    head: Head,
    kept: Map<u64, Kept>,
    lost: Set<u64>,
    rejected: Vec<Rejected>,
}

impl Intake {
    /// A push of `dev`, which belongs to `member`. `head` is the device's newest entry at the hub and `kept` what the
    /// hub keeps of it at the sequence numbers that are pushed (a phone repeats what it heard no answer to; without
    /// `kept` a repeat cannot be told from a second story). `lost` comes from the question.
    pub fn new(dev: DeviceId, member: PersonId, head: Head, kept: Map<u64, Kept>, lost: &[u64]) -> Self {
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

    /// Takes one pushed line by its own signature.
    pub fn take(&mut self, line: &str) -> Taken {
        self.take_opened(line, open_one(line), &mut |_| true)
    }

    /// The same; `may_say` is asked of what would be stored, in order, whether its member may say it.
    pub fn take_asking(&mut self, line: &str, may_say: MaySay<'_>) -> Taken {
        self.take_opened(line, open_one(line), may_say)
    }

    /// Takes a line that somebody else vouches for: its own signature is not asked for.
    pub fn take_vouched(&mut self, line: &str) -> Taken {
        let opened = jws::take_apart(line);
        let opened = opened.map(|apart| (apart.into_sealed(), jws::hash(line), Proof::Later));
        self.take_opened(line, opened.map(|(sealed, hash, proof)| Opened { sealed, hash, proof }), &mut |_| true)
    }

    /// Takes a push.
    pub fn take_all(&mut self, push: Push) -> Vec<Judged> {
        self.take_all_asking(push, &mut |_| true)
    }

    /// The same; `may_say` is asked of what would be stored, in order, whether its member may say it.
    pub fn take_all_asking(&mut self, push: Push, may_say: MaySay<'_>) -> Vec<Judged> {
        let judged = |(line, opened): (String, Result<Opened, JwsFault>)| {
            let vouched = opened.as_ref().is_ok_and(|opened| opened.proof == Proof::Later);
            let taken = self.take_opened(&line, opened, may_say);
            let owes_proof = vouched && matches!(taken, Taken::Stored { .. });
            Judged { line, taken, owes_proof }
        };
        push.0.into_iter().map(judged).collect()
    }

    fn take_opened(&mut self, line: &str, opened: Result<Opened, JwsFault>, may_say: MaySay<'_>) -> Taken {
        let taken = self.judge(line, opened, may_say);
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

    fn judge(&self, line: &str, opened: Result<Opened, JwsFault>, may_say: MaySay<'_>) -> Taken {
        let Ok(Opened { sealed: Sealed { link, body }, hash, .. }) = opened else {
            return Taken::Refused { seq: jws::claimed_seq(line).unwrap_or(0), why: Why::Damaged };
        };
        let seq = link.seq;
        let after = match self.place(&link, &hash) {
            Place::Here { after } => after,
            Place::Known => return Taken::Duplicate { seq },
            Place::Nowhere(why) => return Taken::Refused { seq, why },
        };
        match body {
            Err(_) => Taken::SetAside { seq, hash, why: Why::Unreadable, after },
            Ok(entry) if entry.who != self.member => Taken::SetAside { seq, hash, why: Why::OtherMember, after },
            Ok(entry) if !may_say(&entry) => Taken::SetAside { seq, hash, why: Why::NotAllowed, after },
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

/// Whether other members' phones are handed a fact. What was said of a tag is everybody's: they may not start the machine.
/// What somebody attested, incidents, what a steward notes of them or of a mess, who published rules, and what this hub does not know are not.
/// Who was inducted, signed off or given a role goes by the members' list and the cards that the hub makes of it.
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
        | Fact::BoardName { .. }
        | Fact::Noted { of: Of { matter: Matter::Tag(_), .. }, .. }
        | Fact::Left => true,
        Fact::Attested { .. }
        | Fact::Incident { .. }
        | Fact::Noted { .. }
        | Fact::ClockJumped { .. }
        | Fact::TimerSet { .. }
        | Fact::BellHeard
        | Fact::SweepUndone { .. }
        | Fact::Walked { .. }
        | Fact::WalkDone { .. }
        | Fact::Inducted { .. }
        | Fact::SignedOff { .. }
        | Fact::RoleGiven { .. }
        | Fact::RulesPublished { .. }
        | Fact::Unrecognised { .. } => false,
    }
}

/// Whether a steward's phones are handed a fact: besides what all see, what the shop's rules ask a steward to see to, and
/// what the times of a trace need. Not what somebody attested, nor whether a member's own timer runs.
pub const fn stewards_may_see(fact: &Fact) -> bool {
    members_may_see(fact)
        || matches!(
            fact,
            Fact::Incident { .. }
                | Fact::Noted { .. }
                | Fact::ClockJumped { .. }
                | Fact::SweepUndone { .. }
                | Fact::RulesPublished { .. }
        )
}
