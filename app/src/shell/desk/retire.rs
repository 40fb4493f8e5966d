//! What this phone drops from its journal: what is over, once a day, and what somebody wanted erased, when the hub says so.
//!
//! A line of its own goes only when the hub holds it. The hub's clock says what day it is: a phone whose own is years ahead would
//! drop everything. What is in force stays (`shared_core::retention`). Which lines that are is found in the later part.

use shared_core::entry::{Entry, Fact};
use shared_core::log::jws;
use shared_core::ordered::Set;
use shared_core::retention::{InForce, Said, limit};
use shared_core::sync::message::Stretch;
use shared_core::time::{Instant, Span};

use super::Desk;
use crate::later;
use crate::shell::journal::{Change, Journal, Key, Loaded, Reach, Standing};
use crate::shell::keys::Signer;

/// How often it is looked for what is over.
const EVERY: Span = Span::from_minutes(24 * 60);

/// What is to be dropped: own lines that were said before `own`, those of others before `others`.
pub fn over(loaded: &Loaded, own: Instant, others: Instant) -> Vec<Change> {
    let read = |jws: &str| jws::unproved(jws).map(|(_, entry)| entry);
    let mine: Vec<(&str, u64, Entry, Change)> = (loaded.log.iter())
        .filter_map(|line| Some(("", line.seq, read(&line.jws)?, Change::LineGone(line.seq))))
        .collect();
    let theirs: Vec<(&str, u64, Entry, Change)> = (loaded.others.iter())
        .filter_map(|other| Some((other.id.as_str(), 0, read(&other.jws)?, Change::OtherGone(other.id.clone()))))
        .collect();
    let not_held = loaded.log.iter().filter(|line| line.standing != Standing::Acked);
    let not_held: Set<u64> = not_held.map(|line| line.seq).collect();
    let mut in_force = InForce::default();
    for (_, _, entry, _) in mine.iter().chain(&theirs) {
        in_force.note(&Said::of(entry));
    }
    let mut changes = Vec::new();
    for (id, seq, entry, change) in mine.into_iter().chain(theirs) {
        let limit = if id.is_empty() { own } else { others };
        if not_held.contains(&seq) || !in_force.is_over(&Said::of(&entry), limit) {
            continue;
        }
        changes.push(change);
        if let Fact::ChoreDone { photo: Some(photo), .. } | Fact::TaggedOut { photo: Some(photo), .. } = entry.fact {
            changes.push(Change::PhotoGone(photo));
        }
    }
    changes
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Drops what is over, unless that was done today.
    pub(super) async fn retire_daily(&mut self) {
        let now = self.hub_now();
        let last = self.journal.read(Key::Retired).await.ok().flatten().and_then(|at| at.parse().ok());
        if last.is_some_and(|last| (Span::from_ms(0)..EVERY).contains(&(now - Instant::from_ms(last)))) {
            return;
        }
        if let Some(shop) = &self.shop {
            self.retire(limit(now, shop.rulebook.shop.retention_days)).await;
        }
    }

    /// The hub has erased what it held about this member: what this phone said goes from it as well.
    pub(super) async fn retire_own(&mut self) {
        self.retire(Instant::from_ms(i64::MAX)).await;
    }

    /// Drops own lines from before `own`, and those of others when their time has come. What cannot be dropped now is found again.
    async fn retire(&mut self, own: Instant) {
        let (Some(later), Some(shop)) = (later::parts(), &self.shop) else { return };
        let now = self.hub_now();
        let others = limit(now, shop.rulebook.shop.retention_days);
        let Ok((loaded, _)) = self.journal.load(Reach::Whole).await else { return };
        let mut changes = (later.over)(&loaded, own, others);
        let drops = !changes.is_empty();
        changes.push(Change::Value(Key::Retired, now.ms().to_string()));
        if self.journal.change(&changes).await.is_ok() && drops {
            self.reload().await;
            self.tally_up().await;
        }
    }

    /// The lines of these stretches that this phone has.
    pub(super) fn to_forget(&self, stretches: &[Stretch]) -> Vec<Change> {
        let known = stretches.iter().flat_map(|stretch| self.ledger.others_between(stretch));
        known.map(Change::OtherGone).collect()
    }

    fn hub_now(&self) -> Instant {
        self.clock.now() + self.sync.clock_offset().unwrap_or_default()
    }
}
