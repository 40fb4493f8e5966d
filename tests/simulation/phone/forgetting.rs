//! What a phone drops: lines that the hub says are to be forgotten, and what is over, once a day by the hub's clock.
//!
//! Says again what the app's loop does (`app/src/shell/desk/retire.rs`), by the same `shared_core::retention`. A line of its
//! own goes only when the hub holds it.

use std::collections::BTreeSet;

use shared_core::entry::Entry;
use shared_core::ids::DeviceId;
use shared_core::retention::{InForce, Said, limit};
use shared_core::sync::message::{Stretch, Why};
use shared_core::time::{Instant, Span};

use super::{Page, Phone, my_session};
use crate::disk::Act;

/// How often it is looked for what is over.
const EVERY: Span = Span::from_minutes(24 * 60);

/// What a phone let go of, and all that it knew before.
#[derive(Debug)]
pub(crate) struct LetGo {
    pub(crate) own: Vec<(u64, Entry)>,
    /// What its member had said on another phone.
    pub(crate) elsewhere: Vec<(DeviceId, u64)>,
    /// So many lines that are not its own, those among them.
    pub(crate) others: usize,
    pub(crate) known_before: Vec<Entry>,
}

impl Phone {
    /// Drops what is over, unless that was done today.
    pub(crate) fn retire_daily(&mut self, days: u32) -> Option<LetGo> {
        let now = self.hub_now()?;
        let last = self.disk.durable().retired;
        if last.is_some_and(|last| (Span::ZERO..EVERY).contains(&(now - last))) {
            return None;
        }
        self.retire(limit(now, days), Some(limit(now, days)), now)
    }

    /// The hub has erased what it held about this member: what this phone said goes from it as well.
    pub(crate) fn retire_own(&mut self, days: Option<u32>) -> Option<LetGo> {
        let now = self.hub_now()?;
        self.retire(Instant::from_ms(i64::MAX), days.map(|days| limit(now, days)), now)
    }

    fn hub_now(&self) -> Option<Instant> {
        let page = self.page.as_ref()?;
        Some(page.steady.now() + page.clock_offset)
    }

    /// Drops what this phone's member said before `own`, on whichever phone, and what others said before `others`. Nothing while
    /// an act is being written, nor where there is no room to note that it was done; and nothing once there are two stories of
    /// this phone: what the hub holds at its numbers may be the other one's.
    fn retire(&mut self, own: Instant, others: Option<Instant>, now: Instant) -> Option<LetGo> {
        if self.told_fork || self.told.values().any(|why| *why == Why::Fork) {
            return None;
        }
        let rejected: BTreeSet<u64> =
            self.told.iter().filter(|(_, why)| **why != Why::Gap).map(|(seq, _)| *seq).collect();
        let page = self.page.as_mut().filter(|page| page.pending.is_none())?;
        let mut in_force = InForce::default();
        let own_dev = &self.dev;
        let acked = page.sync.acked();
        let held = |(dev, seq): &(DeviceId, u64)| dev != own_dev || (*seq <= acked && !rejected.contains(seq));
        let known = || page.ids.iter().zip(&page.entries).filter(|(id, _)| held(id));
        known().for_each(|(_, entry)| in_force.note(&Said::of(entry)));
        let waits = page.ids.iter().zip(&page.entries).filter(|(id, _)| !held(id));
        waits.for_each(|(_, entry)| in_force.note_waiting(&Said::of(entry)));
        let (mut let_go, mut elsewhere, mut gone) = (Vec::new(), Vec::new(), BTreeSet::new());
        for ((dev, seq), entry) in known() {
            let is_own = *dev == self.dev;
            let limit = if entry.who == self.me { Some(own) } else { others };
            if limit.is_some_and(|limit| in_force.is_over(&Said::of(entry), limit)) {
                gone.insert((dev.clone(), *seq));
                let_go.extend(is_own.then(|| (*seq, entry.clone())));
                elsewhere.extend((!is_own && entry.who == self.me).then(|| (dev.clone(), *seq)));
            }
        }
        let own = let_go.iter().map(|(seq, _)| *seq).collect();
        self.disk.write(Act::Retire { own, others: gone.clone(), at: now }).ok()?;
        self.disk.flush();
        let known_before = page.entries.clone();
        let others = gone.len() - let_go.len();
        page.forget(&gone, &self.dev);
        self.refold();
        Some(LetGo { own: let_go, elsewhere, others, known_before })
    }
}

impl Page {
    /// Lines of others in these stretches that this page knows.
    pub(super) fn known_in(&self, stretches: &[Stretch]) -> BTreeSet<(DeviceId, u64)> {
        let ids = |stretch: &Stretch| (stretch.dev.clone(), stretch.from)..=(stretch.dev.clone(), stretch.to);
        let in_order = stretches.iter().filter(|stretch| stretch.from <= stretch.to);
        in_order.flat_map(|stretch| self.heard.range(ids(stretch))).cloned().collect()
    }

    /// These lines are gone; what is left is in the order that it has after a start. To be folded anew.
    pub(super) fn forget(&mut self, gone: &BTreeSet<(DeviceId, u64)>, own: &DeviceId) {
        if gone.is_empty() {
            return;
        }
        let known = std::mem::take(&mut self.ids).into_iter().zip(std::mem::take(&mut self.entries));
        let mut left: Vec<_> = known.filter(|(id, _)| !gone.contains(id)).collect();
        left.sort_by(|(a, _), (b, _)| (a.0 != *own, a).cmp(&(b.0 != *own, b)));
        (self.ids, self.entries) = left.into_iter().unzip();
        self.heard.retain(|id| !gone.contains(id));
        self.own.retain(|(seq, _)| !gone.contains(&(own.clone(), *seq)));
        self.lost = missing(&self.own, self.head.seq);
        let said = self.ids.iter().zip(&self.entries).filter(|((dev, _), _)| dev == own);
        self.session = my_session(said.map(|(_, entry)| entry));
    }
}

/// Numbers of own lines that are not there any more.
pub(super) fn missing(own: &[(u64, String)], newest: u64) -> Vec<u64> {
    let held: BTreeSet<u64> = own.iter().map(|(seq, _)| *seq).collect();
    (1..=newest).filter(|seq| !held.contains(seq)).collect()
}
