//! The log in memory: what the journal holds, proved, and the state that follows from it.
//!
//! The journal is the truth; a ledger is made from it, or from a tally and what came since, and only ever grows by what the
//! journal has taken. It is made anew whenever another tab wrote. Keeps no clock and writes nothing.

use std::slice;

use shared_core::code::answer::Answer;
use shared_core::code::ask::Nonce;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::jws::Signed;
use shared_core::ordered::{Map, Set};
use shared_core::standing::said_by;
use shared_core::state::{Session, State, fold};
use shared_core::sync::message::Stretch;
use shared_core::time::Instant;

use super::heard::{Heard, Runs};
use super::tally::Tally;
use crate::later::WriteTally;
use crate::shell::journal::open::{Own, open};
use crate::shell::journal::{Change, Fault, Journal, Line, Mark, Other, Reach, Standing};

/// What is known from the log.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    own: Vec<Own>,
    /// Own lines that were taken in.
    told: Runs,
    /// Lines of other devices that were taken in.
    heard: Heard,
    /// How many of both were not folded here: a tally stands for them.
    tallied: u64,
    /// How often a line had gone from the journal when it was read.
    losses: u64,
    head: Head,
    lost: Vec<u64>,
    aside: u32,
    state: State,
    my_session: Option<SessionId>,
    used: Set<Nonce>,
}

impl Ledger {
    /// Reads and proves the journal. What is to be written about it is given along.
    pub async fn load(journal: &impl Journal, dev: &DeviceId) -> Result<(Self, Vec<Change>), Fault> {
        let (mut loaded, bytes) = journal.load(Reach::SinceTally).await?;
        let mut tally = None;
        if let Some(bytes) = bytes {
            let read = journal.reads_tallies().await;
            tally = read.and_then(|read| read(&bytes, dev));
            if tally.is_none() {
                if read.is_some() {
                    // Nothing stands for its lines any more, so they are proved again. If it cannot go now, it is read again next time.
                    let _ = journal.change(&[Change::TallyGone]).await;
                }
                (loaded, _) = journal.load(Reach::Whole).await?;
            }
        }
        let Tally { own, others, state } = tally.unwrap_or_default();
        let losses = loaded.losses;
        let opened = open(loaded, dev, journal).await;
        let mut ledger = Self { told: own, heard: others, state, losses, ..Self::default() };
        (ledger.head, ledger.lost, ledger.aside) = (opened.head, opened.lost, opened.aside);
        ledger.tallied();
        // One's own lines first: what others say about a session of the same name then stands beside it.
        for own in opened.own {
            // What the hub would not take from this member is nobody's standing.
            if !(is_rejected(&own.line) && said_by(&own.signed.entry.fact).is_some()) {
                ledger.take_in(own.line.seq, &own.signed.entry);
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
            self.take_in(line.seq, &signed.entry);
            self.own.push(Own { line, signed });
        }
        self.head = head;
    }

    /// Takes up a line of another device, unless it is known already.
    pub fn learn(&mut self, signed: &Signed) {
        if self.heard.entry(signed.dev.clone()).or_default().add(signed.seq) {
            fold(&mut self.state, &signed.entry);
        }
    }

    /// What is to be written when the hub holds this device's lines up to `acked_to` and will not take `rejected`.
    pub fn standings(&self, acked_to: u64, rejected: &Map<u64, String>) -> Vec<Line> {
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
        let mut lines: Map<u64, Line> = lines.into_iter().map(|line| (line.seq, line)).collect();
        for own in &mut self.own {
            if let Some(line) = lines.remove(&own.line.seq) {
                own.line = line;
            }
        }
    }

    /// The ids of lines of others in a stretch.
    pub fn others_between(&self, stretch: &Stretch) -> impl Iterator<Item = String> {
        let runs = self.heard.get(&stretch.dev).map_or(&[][..], slice::from_ref);
        let (from, to) = (stretch.from, stretch.to.max(stretch.from));
        runs.iter().flat_map(move |runs| runs.between(from, to)).map(|seq| other_id(&stretch.dev, seq))
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
    pub fn used(&self) -> &Set<Nonce> {
        &self.used
    }

    /// When this device last said anything.
    pub fn last_at(&self) -> Option<Instant> {
        self.own.iter().map(|own| own.signed.entry.at).max()
    }

    /// How many lines were folded here.
    pub fn since_tally(&self) -> u64 {
        self.folded() - self.tallied
    }

    /// A tally stands for all that is known now.
    pub fn tallied(&mut self) {
        self.tallied = self.folded();
    }

    /// What the journal must hold for a tally of this to stand for it.
    pub fn mark(&self) -> Mark {
        Mark { others: self.heard.values().map(Runs::count).sum(), losses: self.losses }
    }

    /// All that is known, as bytes.
    pub fn tally(&self, write: WriteTally, dev: &DeviceId) -> Option<Vec<u8>> {
        write(dev, &self.told, &self.heard, &self.state)
    }

    fn folded(&self) -> u64 {
        self.told.count() + self.heard.values().map(Runs::count).sum::<u64>()
    }

    fn take_in(&mut self, seq: u64, entry: &Entry) {
        match &entry.fact {
            Fact::Entered { .. } => self.my_session = Some(entry.session.clone()),
            Fact::BuddyConfirmed { proof: Some(proof), .. } => {
                self.used.extend(Answer::read(proof).map(|answer| answer.said.nonce));
            }
            _ => {}
        }
        if self.told.add(seq) {
            fold(&mut self.state, entry);
        }
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
