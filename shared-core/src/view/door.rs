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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    fn shown(world: &World, who: &str, minute: i64, arriving: Option<&Arriving>) -> DoorView {
        let me = PersonId::from(who);
        door(&world.viewer(&me, at(minute)), arriving)
    }

    #[test]
    fn the_door_asks_one_thing_after_the_other() {
        let mut world = World::new();
        let mut arriving = Arriving::at("forge".into(), at(0));
        for (step, statement) in (1..).zip(world.book.statements.clone()) {
            let room = "Room forge".to_owned();
            let asked = DoorView::Attest { room, step, of: 2, statement: statement.clone() };
            assert_eq!(shown(&world, "noor", 1, Some(&arriving)), asked);
            arriving.attest(&world.book, &statement.id, at(1));
        }
        // Zero is at 01:46:40: quarters about one to four hours ahead, and six hours at most.
        let DoorView::OutBy { room, choices, latest, .. } = shown(&world, "noor", 1, Some(&arriving)) else {
            panic!("all is attested");
        };
        let clocks: Vec<String> = choices.iter().map(|at| at.to_string()[11..16].to_owned()).collect();
        assert_eq!((room.as_str(), clocks.join(" ")), ("Room forge", "02:45 03:45 04:45 05:45".to_owned()));
        assert_eq!(latest, at(1 + 6 * 60));
        assert_eq!(world.enter("noor", 2, 100), Ok(()));
        assert_eq!(shown(&world, "noor", 3, None), DoorView::Inside { room: "Room forge".to_owned() });
    }

    #[test]
    fn outside_it_says_how_many_are_in_and_bars_who_may_not_enter() {
        let mut world = World::new();
        assert_eq!(world.enter("noor", 0, 100), Ok(()));
        let line = |id: &str, people| RoomLine { id: id.into(), name: format!("Room {id}"), people };
        let outside = DoorView::Outside { rooms: vec![line("forge", 1), line("fitting", 0)] };
        assert_eq!(shown(&world, "ilse", 1, None), outside);
        let arriving = Arriving::at("forge".into(), at(1));
        assert_eq!(shown(&world, "teun", 1, Some(&arriving)), DoorView::Barred(Refusal::NotInducted));
        // Nobody is offered a time past the longest session.
        world.book.shop.session_hours_max = 2;
        let attested = world.book.statements.iter().map(|one| (one.id.clone(), at(1))).collect();
        let ready = Arriving { attested, ..arriving };
        let DoorView::OutBy { choices, .. } = shown(&world, "ilse", 1, Some(&ready)) else { panic!("all is attested") };
        assert_eq!(choices.len(), 2);
    }
}
