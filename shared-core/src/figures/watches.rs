//! Fire watches that were needed, kept and cut short ([`crate::fire_watch`]).

use serde::Serialize;

use crate::fire_watch;
use crate::rulebook::Rulebook;
use crate::state::Session;

/// Watches of a stretch.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Watches {
    /// How many sessions needed one.
    pub needed: u32,
    /// How many of those were kept to their end.
    pub kept: u32,
    /// By how many minutes the others were cut short, each rounded up.
    pub cut_short_minutes: i64,
}

impl Watches {
    /// Counts one session, if it left: of one that is open nothing is cut short yet.
    pub(super) fn add(&mut self, book: &Rulebook, session: &Session) {
        let Some(kept) = fire_watch::kept(book, session).filter(|_| !session.is_open()) else { return };
        self.needed += 1;
        self.kept += u32::from(kept.cut_short_minutes == 0);
        self.cut_short_minutes += kept.cut_short_minutes;
    }
}
