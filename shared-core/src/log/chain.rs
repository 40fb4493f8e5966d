//! A device's entries in order: each names the one before it, so none can be left out, put in or swapped unseen.
//!
//! What a chain cannot show is that its newest entries were cut off; whoever holds an older [`Head`] can. A fault
//! is told and nothing is repaired: what happened stands beside what is missing. DESIGN.md section 5, `verify`.
//!
//! Judges order alone. Whether an entry may be said by that person is the hub's question.

use super::erased::Erased;
use super::jws::{self, JwsFault, Sealed, Signed};
use super::wire::WireFault;
use crate::ids::DeviceId;
use crate::ordered::Map;
use serde::Serialize;

/// The newest entry of a device that somebody knows; sequence number 0 and no hash before the first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Head {
    /// Its sequence number.
    pub seq: u64,
    /// Its [`jws::hash`].
    pub hash: String,
}

crate::json::from_json! { Head { seq, hash } }

/// Why an entry does not go on a chain. The chain stays as it was, unless it is the body alone that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChainFault {
    /// The line itself is not a signed entry.
    #[error(transparent)]
    Jws(#[from] JwsFault),
    /// Another device signed it.
    #[error("another device signed this entry")]
    WrongDevice,
    /// Entries before it are not there.
    #[error("{}", missing(*from, *to))]
    Gap {
        /// The first that is missing.
        from: u64,
        /// The last that is missing.
        to: u64,
    },
    /// There is another entry in its place, or before it.
    #[error("entry {seq} does not follow this device's entries before it: there are two stories")]
    Fork {
        /// Its sequence number.
        seq: u64,
    },
}

fn missing(from: u64, to: u64) -> String {
    if from == to {
        format!("entry {from} of this device is missing")
    } else {
        format!("entries {from} to {to} of this device are missing")
    }
}

/// What became of a line that fits.
#[derive(Clone, Debug, PartialEq)]
pub enum Accepted {
    /// It is the next entry.
    Next(Box<Signed>),
    /// It is there already, letter for letter.
    Known {
        /// Its sequence number.
        seq: u64,
    },
}

/// One device's chain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chain {
    dev: DeviceId,
    head: Head,
    /// Hashes of what was accepted here, to tell a repeat from a second story.
    known: Map<u64, String>,
}

impl Chain {
    /// A chain from a device's first entry on.
    pub fn new(dev: DeviceId) -> Self {
        Self::from(dev, Head::default())
    }

    /// A chain that goes on from a head that was accepted earlier.
    pub fn from(dev: DeviceId, head: Head) -> Self {
        let known = if head.seq == 0 { Map::new() } else { Map::from([(head.seq, head.hash.clone())]) };
        Self { dev, head, known }
    }

    /// The newest entry.
    pub fn head(&self) -> &Head {
        &self.head
    }

    /// Takes the next line, or tells why it is not the next.
    pub fn accept(&mut self, jws: &str) -> Result<Accepted, ChainFault> {
        let Sealed { link, body } = jws::unseal(jws)?;
        if link.dev != self.dev {
            return Err(ChainFault::WrongDevice);
        }
        let hash = jws::hash(jws);
        let seq = link.seq;
        match self.place(seq, &link.prev, &hash)? {
            Place::Known => Ok(Accepted::Known { seq }),
            Place::Next => {
                // The chain goes on past a body that cannot be read: its place is taken all the same.
                self.advance(Head { seq, hash });
                let entry = body.map_err(JwsFault::Body)?;
                let jws::Link { dev, seq, prev, book } = link;
                Ok(Accepted::Next(Box::new(Signed { jws: jws.to_owned(), dev, seq, prev, book, entry })))
            }
        }
    }

    fn place(&self, seq: u64, prev: &str, hash: &str) -> Result<Place, ChainFault> {
        if seq <= self.head.seq {
            return if self.known.get(&seq).is_some_and(|known| known == hash) {
                Ok(Place::Known)
            } else {
                Err(ChainFault::Fork { seq })
            };
        }
        if seq > self.head.seq + 1 {
            return Err(ChainFault::Gap { from: self.head.seq + 1, to: seq - 1 });
        }
        if prev == self.head.hash { Ok(Place::Next) } else { Err(ChainFault::Fork { seq }) }
    }

    /// Goes on to an entry of a log that is read from its first line on.
    fn check(&mut self, head: Head, prev: &str) -> Result<(), LineFault> {
        match self.place(head.seq, prev, &head.hash) {
            Ok(Place::Known) => Err(LineFault::Repeated { seq: head.seq }),
            Ok(Place::Next) => {
                self.advance(head);
                Ok(())
            }
            Err(fault) => {
                // A gap is told where it opens, not again at every entry after it. A second story is not followed.
                if matches!(fault, ChainFault::Gap { .. }) {
                    self.advance(head);
                }
                Err(fault.into())
            }
        }
    }

    fn advance(&mut self, head: Head) {
        self.known.insert(head.seq, head.hash.clone());
        self.head = head;
    }
}

enum Place {
    Next,
    Known,
}

/// What a whole log is worth.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Verified {
    /// Entries that are whole: signature, order and body.
    pub entries: u64,
    /// Entries whose body was erased: what is left of them stands where they stood.
    pub erased: u64,
    /// Devices that signed at least one line.
    pub devices: u64,
    /// Everything that is wrong, in the log's order.
    pub problems: Vec<LineProblem>,
}

/// One line of a log that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineProblem {
    /// Its number in the file, from 1.
    pub line: u64,
    /// What is wrong with it.
    pub why: LineFault,
}

/// What is wrong with a line of a log.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LineFault {
    /// It does not go on its device's chain.
    #[error(transparent)]
    Chain(#[from] ChainFault),
    /// It stands in the log twice.
    #[error("entry {seq} of this device is in the log already")]
    Repeated {
        /// Its sequence number.
        seq: u64,
    },
}

enum Checked {
    Whole,
    Erased,
}

/// Checks a log of one JWS compact per line, or of what is left of erased ones ([`Erased`]). Devices may be interleaved; each one's own lines must be in order.
/// Blank lines are passed over. A problem is told once, and the check goes on behind it.
pub fn verify_log(text: &str) -> Verified {
    let mut chains: Map<DeviceId, Chain> = Map::new();
    let mut verified = Verified::default();
    for (number, line) in (1..).zip(text.lines()) {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        match check_line(&mut chains, line) {
            Ok(Checked::Whole) => verified.entries += 1,
            Ok(Checked::Erased) => verified.erased += 1,
            Err(why) => verified.problems.push(LineProblem { line: number, why }),
        }
    }
    verified.devices = chains.len() as u64;
    verified
}

fn check_line(chains: &mut Map<DeviceId, Chain>, line: &str) -> Result<Checked, LineFault> {
    if let Some(Erased { dev, seq, hash, .. }) = Erased::read(line) {
        let chain = chains.entry(dev.clone()).or_insert_with(|| Chain::new(dev));
        // What it followed went with its body; that it stands here is for the next line to say.
        let prev = chain.head.hash.clone();
        return chain.check(Head { seq, hash }, &prev).map(|()| Checked::Erased);
    }
    let Sealed { link, body } = jws::unseal(line).map_err(ChainFault::from)?;
    let chain = chains.entry(link.dev.clone()).or_insert_with(|| Chain::new(link.dev.clone()));
    chain.check(Head { seq: link.seq, hash: jws::hash(line) }, &link.prev)?;
    body.map(|_| Checked::Whole).map_err(|fault: WireFault| ChainFault::Jws(JwsFault::Body(fault)).into())
}
