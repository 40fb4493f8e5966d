//! A phone's storage: what was written and what is durable are kept apart.
//!
//! An act is written whole or not at all, as one transaction of `IndexedDB` is. A crash keeps a prefix of what was written
//! and not yet durable, because transactions are completed in order. Storage may be full; a line may rot.

use shared_core::bell::Rung;
use shared_core::log::chain::Head;

use crate::chance::Chance;
use crate::options::DiskOptions;
use crate::planted::Planted;

/// Everything that is kept.
#[derive(Clone, Debug, Default)]
pub(crate) struct Store {
    /// This device's lines.
    pub(crate) own: Vec<(u64, String)>,
    pub(crate) head: Head,
    /// Lines of other devices, in the order in which they came.
    pub(crate) others: Vec<String>,
    /// The phone's half of sync, as JSON.
    pub(crate) sync: Option<String>,
    /// Own lines that cannot be read any more.
    pub(crate) lost: Vec<u64>,
    pub(crate) rung: Rung,
    /// Which rulebook.
    pub(crate) book: usize,
}

/// One transaction.
#[derive(Clone, Debug)]
pub(crate) enum Act {
    Say {
        lines: Vec<(u64, String)>,
        head: Head,
    },
    Heard {
        others: Vec<String>,
        sync: String,
    },
    Lost(Vec<u64>),
    Rang(Rung),
    /// Which rulebook is kept.
    Rules(usize),
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
            Act::Heard { others, sync } => {
                self.others.extend(others);
                self.sync = Some(sync);
            }
            Act::Lost(seqs) => {
                self.own.retain(|(seq, _)| !seqs.contains(seq));
                self.lost.extend(seqs);
            }
            Act::Rang(rung) => self.rung = rung,
            Act::Rules(book) => self.book = book,
        }
    }
}
