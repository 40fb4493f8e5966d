//! The log in memory: what the journal holds, proved, and the state that follows from it.
//!
//! The journal is the truth; a ledger is made from it and only ever grows by what the journal has taken. It is made
//! anew whenever another tab wrote. Keeps no clock and writes nothing.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::code::answer::Answer;
use shared_core::code::ask::Nonce;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::jws::Signed;
use shared_core::standing::said_by;
use shared_core::state::{Session, State, fold};
use shared_core::sync::message::Stretch;
use shared_core::time::Instant;

use crate::shell::journal::open::{Own, open};
use crate::shell::journal::{Change, Fault, Journal, Line, Other, Standing};

/// What is known from the log.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    own: Vec<Own>,
    /// Lines of other devices that were taken in, by device and number.
    others: BTreeSet<(DeviceId, u64)>,
    head: Head,
    lost: Vec<u64>,
    aside: u32,
    state: State,
    my_session: Option<SessionId>,
    used: BTreeSet<Nonce>,
}

impl Ledger {
    /// Reads and proves the journal. What is to be written about it is given along.
    pub async fn load(journal: &impl Journal, dev: &DeviceId) -> Result<(Self, Vec<Change>), Fault> {
        let opened = open(journal.load().await?, dev, journal).await;
        let mut ledger = Self { head: opened.head, lost: opened.lost, aside: opened.aside, ..Self::default() };
        // One's own lines first: what others say about a session of the same name then stands beside it.
        for own in opened.own {
            // What the hub would not take from this member is nobody's standing.
            if !(is_rejected(&own.line) && said_by(&own.signed.entry.fact).is_some()) {
                ledger.take_in(&own.signed.entry);
            }
            ledger.own.push(own);
        }
        for signed in &opened.others {
            ledger.learn(signed);
        }
        Ok((ledger, opened.changes))
    }

    /// Takes up lines that the journal has just taken.
    pub fn grow(&mut self, lines: Vec<(Line, Signed)>, head: Head) {
        for (line, signed) in lines {
            self.take_in(&signed.entry);
            self.own.push(Own { line, signed });
        }
        self.head = head;
    }

    /// Takes up a line of another device, unless it is known already.
    pub fn learn(&mut self, signed: &Signed) {
        if self.others.insert((signed.dev.clone(), signed.seq)) {
            fold(&mut self.state, &signed.entry);
        }
    }

    /// What is to be written when the hub holds this device's lines up to `acked_to` and will not take `rejected`.
    pub fn standings(&self, acked_to: u64, rejected: &BTreeMap<u64, String>) -> Vec<Line> {
        let changed = self.own.iter().filter_map(|Own { line, .. }| {
            let standing = match (rejected.get(&line.seq), &line.standing) {
                (Some(why), _) => Standing::Rejected { why: why.clone() },
                (None, said @ Standing::Rejected { .. }) => said.clone(),
                (None, _) if line.seq <= acked_to => Standing::Acked,
                (None, _) => Standing::Waiting,
            };
            (standing != line.standing).then(|| Line { standing, ..line.clone() })
        });
        changed.collect()
    }

    /// Takes up standings that the journal has just taken.
    pub fn stand(&mut self, lines: Vec<Line>) {
        let mut lines: BTreeMap<u64, Line> = lines.into_iter().map(|line| (line.seq, line)).collect();
        for own in &mut self.own {
            if let Some(line) = lines.remove(&own.line.seq) {
                own.line = line;
            }
        }
    }

    /// The ids of lines of others in a stretch.
    pub fn others_between(&self, stretch: &Stretch) -> impl Iterator<Item = String> {
        let place = |seq| (stretch.dev.clone(), seq);
        let known = self.others.range(place(stretch.from)..=place(stretch.to.max(stretch.from)));
        known.map(|(dev, seq)| other_id(dev, *seq))
    }

    /// More lines lie aside.
    pub fn put_aside(&mut self, lines: u32) {
        self.aside += lines;
    }

    /// This device's lines, in order.
    pub fn own(&self) -> &[Own] {
        &self.own
    }

    /// The head of this device's chain.
    pub fn head(&self) -> &Head {
        &self.head
    }

    /// Numbers of this device's lines that are gone.
    pub fn lost(&self) -> &[u64] {
        &self.lost
    }

    /// How many lines lie aside.
    pub fn aside(&self) -> u32 {
        self.aside
    }

    /// What follows from all lines.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// The session that this device began, unless it was left: here, or by another phone of the same person.
    pub fn my_session(&self) -> Option<&SessionId> {
        self.my_session.as_ref().filter(|id| self.state.sessions.get(*id).is_some_and(Session::is_open))
    }

    /// Numbers of buddies' answers that were accepted.
    pub fn used(&self) -> &BTreeSet<Nonce> {
        &self.used
    }

    /// When this device last said anything.
    pub fn last_at(&self) -> Option<Instant> {
        self.own.iter().map(|own| own.signed.entry.at).max()
    }

    fn take_in(&mut self, entry: &Entry) {
        match &entry.fact {
            Fact::Entered { .. } => self.my_session = Some(entry.session.clone()),
            Fact::BuddyConfirmed { proof: Some(proof), .. } => {
                self.used.extend(Answer::read(proof).map(|answer| answer.said.nonce));
            }
            _ => {}
        }
        fold(&mut self.state, entry);
    }
}

/// Whether the hub would not take a line.
pub fn is_rejected(line: &Line) -> bool {
    matches!(line.standing, Standing::Rejected { .. })
}

/// How a line of another device lies in the journal.
pub fn other(signed: &Signed) -> Other {
    Other { id: other_id(&signed.dev, signed.seq), jws: signed.jws.clone() }
}

fn other_id(dev: &DeviceId, seq: u64) -> String {
    format!("{dev} {seq:016}")
}
