//! Reckoning what one screen alone shows, while it does. Of the later part: see `crate::later`.

use shared_core::card::face::Face;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::view::bench::{self, Times};
use shared_core::view::board;
use shared_core::view::book::{self, BookLine};
use shared_core::view::history::{self, Evening};
use shared_core::view::today;
use shared_core::view::why::Reasons;
use shared_core::viewer::Viewer;

use crate::intent::Wanted;
use crate::route::Page;
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
    /// This phone.
    pub dev: DeviceId,
    /// The face of its card, as a code's text.
    pub face: Option<String>,
    /// Lines that the hub does not hold.
    pub unsent: Vec<String>,
    /// Everybody of the shop, and what they are called.
    pub people: Vec<(PersonId, String)>,
}

/// Another out-by, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The times as it would make them, if there is a plan.
    pub times: Option<Times>,
    /// Why the times are what they are now.
    pub reasons: Reasons,
}

/// What is wanted: [`Book`], [`Weighed`], [`Reasons`], what a page of Book shows, or the board of a room, none of a room that is not in the rulebook.
pub fn reckon(wanted: &Wanted, viewer: &Viewer<'_>, own: &[Own], dev: &DeviceId, faces: &[String]) -> Extra {
    match wanted {
        Wanted::Nothing => Extra::default(),
        Wanted::OutBy(out_by) => {
            Extra::of(Weighed { times: bench::times_if(viewer, *out_by), reasons: Reasons::of(viewer) })
        }
        Wanted::Why => Extra::of(Reasons::of(viewer)),
        Wanted::Page(Page::Today) => Extra::of(today::today(viewer)),
        Wanted::Board(room) => Extra::of(board::board(viewer, room)),
        Wanted::Book => {
            let is_own = |text: &&String| Face::read(text).is_some_and(|face| face.shown.dev == *dev);
            let waiting = own.iter().filter(|own| own.line.standing == Standing::Waiting);
            Extra::of(Book {
                lines: lines(viewer, own),
                evenings: history::evenings(viewer),
                dev: dev.clone(),
                face: faces.iter().find(is_own).cloned(),
                unsent: waiting.map(|own| own.line.jws.clone()).collect(),
                people: viewer.members.iter().map(|member| (member.id.clone(), member.name.clone())).collect(),
            })
        }
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
