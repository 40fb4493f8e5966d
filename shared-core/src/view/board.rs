//! The wall board: everybody in one room by their steel rules, and what is tagged out there.
//!
//! What is shown of somebody else is what their phone has said so far, planned with what this one knows. A name is never
//! left out for being stale; how old the last word is stands beside it. Nothing here needs a session of one's own.

use crate::buddy::Heard;
use crate::fire_watch::{self, WatchStage};
use crate::ids::{RoomId, SessionId};
use crate::state::Session;
use crate::time::{Instant, Span};
use crate::view::Viewer;
use crate::view::bench::{self, TagRow, Times};
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
    /// When everybody was called out of the room, if that was not long ago.
    pub clear_called: Option<Instant>,
}

/// One session.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardSession {
    /// Which.
    pub id: SessionId,
    /// Whose.
    pub name: String,
    /// Whether their board may name them when it rings for them.
    pub named: bool,
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
    /// Until when embers must be looked for, or had to be, once no spark flies any more.
    pub watch_until: Option<Instant>,
    /// When their phone last said anything that this one has heard.
    pub heard: Instant,
}

/// What a board rings for everybody in its room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoomBell {
    /// Somebody's sweep is to begin.
    Sweep,
    /// A fire watch is over.
    WatchOver,
    /// Somebody is past their out-by.
    Last,
    /// Everybody is called out.
    Clear,
}

/// A bell of a board stands for longer than the minute that browsers let a page out of sight sleep, so that no bell falls
/// between two looks; and for longer still when everybody is called out.
const RINGS: Span = Span::from_ms(90_000);
const RINGS_CLEAR: Span = Span::from_minutes(5);

/// A bell that stands on a board. It names nobody who has not chosen so: who it is for knows.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Standing {
    /// Which.
    pub bell: RoomBell,
    /// Since when.
    pub at: Instant,
    /// For whom, if they let the board say so.
    pub name: Option<String>,
}

/// The bell that stands on a board at `now`: the most pressing one, and of two alike the later.
pub fn rings(board: &BoardView, now: Instant) -> Option<Standing> {
    let of_session = |session: &BoardSession| {
        let sweep = session.times.as_ref().filter(|_| session.began.is_none()).map(|times| times.sweep_from);
        let name = session.named.then(|| session.name.clone());
        [(RoomBell::Sweep, sweep), (RoomBell::WatchOver, session.watch_until), (RoomBell::Last, Some(session.out_by))]
            .map(|(bell, at)| Some(Standing { bell, at: at?, name: name.clone() }))
    };
    let clear = board.clear_called.map(|at| Standing { bell: RoomBell::Clear, at, name: None });
    let set = board.sessions.iter().flat_map(of_session).flatten().chain(clear);
    let stands = |set: &Standing| {
        let rings = if set.bell == RoomBell::Clear { RINGS_CLEAR } else { RINGS };
        set.at <= now && now - set.at < rings
    };
    set.filter(stands).max()
}

/// The board of a room; `None` for a room that the rulebook does not have.
pub fn board(viewer: &Viewer, room: &RoomId) -> Option<BoardView> {
    let name = viewer.book.room(room)?.name.clone();
    let heard = Heard::now(viewer);
    let mut sessions: Vec<BoardSession> =
        roster::in_room(viewer.state, room).map(|session| of_session(viewer, &heard, session)).collect();
    sessions.sort_by(|a, b| a.out_by.cmp(&b.out_by).then_with(|| a.id.cmp(&b.id)));
    let here = |tag: &TagRow| viewer.book.machine(&tag.machine).is_some_and(|machine| machine.room == *room);
    Some(BoardView {
        room: name,
        sessions,
        tagged: super::room::tagged(viewer).into_iter().filter(here).collect(),
        emergency: viewer.book.shop.emergency.clone(),
        clear_called: bench::clear_called(viewer, room).map(|(at, _)| at),
    })
}

