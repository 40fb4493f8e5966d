//! Which bell is due: a question asked of stored instants at every wake-up, never of a running timer.
//!
//! A bell rings once for the instant it was set to. Moved later it rings again at the later instant; moved earlier than
//! one that rang already it stays silent. A bell that was missed is due at once and says by how much it is late.
//! Of several due bells of the session the latest in the evening is the one that matters; the rest count as rung.

use serde::{Deserialize, Serialize};

use crate::ids::MachineId;
use crate::time::{Instant, Span};
use crate::view::bench::{BenchView, Cover, Standing};

/// The alarm before a buddy's word lapses.
pub const LAPSE_WARNING_MINUTES: i64 = 2;

/// What rings.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Bell {
    /// Finish the pass you are on.
    First,
    /// Start to sweep now.
    Sweep,
    /// You are past out-by.
    Last,
    /// Hot work must end now.
    LastSpark,
    /// The buddy's word for a running machine ends in two minutes.
    BuddyLapsing(MachineId),
    /// The buddy's word for a running machine has ended.
    BuddyLapsed(MachineId),
}

/// A bell and the instant it is set to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Set {
    /// Which.
    pub bell: Bell,
    /// When.
    pub at: Instant,
}

/// A bell that is due.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// Which.
    pub bell: Bell,
    /// When it was set to ring.
    pub at: Instant,
    /// By how much it is late.
    pub late: Span,
}

/// Which bells rang, and for which instant. Kept with the running session.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Rung(Vec<(Bell, Instant)>);

impl Rung {
    fn for_bell(&self, bell: &Bell) -> Option<Instant> {
        self.0.iter().find(|(known, _)| known == bell).map(|(_, at)| *at)
    }

    /// Takes down that a bell rang for the instant it was set to.
    pub fn note(&mut self, due: &Due) {
        match self.0.iter_mut().find(|(known, _)| *known == due.bell) {
            Some((_, at)) => *at = (*at).max(due.at),
            None => self.0.push((due.bell.clone(), due.at)),
        }
    }
}

/// The bells of a session that works (`sweeping` false) or sweeps.
pub fn set(bench: &BenchView, sweeping: bool) -> Vec<Set> {
    let mut bells = Vec::new();
    if let Ok(times) = &bench.times
        && !sweeping
    {
        bells.push(Set { bell: Bell::First, at: times.first_bell });
        bells.push(Set { bell: Bell::Sweep, at: times.sweep_from });
        if let Some(at) = times.last_spark {
            bells.push(Set { bell: Bell::LastSpark, at });
        }
    }
    bells.push(Set { bell: Bell::Last, at: bench.out_by });
    for row in &bench.machines {
        match &row.standing {
            Standing::Running { covered_until: Some(Cover::Until(at)), .. } => {
                let warning = *at - Span::from_minutes(LAPSE_WARNING_MINUTES);
                bells.push(Set { bell: Bell::BuddyLapsing(row.id.clone()), at: warning });
                bells.push(Set { bell: Bell::BuddyLapsed(row.id.clone()), at: *at });
            }
            Standing::Running { covered_until: Some(Cover::GapSince(at)), .. } => {
                bells.push(Set { bell: Bell::BuddyLapsed(row.id.clone()), at: *at });
            }
            _ => {}
        }
    }
    bells
}

/// The bells that are due at `now` and have not rung, most pressing first. Of first, sweep and last only the furthest
/// in the evening is answered; the others are noted as rung.
pub fn due(bells: &[Set], rung: &mut Rung, now: Instant) -> Vec<Due> {
    let mut due: Vec<Due> = bells
        .iter()
        .filter(|set| set.at <= now && rung.for_bell(&set.bell).is_none_or(|at| at < set.at))
        .map(|set| Due { bell: set.bell.clone(), at: set.at, late: now - set.at })
        .collect();
    due.sort_by_key(|due| std::cmp::Reverse(pressing(&due.bell)));
    let mut told = false;
    due.retain(|due| {
        if !matches!(due.bell, Bell::First | Bell::Sweep | Bell::Last) {
            return true;
        }
        if told {
            rung.note(due);
        }
        !std::mem::replace(&mut told, true)
    });
    due
}

/// When the next bell that has not rung is set to ring, for a timer that merely wakes.
pub fn next(bells: &[Set], rung: &Rung, now: Instant) -> Option<Instant> {
    bells
        .iter()
        .filter(|set| set.at > now && rung.for_bell(&set.bell).is_none_or(|at| at < set.at))
        .map(|set| set.at)
        .min()
}

fn pressing(bell: &Bell) -> u8 {
    match bell {
        Bell::BuddyLapsed(_) => 5,
        Bell::LastSpark => 4,
        Bell::Last => 3,
        Bell::Sweep => 2,
        Bell::BuddyLapsing(_) => 1,
        Bell::First => 0,
    }
}
