//! What a screen may say: plain data, made by pure functions of what is known and when.
//!
//! A screen shows these and nothing else, so what may be claimed is proved here: never "covered" on the strength of
//! anything older than its term, never a name dropped from the muster list. Instants are given, never minutes left:
//! what ticks is the leaf that draws. No layout and, but for refusals, no words.

pub mod bench;
pub mod book;
pub mod buddy;
pub mod door;
pub mod room;
pub mod sweep;

use crate::ids::{PersonId, SessionId};
use crate::members::Members;
use crate::rulebook::Rulebook;
use crate::state::{Session, State};
use crate::time::Instant;

/// Whose eyes a screen is seen through, and when.
#[derive(Clone, Copy)]
pub struct Viewer<'a> {
    /// The rules.
    pub book: &'a Rulebook,
    /// The people.
    pub members: &'a Members,
    /// What is known.
    pub state: &'a State,
    /// Who looks.
    pub me: &'a PersonId,
    /// This phone's session, if one is open.
    pub session: Option<&'a SessionId>,
    /// Now.
    pub now: Instant,
}

impl<'a> Viewer<'a> {
    /// This phone's session, if it is known and has not left.
    pub fn open_session(&self) -> Option<&'a Session> {
        self.session.and_then(|id| self.state.sessions.get(id)).filter(|session| session.is_open())
    }
}
