//! What must be attested at the door, and until when it holds.
//!
//! Every statement of the rulebook is attested one by one, each by its own act, in order, at each session. Declining
//! starts no session and is recorded nowhere: it simply drops the [`Arriving`] value, which is never stored.
//! See DESIGN.md section 4, "Entry".

use crate::ids::{RoomId, StatementId};
use crate::refusal::Refusal;
use crate::rulebook::{Rulebook, Statement};
use crate::state::Session;
use crate::time::{HOUR_MS, Instant, Span};

/// Somebody at the door, not yet in a session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Arriving {
    /// Which door.
    pub room: RoomId,
    /// When they came to it.
    pub began: Instant,
    /// What they attested so far, in order.
    pub attested: Vec<(StatementId, Instant)>,
}

impl Arriving {
    /// At the door of `room`, nothing attested yet.
    pub fn at(room: RoomId, now: Instant) -> Self {
        Self { room, began: now, attested: Vec::new() }
    }

    /// The statement that comes next, with its index from 0.
    pub fn next_statement<'a>(&self, book: &'a Rulebook) -> Option<(usize, &'a Statement)> {
        next_statement(book, &self.attested)
    }

    /// Attests `statement`, if it is the one that comes next; otherwise nothing changes.
    pub fn attest(&mut self, book: &Rulebook, statement: &StatementId, now: Instant) {
        if self.next_statement(book).is_some_and(|(_, next)| next.id == *statement) {
            self.attested.push((statement.clone(), now));
        }
    }
}

fn next_statement<'a>(book: &'a Rulebook, attested: &[(StatementId, Instant)]) -> Option<(usize, &'a Statement)> {
    book.statements
        .iter()
        .enumerate()
        .find(|(index, statement)| attested.get(*index).is_none_or(|(id, _)| *id != statement.id))
}

/// Refuses unless every statement was attested, in the rulebook's order.
pub fn complete(book: &Rulebook, attested: &[(StatementId, Instant)]) -> Result<(), Refusal> {
    match next_statement(book, attested) {
        None => Ok(()),
        Some((_, next)) => Err(Refusal::NotAttested { statement: next.id.clone(), text: next.text.clone() }),
    }
}

/// Until when a session's attestations hold: `shop.session_hours_max` after it began.
pub fn holds_until(book: &Rulebook, session: &Session) -> Instant {
    session.from + Span::from_ms(i64::from(book.shop.session_hours_max) * HOUR_MS)
}

/// Refuses unless the session is attested at `now`: all statements, and not lapsed.
pub fn holds(book: &Rulebook, session: &Session, now: Instant) -> Result<(), Refusal> {
    if let Some(missing) = book.statements.iter().find(|statement| !session.attested.contains_key(&statement.id)) {
        return Err(Refusal::NotAttested { statement: missing.id.clone(), text: missing.text.clone() });
    }
    let until = holds_until(book, session);
    if now >= until { Err(Refusal::AttestationLapsed { on: until }) } else { Ok(()) }
}
