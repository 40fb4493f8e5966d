//! Bells ring in time: while a page lives and wakes, none is later than the time between two wake-ups, none is missing, and
//! none rings twice for one instant.
//!
//! Remembers what was set at the last wake-up and what rang in this session: in this page's life, and before it as far as
//! the phone had kept it when the page opened.

use shared_core::bell::{Bell, Due, Rung, Set};
use shared_core::ids::SessionId;
use shared_core::time::Instant;

#[derive(Clone, Debug, Default)]
pub(crate) struct BellWatch {
    session: Option<SessionId>,
    last: Option<Woke>,
    rang: Vec<(Bell, Instant)>,
}

#[derive(Clone, Debug)]
struct Woke {
    now: Instant,
    /// [`Page::news`](crate::phone::Page::news): if it is the same now, nothing but time has passed.
    known: u64,
    set: Vec<Set>,
}

impl BellWatch {
    /// A page opened in a session, or in none, with what rang before.
    pub(crate) fn opened(session: Option<&SessionId>, rung: &Rung) -> Self {
        let kept = serde_json::to_value(rung).and_then(serde_json::from_value);
        Self { session: session.cloned(), last: None, rang: kept.expect("what rang is a list of bells and instants") }
    }

    pub(crate) fn woke(&mut self, now: Instant, known: u64, session: Option<&SessionId>, set: &[Set], due: &[Due]) {
        if self.session.as_ref() != session {
            *self = Self { session: session.cloned(), ..Self::default() };
        }
        for due in due {
            assert!(due.at <= now && due.late == now - due.at, "{due:?} at {now}");
            let again = self.rang.contains(&(due.bell.clone(), due.at));
            assert!(!again, "{:?} rang twice for {}", due.bell, due.at);
            if let Some(last) = &self.last {
                let was_set = last.set.iter().any(|set| set.bell == due.bell && set.at == due.at);
                let in_time = due.late <= now - last.now;
                // While a machine runs its chores grow, minute by minute, and the bells move towards now.
                let moved = last.set.iter().any(|set| set.bell == due.bell && set.at > due.at);
                assert!(
                    in_time || (!was_set && (moved || known != last.known)),
                    "{due:?} is late; woke last at {}",
                    last.now
                );
            }
        }
        self.rang.extend(due.iter().map(|due| (due.bell.clone(), due.at)));
        // What the phone did not keep of what rang before this page opened is not known here.
        if self.last.is_some() {
            for set in set.iter().filter(|set| set.at <= now) {
                assert!(self.is_told(set), "{set:?} did not ring; it is {now}");
            }
        }
        self.last = Some(Woke { now, known, set: set.to_vec() });
    }

    /// Whether a bell rang for its instant or a later one, or gave way to one further in the evening, or was due before
    /// this page's first wake-up.
    fn is_told(&self, set: &Set) -> bool {
        let before = self.last.as_ref().is_some_and(|last| set.at <= last.now);
        let rank = |bell: &Bell| [Bell::First, Bell::Sweep, Bell::Last].iter().position(|one| one == bell);
        before
            || self.rang.iter().any(|(bell, at)| *bell == set.bell && *at >= set.at)
            || self
                .rang
                .iter()
                .any(|(bell, _)| rank(bell).is_some() && rank(bell) > rank(&set.bell) && rank(&set.bell).is_some())
    }
}
