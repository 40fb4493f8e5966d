//! Figures: what a stretch of time was like, in numbers that a board can read and anybody can check.
//!
//! Counted are sessions, machines, rooms and hours, never people by name: nothing here ranks anybody. Each figure has a
//! file, which says what is counted and what is not; `tests/figures` reckons every one of them again, by other means.
//!
//! Asks the rules and adds none. Reads no clock: the stretch is an argument, and a session that is still open is judged at
//! its last entry. Lengths of time are whole minutes, the sum rounded up once.

mod asked;
mod cover;
mod mess;
mod rounds;
mod sessions;
pub mod stretch;
mod sweeps;
mod tags;
#[cfg(test)]
mod tests;
pub mod together;
mod watches;

use serde::Serialize;

use crate::buddy::Heard;
use crate::calibration;
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::sync::shop::UtcOffset;

pub use self::asked::{RoundHistory, RoundSaid, histories, of_reach};
pub use self::cover::Cover;
pub use self::mess::{Mess, PlaceFound};
pub use self::rounds::RoundFigures;
pub use self::sessions::{MachineUse, Sessions};
pub use self::stretch::{Reach, Stretch};
pub use self::sweeps::{ChoreLeft, LATE_BINS, Reserve, Sweeps, late_bins};
pub use self::tags::TagFigures;
pub use self::watches::Watches;

/// What a stretch of time was like.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Figures {
    /// Which.
    pub stretch: Stretch,
    /// Sessions, and when somebody was there.
    pub sessions: Sessions,
    /// The machines that were used, by the rulebook's order; those that it no longer has after them.
    pub machines: Vec<MachineUse>,
    /// How rooms were left.
    pub sweeps: Sweeps,
    /// The reserve against what sweeps took.
    pub reserve: Reserve,
    /// Use of machines that ask for a buddy.
    pub cover: Cover,
    /// Fire watches.
    pub watches: Watches,
    /// How places were found.
    pub mess: Mess,
    /// Machines that were tagged out.
    pub tags: Vec<TagFigures>,
    /// The rulebook's rounds, in its order.
    pub rounds: Vec<RoundFigures>,
}

/// The figures of a stretch.
pub fn figures(book: &Rulebook, state: &State, offsets: &[UtcOffset], stretch: Stretch) -> Figures {
    let groups = &together::groups(state, |session| stretch.holds(session.from));
    let mut said = Figures { stretch, ..Figures::default() };
    let (mut counted, mut covered) = (sessions::Counted::default(), cover::Counted::default());
    for group in groups {
        let heard = Heard::all(&group.state);
        for session in group.begun().filter(|session| stretch.holds(session.from)) {
            counted.add(session, offsets);
            said.sweeps.add(book, &group.state, session);
            covered.add(book, &heard, session);
            said.watches.add(book, session);
        }
    }
    (said.sessions, said.machines) = counted.told(book);
    said.cover = covered.told();
    said.sweeps.sort();
    said.reserve = Reserve::of(&calibration::of_groups(book, state, groups, |session| stretch.holds(session.from)));
    said.mess = mess::of(state, offsets, stretch);
    said.tags = tags::of(book, state, stretch);
    said.rounds = rounds::of(book, state, stretch);
    said
}
