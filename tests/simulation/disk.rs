//! A phone's storage: what was written and what is durable are kept apart.
//!
//! An act is written whole or not at all, as one transaction of `IndexedDB` is. A crash keeps a prefix of what was written
//! and not yet durable, because transactions are completed in order. Storage may be full; a line may rot.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use shared_core::bell::Rung;
use shared_core::ids::DeviceId;
use shared_core::log::chain::Head;
use shared_core::members::Members;
use shared_core::time::Instant;

use crate::chance::Chance;
use crate::options::DiskOptions;
use crate::planted::Planted;

/// Everything that is kept.
#[derive(Clone, Debug, Default)]
pub(crate) struct Store {
    /// This device's lines.
    pub(crate) own: Vec<(u64, String)>,
    pub(crate) head: Head,
    /// Lines of other devices.
    pub(crate) others: BTreeMap<(DeviceId, u64), String>,
    /// The phone's half of sync, as JSON.
    pub(crate) sync: Option<String>,
    /// When it was last looked for what is over, by the hub's clock.
    pub(crate) retired: Option<Instant>,
    pub(crate) rung: Rung,
    /// Which rulebook, and who is who, as the hub said.
    pub(crate) book: usize,
    pub(crate) served: Option<Served>,
}

/// What the hub handed out besides the rulebook: its revision, and everybody as it shows them to this phone.
#[derive(Clone, Debug)]
pub(crate) struct Served {
    pub(crate) rev: String,
    pub(crate) members: Arc<Members>,
}

/// One transaction.
#[derive(Clone, Debug)]
pub(crate) enum Act {
    Say {
        lines: Vec<(u64, String)>,
        head: Head,
    },
    Heard {
        others: Vec<((DeviceId, u64), String)>,
        forget: Vec<(DeviceId, u64)>,
        sync: String,
    },
    /// What is over, or was erased at the hub, goes.
    Retire {
        own: BTreeSet<u64>,
        others: BTreeSet<(DeviceId, u64)>,
        at: Instant,
    },
    Lost(Vec<u64>),
    Rang(Rung),
    /// Which rulebook is kept, and who is who.
    Rules(usize, Served),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Full;

#[derive(Debug)]
pub(crate) struct Disk {
    options: DiskOptions,
    durable: Store,
    written: Vec<Act>,
    full: bool,
    healed: bool,
    planted: Option<Planted>,
}

impl Disk {
    pub(crate) fn new(options: DiskOptions, planted: Option<Planted>) -> Self {
        Self { options, durable: Store::default(), written: Vec::new(), full: false, healed: false, planted }
    }

    /// From now on there is room and nothing rots.
    pub(crate) fn heal(&mut self) {
        (self.full, self.healed) = (false, true);
    }

    pub(crate) fn tick(&mut self, chance: &mut Chance) {
        if !self.healed {
            self.full ^= chance.hit(if self.full { self.options.emptied } else { self.options.full });
        }
    }

    /// How many ticks a write takes.
    pub(crate) fn flush_ticks(&self, chance: &mut Chance) -> usize {
        usize::try_from(chance.range(0, self.options.flush_ticks_max)).unwrap_or(0)
    }

    pub(crate) fn write(&mut self, act: Act) -> Result<(), Full> {
        if self.full {
            return if self.planted == Some(Planted::FullDiskSaysYes) { Ok(()) } else { Err(Full) };
        }
        self.written.push(act);
        Ok(())
    }

    /// Everything written becomes durable.
    pub(crate) fn flush(&mut self) {
        for act in self.written.drain(..) {
            self.durable.apply(act);
        }
    }

    /// The page died: of what was not durable the first few transactions were completed, the rest never happened.
    pub(crate) fn crash(&mut self, chance: &mut Chance) {
        let kept = chance.below(self.written.len() + 1);
        let torn = self.written.get(kept).cloned();
        self.written.truncate(kept);
        self.flush();
        if let (Some(Planted::DiskTearsAnAct), Some(Act::Say { lines, .. })) = (self.planted, torn) {
            self.durable.own.extend(lines.into_iter().take(1));
        }
    }

    pub(crate) fn durable(&self) -> &Store {
        &self.durable
    }

    /// A line that the hub is not known to keep rots: a letter changes, or its end is gone. Answers which.
    pub(crate) fn rot(&mut self, chance: &mut Chance, acked: u64) -> Option<u64> {
        if self.healed || !chance.hit(self.options.rot) {
            return None;
        }
        let mut waiting: Vec<_> = self.durable.own.iter_mut().filter(|(seq, _)| *seq > acked).collect();
        let which = chance.below(waiting.len());
        let (seq, line) = waiting.get_mut(which)?;
        let at = chance.below(line.len());
        if chance.hit(300) {
            line.truncate(at);
        } else {
            line.replace_range(at..=at, if line[at..].starts_with('x') { "y" } else { "x" });
        }
        Some(*seq)
    }
}

impl Store {
    fn apply(&mut self, act: Act) {
        match act {
            Act::Say { lines, head } => {
                self.own.extend(lines);
                self.head = head;
            }
            Act::Heard { others, forget, sync } => {
                self.others.retain(|id, _| !forget.contains(id));
                self.others.extend(others);
                self.sync = Some(sync);
            }
            Act::Retire { own, others, at } => {
                self.own.retain(|(seq, _)| !own.contains(seq));
                self.others.retain(|id, _| !others.contains(id));
                self.retired = Some(at);
            }
            Act::Lost(seqs) => self.own.retain(|(seq, _)| !seqs.contains(seq)),
            Act::Rang(rung) => self.rung = rung,
            Act::Rules(book, served) => (self.book, self.served) = (book, Some(served)),
        }
    }
}
