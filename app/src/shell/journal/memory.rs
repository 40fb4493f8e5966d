//! A journal in memory, with faults to order: what the loop is tested against.
//!
//! Two clones share one store, as two tabs do.

use std::cell::RefCell;
use std::rc::Rc;

use shared_core::log::chain::Head;
use shared_core::ordered::Set;

use super::{Change, Fault, Journal, Kept, Key, Line, Loaded, Mark, Other, Reach, Shelf};
use crate::later::{self, ReadTally};

/// A journal that forgets everything when it is dropped.
#[derive(Clone, Debug, Default)]
pub struct Memory(Rc<RefCell<Store>>);

#[derive(Debug, Default)]
struct Store {
    kept: Loaded,
    /// The ids of those on [`Shelf::Others`].
    shelved: Set<String>,
    tally: Option<Vec<u8>>,
    /// No later part comes.
    alone: bool,
    values: Vec<(Key, String)>,
    fault_next: Option<Fault>,
}

impl Memory {
    /// The next write fails so.
    pub fn fail_next(&self, fault: Fault) {
        self.0.borrow_mut().fault_next = Some(fault);
    }

    /// What is kept.
    pub fn kept(&self) -> Loaded {
        self.0.borrow().kept.clone()
    }

    /// The tally.
    pub fn tally(&self) -> Option<Vec<u8>> {
        self.0.borrow().tally.clone()
    }

    /// Puts this in place of the tally.
    pub fn set_tally(&self, tally: Vec<u8>) {
        self.0.borrow_mut().tally = Some(tally);
    }

    /// From now on nothing comes that reads a tally.
    pub fn stay_alone(&self) {
        self.0.borrow_mut().alone = true;
    }

    /// How many lines of others are read at a start.
    pub fn fresh(&self) -> usize {
        let store = self.0.borrow();
        store.kept.others.iter().filter(|other| !store.shelved.contains(&other.id)).count()
    }

    /// Spoils a line, as a bad disk would.
    pub fn spoil(&self, seq: u64) {
        let mut store = self.0.borrow_mut();
        let line = store.kept.log.iter_mut().find(|line| line.seq == seq).expect("a line to spoil");
        line.jws.insert(40, '!');
    }

    /// Spoils a line of another device so that it reads as before, and nobody signed it.
    pub fn spoil_signature(&self, id: &str) {
        let mut store = self.0.borrow_mut();
        let other = store.kept.others.iter_mut().find(|other| other.id == id).expect("a line to spoil");
        other.jws = unsigned(&other.jws);
    }

    /// Spoils a line of this device likewise.
    pub fn spoil_own_signature(&self, seq: u64) {
        let mut store = self.0.borrow_mut();
        let line = store.kept.log.iter_mut().find(|line| line.seq == seq).expect("a line to spoil");
        line.jws = unsigned(&line.jws);
    }

    /// Puts this in place of a small value.
    pub fn set(&self, key: Key, value: String) {
        let mut store = self.0.borrow_mut();
        store.values.retain(|(kept, _)| *kept != key);
        store.values.push((key, value));
    }

    fn fault(&self) -> Result<(), Fault> {
        self.0.borrow_mut().fault_next.take().map_or(Ok(()), Err)
    }
}

impl Journal for Memory {
    type Turn = ();

    async fn turn(&self) {}

    async fn own_after(&self, seq: u64) -> Result<Vec<Line>, Fault> {
        Ok(self.0.borrow().kept.log.iter().filter(|line| line.seq > seq).take(3).cloned().collect())
    }

    async fn others_after(&self, on: Shelf, id: &str) -> Result<Vec<Other>, Fault> {
        let store = self.0.borrow();
        let lies_there = |other: &Other| match on {
            Shelf::Others => store.tally.is_none() && store.shelved.contains(&other.id),
            Shelf::Fresh => !store.shelved.contains(&other.id),
        };
        let mut others: Vec<Other> = store.kept.others.iter().filter(|other| lies_there(other)).cloned().collect();
        others.sort_by(|a, b| a.id.cmp(&b.id));
        Ok(others.into_iter().filter(|other| other.id.as_str() > id).take(3).collect())
    }

