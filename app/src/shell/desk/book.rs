//! Reckoning Book: this phone's log line by line, and its member's evenings. Of the later part; see `crate::later`.

use shared_core::view::{Viewer, book, history};

use crate::shell::journal::Standing;
use crate::shell::journal::open::Own;
use crate::store::Extra;

/// The book shows the newest lines; the rest is in the log.
const LINES_MOST: usize = 300;

/// What Book shows.
pub fn book(viewer: &Viewer<'_>, own: &[Own]) -> Extra {
    Extra::Book { lines: lines(viewer, own), evenings: history::evenings(viewer) }
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
