//! Whose eyes the rules are asked through: the book, the people, what is known, who asks, and when.
//!
//! Decisions and screens both ask through one of these, so that what a screen offers is what a decision allows. It holds
//! no verdict and borrows everything; `now` is an argument like the rest.

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
    /// When the shop's present day began, by the shop's clocks: what a body has had today is counted from here.
    pub day_from: Instant,
}

impl<'a> Viewer<'a> {
    /// This phone's session, if it is known and has not left.
    pub fn open_session(&self) -> Option<&'a Session> {
        self.session.and_then(|id| self.state.sessions.get(id)).filter(|session| session.is_open())
    }
}
