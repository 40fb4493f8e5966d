//! Use of machines that ask for a buddy, and how much of it nobody covered ([`crate::buddy`]).
//!
//! A gap counts however short it is: the rulebook says "at every instant". That no buddy was there does not say that nobody
//! was: a word that was never scanned is a gap.

use serde::Serialize;

use crate::buddy::{self, Heard};
use crate::rulebook::Rulebook;
use crate::state::Session;
use crate::time::Span;

/// Cover of a stretch.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Cover {
    /// How often a machine that asks for a buddy was started.
    pub uses: u32,
    /// How long those ran.
    pub minutes: i64,
    /// How many gaps there were.
    pub gaps: u32,
    /// How long those were.
    pub gap_minutes: i64,
}

/// What is counted on the way.
#[derive(Clone, Debug, Default)]
pub(super) struct Counted {
    uses: u32,
    ran: Span,
    gaps: u32,
    bare: Span,
}

impl Counted {
    /// Counts one session.
    pub(super) fn add(&mut self, book: &Rulebook, heard: &Heard, session: &Session) {
        let end = session.left().unwrap_or(session.last_at);
        let asks = |use_: &&crate::state::Use| book.machine(&use_.machine).is_some_and(|machine| machine.buddy);
        for use_ in session.uses.iter().filter(asks) {
            self.uses += 1;
            self.ran = self.ran + (session.use_end(use_, end) - use_.from);
        }
        for gap in buddy::gaps(book, heard, session, end) {
            self.gaps += 1;
            self.bare = self.bare + (gap.to - gap.from);
        }
    }

    /// What was counted.
    pub(super) fn told(&self) -> Cover {
        let Self { uses, ran, gaps, bare } = self;
        Cover { uses: *uses, minutes: ran.minutes_up(), gaps: *gaps, gap_minutes: bare.minutes_up() }
    }
}
