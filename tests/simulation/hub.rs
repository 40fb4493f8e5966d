//! A hub whose store is a map: what a shop's hub does with a question, without HTTP and without a database.
//!
//! One transaction a question: everything is judged by `shared_core::sync::hub::Intake`, written, and only then answered.
//! A crash before the end of the transaction leaves no trace; one after it loses the answer alone.

use std::collections::BTreeMap;

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws;
use shared_core::sync::hub::{Intake, Kept, LostStretch, Taken, members_may_see};
use shared_core::sync::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, Rejected, SyncAnswer, SyncRequest, Why};
use shared_core::time::Instant;

/// One line that is kept.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) dev: DeviceId,
    pub(crate) jws: String,
    hash: String,
    pub(crate) aside: Option<Why>,
    /// What it says, if it counts.
    pub(crate) entry: Option<Entry>,
}

#[derive(Clone, Debug, Default)]
pub(crate) struct Hub {
    pub(crate) devices: BTreeMap<DeviceId, PersonId>,
    /// Position in the order of arrival, from 1.
    pub(crate) log: BTreeMap<u64, Row>,
    places: BTreeMap<(DeviceId, u64), u64>,
    pub(crate) lost: Vec<(DeviceId, LostStretch)>,
}

/// What a question came to, apart from the answer's text.
#[derive(Debug)]
pub(crate) struct Outcome {
    pub(crate) answer: String,
    pub(crate) rejected: Vec<Rejected>,
}

impl Hub {
    pub(crate) fn new(devices: BTreeMap<DeviceId, PersonId>) -> Self {
        Self { devices, ..Self::default() }
    }

    /// Answers a device's question; `None` for what is no question, or no device of this shop.
    pub(crate) fn sync(&mut self, dev: &DeviceId, question: &str, now: Instant) -> Option<Outcome> {
        let member = self.devices.get(dev)?.clone();
        let ask = SyncRequest::read(question).ok()?;
        let head = self.head(dev);
        let kept = ask.push.iter().filter_map(|line| jws::claimed_seq(line)).filter_map(|seq| self.held(dev, seq));
        let mut intake = Intake::new(dev.clone(), member, head, kept.collect(), &ask.lost);
        for line in &ask.push {
            let taken = intake.take(line);
            self.keep(dev, line, taken);
        }
        let mut answer = SyncAnswer::new(now, intake.head().clone(), "rev 1");
        answer.rejected = intake.rejected().to_vec();
        self.pull(dev, ask.since, &mut answer);
        Some(Outcome { rejected: answer.rejected.clone(), answer: answer.write() })
    }

    pub(crate) fn head(&self, dev: &DeviceId) -> Head {
        let newest = self.places.range((dev.clone(), 0)..=(dev.clone(), u64::MAX)).next_back();
        newest.map_or_else(Head::default, |((_, seq), at)| Head { seq: *seq, hash: self.log[at].hash.clone() })
    }

    fn held(&self, dev: &DeviceId, seq: u64) -> Option<(u64, Kept)> {
        let row = &self.log[self.places.get(&(dev.clone(), seq))?];
        Some((seq, Kept { hash: row.hash.clone(), aside: row.aside }))
    }

    fn keep(&mut self, dev: &DeviceId, line: &str, taken: Taken) {
        let (seq, hash, aside, after, entry) = match taken {
            Taken::Duplicate { .. } | Taken::Refused { .. } => return,
            Taken::Stored { signed, hash, after } => (signed.seq, hash, None, after, Some(signed.entry)),
            Taken::SetAside { seq, hash, why, after } => (seq, hash, Some(why), after, None),
        };
        self.lost.extend(after.map(|stretch| (dev.clone(), stretch)));
        let at = self.log.len() as u64 + 1;
        let before = self.places.insert((dev.clone(), seq), at);
        assert!(before.is_none(), "the hub was told to store entry {seq} of {dev} twice");
        self.log.insert(at, Row { dev: dev.clone(), jws: line.to_owned(), hash, aside, entry });
    }

    fn pull(&self, dev: &DeviceId, since: u64, answer: &mut SyncAnswer) {
        let newest = self.log.len() as u64;
        let since = if since > newest { 0 } else { since };
        let (mut bytes, mut last) = (0, since);
        for (at, row) in self.log.range(since + 1..) {
            if row.dev == *dev || !row.entry.as_ref().is_some_and(|entry| members_may_see(&entry.fact)) {
                continue;
            }
            bytes += row.jws.len();
            if answer.pull.len() == ENTRIES_MAX || bytes > ENTRY_BYTES_MAX {
                answer.more = true;
                break;
            }
            last = *at;
            answer.pull.push(row.jws.clone());
        }
        answer.cursor = if answer.more { last } else { newest };
    }

    /// The whole log, a line each, in the order of arrival.
    pub(crate) fn text(&self) -> String {
        self.log.values().map(|row| row.jws.as_str()).collect::<Vec<_>>().join("\n")
    }

    /// What counts, in the order of arrival.
    pub(crate) fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.log.values().filter_map(|row| row.entry.as_ref())
    }

    /// The line that is kept of a device at a place.
    pub(crate) fn line(&self, dev: &DeviceId, seq: u64) -> Option<&Row> {
        self.log.get(self.places.get(&(dev.clone(), seq))?)
    }
}