fn of_session(viewer: &Viewer, heard: &Heard, session: &Session) -> BoardSession {
    let mut buddies: Vec<String> = buddy::standing_of(viewer.book, heard, session, viewer.now)
        .into_iter()
        .map(|(confirmation, _)| viewer.members.name(&confirmation.buddy).to_owned())
        .collect();
    buddies.sort();
    buddies.dedup();
    let plan = session_plan::plan_of(viewer, session);
    BoardSession {
        id: session.id.clone(),
        name: viewer.members.name(&session.who).to_owned(),
        named: session.on_board,
        buddies,
        running: session.running_all().map(|use_| viewer.book.machine_name(&use_.machine)).collect(),
        from: session.from,
        out_by: session.out_by,
        // When one would be free moves with every look, and is nobody else's.
        times: plan.ok().map(|plan| Times { free_at: None, ..Times::of(viewer.book, &plan) }),
        began: session.sweep().map(|sweep| sweep.from),
        watch_until: fire_watch::watch(viewer.book, session, viewer.now).and_then(|watch| match watch.stage {
            WatchStage::Watching { until, .. } | WatchStage::Over { at: until } => Some(until),
            WatchStage::Sparking => None,
        }),
        heard: session.last_at,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::testing::{World, arrive, at, start};

    /// Noor is in until 120; the bell that stands at each minute.
    fn check(acts: &[(&str, i64, Command)], expected: &[(i64, Option<RoomBell>)]) {
        let mut world = World::new();
        world.act("noor", 0, arrive("noor", "forge", 0, 120)).expect("allowed");
        world.act("ilse", 0, arrive("ilse", "fitting", 0, 90)).expect("allowed");
        for (who, minute, command) in acts {
            world.act(who, *minute, command.clone()).expect("allowed");
        }
        let nobody = PersonId::from("teun");
        for (minute, bell) in expected {
            let now = at(*minute);
            let board = board(&world.viewer(&nobody, now), &"forge".into()).expect("a room");
            assert_eq!(rings(&board, now).map(|rings| rings.bell), *bell, "{acts:?} at {minute}");
        }
    }

    #[test]
    fn a_board_rings_for_its_room_and_for_no_other() {
        use RoomBell::{Clear, Last, Sweep};
        let mut world = World::new();
        world.act("noor", 0, arrive("noor", "forge", 0, 120)).expect("allowed");
        let nobody = PersonId::from("teun");
        let seen = board(&world.viewer(&nobody, at(1)), &"forge".into()).expect("a room");
        let sweep_from = seen.sessions[0].times.as_ref().expect("a plan").sweep_from;
        let sweep = ((sweep_from - at(0)).ms() + 59_999) / 60_000;
        check(
            &[],
            &[(1, None), (sweep, Some(Sweep)), (sweep + 2, None), (120, Some(Last)), (121, Some(Last)), (122, None)],
        );
        let swept = ("noor", 60, Command::StartSweep { crew: 1 });
        check(&[swept], &[(sweep, None), (120, Some(Last))]);
        let left = ("noor", 60, Command::Leave);
        check(&[left], &[(sweep, None), (120, None)]);
        let call = |room: &str, minute| ("ilse", minute, Command::CallClear { room: room.into() });
        check(&[call("forge", 118)], &[(117, None), (118, Some(Clear)), (121, Some(Clear)), (123, None)]);
        check(&[call("fitting", 118)], &[(118, None), (120, Some(Last))]);
    }

    #[test]
    fn a_bell_names_its_member_if_they_chose_so() {
        for (said, name) in [(vec![], None), (vec![true], Some("NOOR")), (vec![true, false], None)] {
            let mut world = World::new();
            world.act("noor", 0, arrive("noor", "forge", 0, 120)).expect("allowed");
            for may in said {
                world.act("noor", 1, Command::NameOnBoard { may }).expect("allowed");
            }
            let nobody = PersonId::from("teun");
            let board = board(&world.viewer(&nobody, at(120)), &"forge".into()).expect("a room");
            let rings = rings(&board, at(120)).expect("the last bell");
            assert_eq!((rings.bell, rings.name.as_deref()), (RoomBell::Last, name));
        }
    }

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
