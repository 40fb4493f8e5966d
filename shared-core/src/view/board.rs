//! The wall board: everybody in one room by their steel rules, and what is tagged out there.
//!
//! What is shown of somebody else is what their phone has said so far, planned with what this one knows. A name is never
//! left out for being stale; how old the last word is stands beside it. Nothing here needs a session of one's own.

use crate::ids::{RoomId, SessionId};
use crate::state::Session;
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::bench::{TagRow, Times};
use crate::{buddy, roster, session_plan};

/// What the board of a room shows.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardView {
    /// The room's name.
    pub room: String,
    /// Everybody known to be there, by their out-by.
    pub sessions: Vec<BoardSession>,
    /// Machines of the room that are tagged out.
    pub tagged: Vec<TagRow>,
    /// The emergency number, as it is dialled.
    pub emergency: Option<String>,
}

/// One session.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardSession {
    /// Which.
    pub id: SessionId,
    /// Whose.
    pub name: String,
    /// Those whose word as a buddy holds now.
    pub buddies: Vec<String>,
    /// The machines that run.
    pub running: Vec<String>,
    /// Since when.
    pub from: Instant,
    /// When they mean to be out.
    pub out_by: Instant,
    /// The times of their plan, where there can be one.
    pub times: Option<Times>,
    /// When they began to close down, once they have.
    pub began: Option<Instant>,
    /// When their phone last said anything that this one has heard.
    pub heard: Instant,
}

/// The board of a room; `None` for a room that the rulebook does not have.
pub fn board(viewer: &Viewer, room: &RoomId) -> Option<BoardView> {
    let name = viewer.book.room(room)?.name.clone();
    let mut sessions: Vec<BoardSession> =
        roster::in_room(viewer.state, room).map(|session| of_session(viewer, session)).collect();
    sessions.sort_by(|a, b| a.out_by.cmp(&b.out_by).then_with(|| a.id.cmp(&b.id)));
    let here = |tag: &TagRow| viewer.book.machine(&tag.machine).is_some_and(|machine| machine.room == *room);
    Some(BoardView {
        room: name,
        sessions,
        tagged: super::room::tagged(viewer).into_iter().filter(here).collect(),
        emergency: viewer.book.shop.emergency.clone(),
    })
}

fn of_session(viewer: &Viewer, session: &Session) -> BoardSession {
    let mut buddies: Vec<String> = buddy::standing(viewer.book, viewer.state, session, viewer.now)
        .into_iter()
        .map(|(confirmation, _)| viewer.members.name(&confirmation.buddy).to_owned())
        .collect();
    buddies.sort();
    buddies.dedup();
    let plan = session_plan::plan_of(viewer, session);
    BoardSession {
        id: session.id.clone(),
        name: viewer.members.name(&session.who).to_owned(),
        buddies,
        running: session.running_all().map(|use_| viewer.book.machine_name(&use_.machine)).collect(),
        from: session.from,
        out_by: session.out_by,
        // When one would be free moves with every look, and is nobody else's.
        times: plan.ok().map(|plan| Times { free_at: None, ..Times::of(viewer.book, &plan) }),
        began: session.sweep().map(|sweep| sweep.from),
        heard: session.last_at,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::testing::{World, arrive, at, start};

    #[test]
    fn everybody_in_the_room_is_on_its_board_and_nobody_else() {
        let mut world = World::new();
        for (who, room) in [("noor", "forge"), ("ilse", "forge"), ("bram", "fitting")] {
            world.act(who, 0, arrive(who, room, 0, 120)).expect("allowed");
        }
        world.act("noor", 5, start("torch")).expect("allowed");
        world.act("ilse", 6, Command::MoveOutBy { out_by: at(90) }).expect("allowed");
        let nobody = PersonId::from("teun");
        let seen = |world: &World, room: &str| board(&world.viewer(&nobody, at(10)), &room.into());
        let forge = seen(&world, "forge").expect("a room");
        let rows: Vec<_> =
            forge.sessions.iter().map(|row| (row.name.as_str(), row.out_by, row.running.len(), row.heard)).collect();
        assert_eq!(rows, [("ILSE", at(90), 0, at(6)), ("NOOR", at(120), 1, at(5))]);
        let spark = |name: &str| {
            let row = forge.sessions.iter().find(|row| row.name == name).expect("there");
            row.times.as_ref().expect("a plan").last_spark
        };
        assert!(spark("NOOR").is_some() && spark("ILSE").is_none());
        world.act("noor", 10, Command::StartSweep { crew: 1 }).expect("allowed");
        let began: Vec<_> = seen(&world, "forge").expect("a room").sessions.iter().map(|row| row.began).collect();
        assert_eq!(began, [None, Some(at(10))]);
        world.act("ilse", 11, Command::Leave).expect("never refused");
        assert_eq!(seen(&world, "forge").expect("a room").sessions.len(), 1);
        assert_eq!(seen(&world, "nowhere"), None);
    }
}
