//! What more was said of an earlier line, for a screen: who, when, what happened, in which words.

use crate::entry::{Matter, Of, Step};
use crate::ids::PersonId;
use crate::state::{Noted, State};
use crate::time::Instant;
use crate::view::Viewer;

/// One thing that was said.
#[derive(Clone, Debug, PartialEq)]
pub struct NoteLine {
    /// When.
    pub at: Instant,
    /// The name of who says so.
    pub by: String,
    /// What happened.
    pub step: Step,
    /// In words.
    pub note: Option<String>,
}

/// A line that more can be said of.
pub fn of(matter: Matter, at: Instant, who: &PersonId) -> Of {
    Of { matter, at, who: who.clone() }
}

/// What was said of a line, in order.
pub fn notes(viewer: &Viewer, of: &Of) -> Vec<NoteLine> {
    viewer.state.notes_of(of).map(|noted| line(viewer, noted)).collect()
}

/// One thing that was said, with its teller's name.
pub fn line(viewer: &Viewer, noted: &Noted) -> NoteLine {
    let by = viewer.members.name(&noted.by).to_owned();
    NoteLine { at: noted.at, by, step: noted.step, note: noted.note.clone() }
}

/// Whether somebody says that a line was seen to.
pub fn is_seen_to(state: &State, of: &Of) -> bool {
    state.notes_of(of).any(|noted| noted.step == Step::SeenTo)
}
