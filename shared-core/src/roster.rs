//! Who is here, and how old that knowledge is.
//!
//! From the entries a device has: who entered and has not left. Nobody is ever dropped for being stale; a screen says
//! how stale. See DESIGN.md section 4, "Roster".

use crate::ids::{RoomId, SessionId};
use crate::state::{Session, State};
use crate::time::Instant;

/// Open sessions in a room.
pub fn in_room<'a>(state: &'a State, room: &'a RoomId) -> impl Iterator<Item = &'a Session> + Clone {
    state.sessions.open().filter(move |session| session.room == *room)
}

/// Open sessions in a room, but for one.
pub fn others_in_room<'a>(
    state: &'a State,
    room: &'a RoomId,
    but: &'a SessionId,
) -> impl Iterator<Item = &'a Session> + Clone {
    in_room(state, room).filter(move |session| session.id != *but)
}

/// Whether a session that leaves at `at` leaves the room empty, as far as is known: nobody else entered by then who had
/// not left by then.
pub fn last_out_at(state: &State, session: &Session, at: Instant) -> bool {
    !state.sessions.values().any(|other| {
        other.id != session.id
            && other.room == session.room
            && other.from <= at
            && other.left().is_none_or(|left| left > at)
    })
}
