//! Door: what stands between a member and a session.

use crate::attestation::Arriving;
use crate::decide;
use crate::ids::RoomId;
use crate::refusal::Refusal;
use crate::roster;
use crate::rulebook::Statement;
use crate::time::{HOUR_MS, Instant, MINUTE_MS};
use crate::view::Viewer;

/// What Door shows.
#[derive(Clone, Debug, PartialEq)]
pub enum DoorView {
    /// Nobody is arriving: scan or pick a room.
    Outside {
        /// The rooms of this shop.
        rooms: Vec<RoomLine>,
    },
    /// Something bars the way: not inducted, say.
    Barred(Refusal),
    /// A statement is to be attested.
    Attest {
        /// The room's name.
        room: String,
        /// Which statement this is, from 1.
        step: usize,
        /// Of how many.
        of: usize,
        /// The statement.
        statement: Statement,
    },
    /// All is attested: when must the member be out?
    OutBy {
        /// The room's name.
        room: String,
        /// Times to pick with one tap, earliest first.
        choices: Vec<Instant>,
        /// Not before.
        earliest: Instant,
        /// Not after.
        latest: Instant,
    },
    /// A session is open.
    Inside {
        /// The room's name.
        room: String,
    },
}

/// A room to arrive in.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomLine {
    /// Its id.
    pub id: RoomId,
    /// Its name.
    pub name: String,
    /// How many people are known to be in it.
    pub people: usize,
}

/// What Door shows to this viewer, who may be arriving.
pub fn door(viewer: &Viewer, arriving: Option<&Arriving>) -> DoorView {
    if let Some(session) = viewer.open_session() {
        return DoorView::Inside { room: room_name(viewer, &session.room) };
    }
    let Some(arriving) = arriving else {
        let rooms = viewer.book.rooms.iter().map(|room| RoomLine {
            id: room.id.clone(),
            name: room.name.clone(),
            people: roster::in_room(viewer.state, &room.id).count(),
        });
        return DoorView::Outside { rooms: rooms.collect() };
    };
    if let Err(refusal) = decide::arrive::may_enter(viewer, &arriving.room) {
        return DoorView::Barred(refusal);
    }
    let room = room_name(viewer, &arriving.room);
    if let Some((index, statement)) = arriving.next_statement(viewer.book) {
        let statement = statement.clone();
        return DoorView::Attest { room, step: index + 1, of: viewer.book.statements.len(), statement };
    }
    let (earliest, latest) = decide::arrive::out_by_range(viewer.book, viewer.now);
    DoorView::OutBy { room, choices: out_by_choices(viewer.now, latest), earliest, latest }
}

/// Quarter-hour marks about one, two, three and four hours ahead, none past `latest`.
fn out_by_choices(now: Instant, latest: Instant) -> Vec<Instant> {
    let quarter = 15 * MINUTE_MS;
    (1..=4)
        .map(|hours| (now.ms() + hours * HOUR_MS + quarter / 2).div_euclid(quarter) * quarter)
        .map(Instant::from_ms)
        .filter(|out_by| *out_by <= latest)
        .collect()
}

pub(crate) fn room_name(viewer: &Viewer, id: &RoomId) -> String {
    viewer.book.room(id).map_or_else(|| id.to_string(), |room| room.name.clone())
}
