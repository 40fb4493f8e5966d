//! One's own evenings: what was said of each session that is over, the newest first.
//!
//! Facts only: when one came, what ran, when the sweep began, what was ticked, when one left. Nothing is judged, and
//! nobody else's evening is shown.

use crate::fire_watch::{self, Spark};
use crate::ids::SessionId;
use crate::state::Session;
use crate::time::{Instant, Span};
use crate::view::Viewer;

/// So many are shown.
pub const EVENINGS_MOST: usize = 30;

/// A session that is over.
#[derive(Clone, Debug, PartialEq)]
pub struct Evening {
    /// Which.
    pub id: SessionId,
    /// The room's name.
    pub room: String,
    /// When it began.
    pub from: Instant,
    /// The out-by, as last said.
    pub out_by: Instant,
    /// When it ended.
    pub left: Instant,
    /// When the sweep began, if there was one.
    pub sweep_from: Option<Instant>,
    /// The fire watch that was owed after the last spark.
    pub watch: Option<(Instant, Instant)>,
    /// The machines that were used.
    pub machines: Vec<String>,
    /// How many chores were ticked.
    pub chores: usize,
}

/// This viewer's sessions that are over, the newest first, at most [`EVENINGS_MOST`].
pub fn evenings(viewer: &Viewer) -> Vec<Evening> {
    let over = viewer.state.sessions.of(viewer.me);
    let over = over.filter_map(|session| session.left().map(|left| evening(viewer, session, left)));
    over.take(EVENINGS_MOST).collect()
}

fn evening(viewer: &Viewer, session: &Session, left: Instant) -> Evening {
    let minutes = Span::from_minutes(i64::from(viewer.book.fire_watch.minutes));
    let watch = fire_watch::last_spark(viewer.book, session, left).and_then(|spark| match spark {
        Spark::Ended(from) => Some((from, from + minutes)),
        Spark::Now => None,
    });
    Evening {
        id: session.id.clone(),
        room: super::door::room_name(viewer, &session.room),
        from: session.from,
        out_by: session.out_by,
        left,
        sweep_from: session.sweep().map(|sweep| sweep.from),
        watch,
        machines: session.machines().into_iter().map(|id| viewer.book.machine_name(id)).collect(),
        chores: session.chores.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::testing::{World, at, start, stop};

    #[test]
    fn ones_own_evenings_are_there_once_they_are_over() {
        let mut world = World::new();
        world.enter("noor", 0, 120).expect("allowed");
        world.enter("ilse", 1, 100).expect("allowed");
        let act =
            |world: &mut World, minute: i64, command: Command| world.act("noor", minute, command).expect("allowed");
        act(&mut world, 5, start("torch"));
        act(&mut world, 20, stop("torch"));
        act(&mut world, 50, Command::StartSweep { crew: 1 });
        act(&mut world, 58, Command::FinishChore { chore: "torch/brush".into(), photo: None });
        let seen = |world: &World, who: &str| evenings(&world.viewer(&PersonId::from(who), at(200)));
        assert_eq!(seen(&world, "noor"), []);
        act(&mut world, 61, Command::Leave);
        let evening = Evening {
            id: "noor-0".into(),
            room: "Room forge".into(),
            from: at(0),
            out_by: at(120),
            left: at(61),
            sweep_from: Some(at(50)),
            watch: Some((at(20), at(50))),
            machines: vec!["The torch".into()],
            chores: 1,
        };
        assert_eq!(seen(&world, "noor"), [evening]);
        assert_eq!(seen(&world, "ilse"), []);
    }

    #[test]
    fn the_newest_comes_first_and_the_oldest_falls_off() {
        let mut world = World::new();
        for evening in 0..40 {
            world.enter("noor", evening * 200, evening * 200 + 60).expect("allowed");
            world.act("noor", evening * 200 + 30, Command::Leave).expect("never refused");
        }
        let rows = evenings(&world.viewer(&PersonId::from("noor"), at(9_000)));
        let shown: Vec<Instant> = rows.iter().map(|row| row.from).collect();
        assert_eq!((shown.len(), shown[0], shown[29]), (EVENINGS_MOST, at(39 * 200), at(10 * 200)));
    }
}
