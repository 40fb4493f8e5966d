//! Begin a session: inducted, everything attested in order, an out-by that the shop allows.
//!
//! A session of the same person that was begun on another phone (lost, or emptied by its browser) and never left is left
//! now: nobody is in two places, and nobody is kept out by a phone that they no longer have.

use crate::attestation;
use crate::entry::{Entry, Fact};
use crate::ids::{RoomId, SessionId, StatementId};
use crate::members::Member;
use crate::refusal::Refusal;
use crate::rulebook::Rulebook;
use crate::state::Session;
use crate::time::{HOUR_MS, Instant, Span};
use crate::viewer::Viewer;

/// The shortest session: an out-by this many minutes ahead or more.
pub const OUT_BY_MINUTES_MIN: i64 = 15;

pub(super) fn decide(
    viewer: &Viewer,
    session: &SessionId,
    room: &RoomId,
    entered_at: Instant,
    out_by: Instant,
    attested: Vec<(StatementId, Instant)>,
) -> Result<Vec<Entry>, Refusal> {
    may_enter(viewer, room)?;
    attestation::complete(viewer.book, &attested)?;
    let (earliest, latest) = out_by_range(viewer.book, viewer.now);
    if out_by < earliest || out_by > latest {
        return Err(Refusal::OutByOutOfRange { earliest, latest });
    }
    let mut entries: Vec<Entry> = elsewhere(viewer)
        .map(|old| super::entry(viewer, &old.name(), viewer.now.max(old.last_at), Fact::Left))
        .collect();
    let entered = Fact::Entered { room: room.clone(), out_by };
    entries.push(super::entry(viewer, session, entered_at.min(viewer.now), entered));
    for (statement, at) in attested {
        let at = at.clamp(entered_at.min(viewer.now), viewer.now);
        entries.push(super::entry(viewer, session, at, Fact::Attested { statement }));
    }
    Ok(entries)
}

/// Open sessions of this person that are not this phone's.
fn elsewhere<'a>(viewer: &Viewer<'a>) -> impl Iterator<Item = &'a Session> {
    let (me, own) = (viewer.me, viewer.session);
    viewer.state.sessions.open().filter(move |open| open.who == *me && Some(&open.id) != own)
}

/// Whether the viewer may enter a room at all.
pub fn may_enter(viewer: &Viewer, room: &RoomId) -> Result<(), Refusal> {
    if let Some(open) = viewer.open_session() {
        let room = viewer.book.room(&open.room).map_or_else(|| open.room.to_string(), |room| room.name.clone());
        return Err(Refusal::AlreadyIn { room });
    }
    if viewer.book.room(room).is_none() {
        return Err(Refusal::NoSuchRoom { room: room.clone() });
    }
    inducted(viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?, viewer.now)
}

/// Whether a member is inducted now, by a card that is still good.
pub fn inducted(member: &Member, now: Instant) -> Result<(), Refusal> {
    card_holds(member, now)?;
    let until = member.inducted_until.ok_or(Refusal::NotInducted)?;
    if now >= until { Err(Refusal::InductionExpired { on: until }) } else { Ok(()) }
}

/// Whether the card that says what a member may do is still good.
pub fn card_holds(member: &Member, now: Instant) -> Result<(), Refusal> {
    match member.card_until {
        Some(on) if now >= on => Err(Refusal::CardExpired { on }),
        _ => Ok(()),
    }
}

/// The earliest and the latest out-by of a session that begins at `now`.
pub fn out_by_range(book: &Rulebook, now: Instant) -> (Instant, Instant) {
    (now + Span::from_minutes(OUT_BY_MINUTES_MIN), now + hours_max(book))
}

/// The earliest and the latest out-by that an open session may move to at `now`.
pub fn out_by_range_of(book: &Rulebook, session: &Session, now: Instant) -> (Instant, Instant) {
    (now, session.from + hours_max(book))
}

fn hours_max(book: &Rulebook) -> Span {
    Span::from_ms(i64::from(book.shop.session_hours_max) * HOUR_MS)
}
