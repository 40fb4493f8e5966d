//! What this phone drops from its journal: what is over, once a day, and what somebody wanted erased, when the hub says so.
//!
//! A line of its own goes only when the hub holds it, and none does once there are two stories of this phone: what the hub holds at its
//! numbers may be the other one's. The hub's clock says what day it is: a phone whose own is years ahead would
//! drop everything. What is in force stays (`shared_core::retention`). Which lines that are is found in the later part.

use shared_core::entry::{Entry, Fact};
use shared_core::log::jws;
use shared_core::ordered::Set;
use shared_core::retention::{InForce, Said, limit};
use shared_core::sync::message::{Stretch, Why};
use shared_core::time::{Instant, Span};

use super::Desk;
use crate::later;
use crate::shell::journal::{Change, Journal, Key, Loaded, Reach, Standing};
use crate::shell::keys::Signer;

/// How often it is looked for what is over.
const EVERY: Span = Span::from_minutes(24 * 60);

/// What is to be dropped: lines that this phone's member said before `own`, on whichever phone, those of others before `others`.
pub fn over(loaded: &Loaded, own: Instant, others: Instant) -> Vec<Change> {
    let read = |jws: &str| jws::unproved(jws).map(|(_, entry)| entry);
    let mine: Vec<(u64, Entry, Change)> =
        (loaded.log.iter()).filter_map(|line| Some((line.seq, read(&line.jws)?, Change::LineGone(line.seq)))).collect();
    let theirs: Vec<(u64, Entry, Change)> = (loaded.others.iter())
        .filter_map(|other| Some((0, read(&other.jws)?, Change::OtherGone(other.id.clone()))))
        .collect();
    let forked = Standing::Rejected { why: Why::Fork.name().to_owned() };
    let forked = loaded.log.iter().any(|line| line.standing == forked);
    let not_held = loaded.log.iter().filter(|line| forked || line.standing != Standing::Acked);
    let not_held: Set<u64> = not_held.map(|line| line.seq).collect();
    let mut in_force = InForce::default();
    // As the hub sees it: a stay whose leaving it has not heard is in force there, and nothing of it goes here; nor of one that was
    // left on another phone of theirs, while a line of it waits here.
    for (seq, entry, _) in mine.iter().chain(&theirs) {
        if not_held.contains(seq) {
            in_force.note_waiting(&Said::of(entry));
        } else {
            in_force.note(&Said::of(entry));
        }
    }
    // A stay may have been begun on one phone of theirs and left on another: half of it must not stay behind.
    let me = mine.first().map(|(_, entry, _)| entry.who.clone());
    let mut changes = Vec::new();
    for (seq, entry, change) in mine.into_iter().chain(theirs) {
        let limit = if me.as_ref() == Some(&entry.who) { own } else { others };
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
        if self.sync.is_forked() {
            return;
        }
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

    /// The lines of these stretches that this phone has. What its own member said on another phone is not among them: what this
    /// one said stays too, and without the other half a stay that was left there would be open again.
    pub(super) fn to_forget(&self, stretches: &[Stretch]) -> Vec<Change> {
        let whose = |dev| self.shop.as_ref().and_then(|shop| shop.member_of(dev));
        let me = whose(self.signer.device_id());
        let of_others = stretches.iter().filter(|stretch| me.is_none() || whose(&stretch.dev) != me);
        let known = of_others.flat_map(|stretch| self.ledger.others_between(stretch));
        known.map(Change::OtherGone).collect()
    }

    fn hub_now(&self) -> Instant {
        self.clock.now() + self.sync.clock_offset().unwrap_or_default()
    }
}
