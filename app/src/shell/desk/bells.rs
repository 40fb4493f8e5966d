//! The bells: set whenever the screens are made, asked at every wake-up, rung until they are heard.
//!
//! When one is due is `shared_core::bell`'s to say, from stored instants. What rang and was hushed is kept in the
//! journal, so a phone that was off rings what it missed, and says how late, and rings nothing twice.

use serde::Serialize;
use shared_core::bell::{self, Bell, Due, Rung, Set};
use shared_core::command::Command;
use shared_core::ids::SessionId;
use shared_core::json::from_json;
use shared_core::time::{Instant, Span};
use shared_core::view::bench::BenchView;

use super::Desk;
use crate::shell::bell::Strength;
use crate::shell::errand::Errand;
use crate::shell::journal::{Change, Journal, Key};
use crate::shell::keys::Signer;
use crate::store::Ringing;

/// A bell that nobody hushes is heard again.
const AGAIN: Span = Span::from_ms(15_000);

/// What is set, what rang, what rings.
#[derive(Clone, Debug, Default)]
pub struct Bells {
    set: Vec<Set>,
    rung: Kept,
    ringing: Option<Due>,
    heard_at: Option<Instant>,
}

/// What rang, of which session.
#[derive(Clone, Debug, Default, Serialize)]
struct Kept {
    session: Option<SessionId>,
    rung: Rung,
}

from_json! { Kept { session, rung } }

impl Bells {
    /// Takes up what was kept.
    pub fn take_up(&mut self, kept: Option<&str>) {
        if let Some(kept) = kept.and_then(|kept| serde_json::from_str(kept).ok()) {
            self.rung = kept;
        }
    }

    /// Sets the bells of a session, or none.
    pub fn set(&mut self, session: Option<&SessionId>, bench: Option<&BenchView>, sweeping: bool) {
        if self.rung.session.as_ref() != session {
            self.rung = Kept { session: session.cloned(), rung: Rung::default() };
        }
        self.set = bench.map_or_else(Vec::new, |bench| bell::set(bench, sweeping));
    }

    /// The bell that should ring at `now`, and whether it should be heard now: at first, and every so often after.
    fn due(&mut self, now: Instant) -> Option<(Due, bool)> {
        let Some(due) = bell::due(&self.set, &mut self.rung.rung, now).into_iter().next() else {
            self.ringing = None;
            return None;
        };
        let same = self.ringing.as_ref().is_some_and(|rings| rings.bell == due.bell && rings.at == due.at);
        let hear = !same || self.heard_at.is_none_or(|at| now - at >= AGAIN);
        if hear {
            self.heard_at = Some(now);
        }
        // How late it was is said of the moment when it first rang.
        let ringing = if same { self.ringing.clone()? } else { due };
        self.ringing = Some(ringing.clone());
        Some((ringing, hear))
    }
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// What rings now, on the screen. Rings it.
    pub(super) fn ring_if_due(&mut self) -> Option<Ringing> {
        let (Due { bell, at, late }, hear) = self.bells.due(self.clock.now())?;
        let machine = match &bell {
            Bell::BuddyLapsing(machine) | Bell::BuddyLapsed(machine) => {
                self.shop.as_ref().map(|shop| shop.rulebook.machine_name(machine))
            }
            _ => None,
        };
        let ringing = Ringing { bell, at, late, machine };
        if hear {
            self.errands.push(Errand::Ring(strength(&ringing.bell)));
            if self.shown.bell.as_ref() != Some(&ringing) {
                self.errands.push(Errand::ShowNotice(ringing.clone()));
            }
        }
        Some(ringing)
    }

    /// The bell was heard. What is said again until somebody answers, by the hub, is answered so; the other bells by an act of
    /// their own.
    pub(super) async fn hush(&mut self) {
        let Some(heard) = self.quiet().await else { return };
        if matches!(heard, Bell::Last | Bell::LastSpark) && self.ledger.my_session().is_some() {
            self.act(Command::HearBell).await;
        }
    }

    /// The bell that rings does not ring again for that instant, whatever happens to the phone; which one that was.
    pub(super) async fn quiet(&mut self) -> Option<Bell> {
        let ringing = self.bells.ringing.take()?;
        self.bells.rung.rung.note(&ringing);
        self.errands.push(Errand::CloseNotice);
        let text = serde_json::to_string(&self.bells.rung).expect("bells are plain data");
        // A bell that could not be noted rings once more after a restart: the safe way to fail.
        let _ = self.journal.change(&[Change::Value(Key::Rung, text)]).await;
        Some(ringing.bell)
    }
}

fn strength(bell: &Bell) -> Strength {
    match bell {
        Bell::First | Bell::BuddyLapsing(_) => Strength::Gentle,
        Bell::Sweep | Bell::Last | Bell::LastSpark | Bell::Clear | Bell::BuddyLapsed(_) => Strength::Full,
    }
}