    async fn breathe(&self) {}

    async fn load(&self, reach: Reach) -> Result<(Loaded, Option<Vec<u8>>), Fault> {
        let store = self.0.borrow();
        let mut kept = store.kept.clone();
        if reach == Reach::Whole || store.tally.is_none() {
            return Ok((kept, None));
        }
        kept.others.retain(|other| !store.shelved.contains(&other.id));
        Ok((kept, store.tally.clone()))
    }

    async fn reads_tallies(&self) -> Option<ReadTally> {
        later::parts().filter(|_| !self.0.borrow().alone).map(|parts| parts.read_tally)
    }

    async fn keep_tally(&self, head: &Head, mark: Mark, tally: &[u8]) -> Result<(), Fault> {
        self.fault()?;
        let mut store = self.0.borrow_mut();
        let holds = Mark { others: store.kept.others.len() as u64, losses: store.kept.losses };
        if store.kept.head.clone().unwrap_or_default() != *head || holds != mark {
            return Err(Fault::Moved);
        }
        store.shelved = store.kept.others.iter().map(|other| other.id.clone()).collect();
        store.tally = Some(tally.to_vec());
        Ok(())
    }

    async fn head(&self) -> Result<Head, Fault> {
        Ok(self.0.borrow().kept.head.clone().unwrap_or_default())
    }

    async fn append(&self, expected: &Head, next: &Head, lines: &[Line]) -> Result<Kept, Fault> {
        self.fault()?;
        let mut store = self.0.borrow_mut();
        if store.kept.head.clone().unwrap_or_default() != *expected {
            return Err(Fault::Moved);
        }
        store.kept.log.extend_from_slice(lines);
        store.kept.head = Some(next.clone());
        Ok(Kept::Durably)
    }

    async fn change(&self, changes: &[Change]) -> Result<(), Fault> {
        self.fault()?;
        let mut store = self.0.borrow_mut();
        if changes.iter().any(Change::takes_away) {
            store.tally = None;
            store.kept.losses += 1;
        }
        for change in changes.iter().cloned() {
            match change {
                Change::Line(line) => {
                    store.kept.log.retain(|kept| kept.seq != line.seq);
                    store.kept.log.push(line);
                    store.kept.log.sort_by_key(|kept| kept.seq);
                }
                Change::Other(other) => {
                    store.shelved.remove(&other.id);
                    store.kept.others.retain(|kept| kept.id != other.id);
                    store.kept.others.push(other);
                }
                Change::LineAside { seq, .. } => {
                    store.kept.log.retain(|kept| kept.seq != seq);
                    store.kept.aside += 1;
                }
                Change::OtherAside(aside) => {
                    store.kept.others.retain(|kept| kept.id != aside.id);
                    store.kept.aside += 1;
                }
                Change::LineGone(seq) => store.kept.log.retain(|kept| kept.seq != seq),
                Change::OtherGone(id) => store.kept.others.retain(|kept| kept.id != id),
                Change::TallyGone => store.tally = None,
                Change::PhotoGone(_) => {}
                Change::Value(key, value) => {
                    store.values.retain(|(kept, _)| *kept != key);
                    store.values.push((key, value));
                }
            }
        }
        Ok(())
    }

    async fn read(&self, key: Key) -> Result<Option<String>, Fault> {
        Ok(self.0.borrow().values.iter().find(|(kept, _)| *kept == key).map(|(_, value)| value.clone()))
    }
}

fn unsigned(jws: &str) -> String {
    let (said, _) = jws.rsplit_once('.').expect("three parts");
    format!("{said}.{}", "A".repeat(86))
}
