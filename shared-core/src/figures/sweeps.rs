//! How rooms were left, and the reserve against what sweeps took.
//!
//! A session that left is complete if nothing that it owed was missing, as `sweepbell replay` says it; an open one is not
//! counted. Of whole sweeps it is told how long before or after their planned end they ended ([`crate::calibration`]).

use serde::Serialize;

use crate::calibration::Calibration;
use crate::chores;
use crate::ids::ChoreId;
use crate::ordered::Map;
use crate::roster;
use crate::rulebook::Rulebook;
use crate::state::{Session, State};

/// How rooms were left.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Sweeps {
    /// Sessions that left with everything done.
    pub complete: u32,
    /// Sessions that left with something missing.
    pub incomplete: u32,
    /// Of those, sessions that never began to sweep.
    pub not_begun: u32,
    /// The chores that were missing, most often first.
    pub chores_left: Vec<ChoreLeft>,
}

/// A chore that was left.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ChoreLeft {
    /// Which.
    pub chore: ChoreId,
    /// By how many sessions.
    pub times: u32,
}

impl Sweeps {
    /// Counts one session, if it left.
    pub(super) fn add(&mut self, book: &Rulebook, state: &State, session: &Session) {
        let Some(left) = session.left() else { return };
        let last_out = roster::last_out_at(state, session, left);
        let owed = chores::of_session(book, &session.room, session.machines(), last_out);
        let mut whole = true;
        for due in owed.into_iter().filter(|due| !session.chores.contains_key(&due.id)) {
            whole = false;
            match self.chores_left.iter_mut().find(|known| known.chore == due.id) {
                Some(known) => known.times += 1,
                None => self.chores_left.push(ChoreLeft { chore: due.id, times: 1 }),
            }
        }
        if whole {
            self.complete += 1;
        } else {
            self.incomplete += 1;
            self.not_begun += u32::from(session.sweep().is_none());
        }
    }

    pub(super) fn sort(&mut self) {
        self.chores_left.sort_by(|a, b| b.times.cmp(&a.times).then_with(|| a.chore.cmp(&b.chore)));
    }
}

/// The bounds between the bins of [`Reserve::late`], in minutes after the planned end: a sweep is in the first whose bound it
/// does not pass. The fourth bound is the planned end itself.
pub const LATE_BINS: [i64; 6] = [-15, -10, -5, 0, 5, 10];

/// The reserve against what sweeps took.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Reserve {
    /// Whole sweeps that ended by their planned end.
    pub within: u32,
    /// Of how many.
    pub of: u32,
    /// Sweeps that the rulebook of today cannot plan.
    pub unplanned: u32,
    /// How many ended how long after their planned end: a bin up to each of [`LATE_BINS`], and one past the last.
    pub late: Vec<u32>,
    /// Chores that took no longer than planned.
    pub chores_within: u32,
    /// Of how many that were timed.
    pub chores_of: u32,
}

impl Reserve {
    pub(super) fn of(said: &Calibration) -> Self {
        let few = |number: u64| u32::try_from(number).unwrap_or(u32::MAX);
        let mut chores: Map<bool, u64> = Map::new();
        for one in said.chores.values().flatten() {
            *chores.entry(one.within()).or_default() += 1;
        }
        let chores_within = chores.get(&true).copied().unwrap_or(0);
        Self {
            within: few(said.sweeps.within),
            of: few(said.sweeps.of),
            unplanned: few(said.unplanned),
            late: late_bins(said.late.iter().map(|late| late.minutes_up())),
            chores_within: few(chores_within),
            chores_of: few(chores.values().sum()),
        }
    }
}

/// How many of these whole minutes fall into each bin.
pub fn late_bins(minutes: impl Iterator<Item = i64>) -> Vec<u32> {
    let mut bins = vec![0; LATE_BINS.len() + 1];
    for late in minutes {
        let place = LATE_BINS.iter().position(|bound| late <= *bound).unwrap_or(LATE_BINS.len());
        if let Some(bin) = bins.get_mut(place) {
            *bin += 1;
        }
    }
    bins
}
