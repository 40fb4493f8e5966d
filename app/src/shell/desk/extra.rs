//! Reckoning what one screen alone shows, while it does. Of the later part: see `crate::later`.

use shared_core::view::bench::{self, Times};
use shared_core::view::board;
use shared_core::view::book::{self, BookLine};
use shared_core::view::history::{self, Evening};
use shared_core::view::why::Reasons;
use shared_core::viewer::Viewer;

use crate::intent::Wanted;
use crate::shell::journal::Standing;
use crate::shell::journal::open::Own;
use crate::store::Extra;

/// The book shows the newest lines; the rest is in the log.
const LINES_MOST: usize = 300;

/// What Book shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Book {
    /// This phone's log, newest first.
    pub lines: Vec<BookLine>,
    /// This member's sessions that are over.
    pub evenings: Vec<Evening>,
}

/// Another out-by, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The times as it would make them, if there is a plan.
    pub times: Option<Times>,
    /// Why the times are what they are now.
    pub reasons: Reasons,
}

/// What is wanted: [`Book`], [`Weighed`], [`Reasons`], or the board of a room, none of a room that is not in the rulebook.
pub fn reckon(wanted: &Wanted, viewer: &Viewer<'_>, own: &[Own]) -> Extra {
    match wanted {
        Wanted::Nothing => Extra::default(),
        Wanted::OutBy(out_by) => {
            Extra::of(Weighed { times: bench::times_if(viewer, *out_by), reasons: Reasons::of(viewer) })
        }
        Wanted::Why => Extra::of(Reasons::of(viewer)),
        Wanted::Board(room) => Extra::of(board::board(viewer, room)),
        Wanted::Book => Extra::of(Book { lines: lines(viewer, own), evenings: history::evenings(viewer) }),
    }
}

fn lines(viewer: &Viewer, own: &[Own]) -> Vec<book::BookLine> {
    let newest = own.iter().rev().take(LINES_MOST);
    let line = |own: &Own| {
        let standing = match &own.line.standing {
            Standing::Waiting => book::Standing::Waiting,
            Standing::Acked => book::Standing::Held,
            Standing::Rejected { why } => book::Standing::Rejected(why.clone()),
        };
        book::line(viewer, own.line.seq, &own.signed.entry, standing)
    };
    newest.map(line).collect()
}
