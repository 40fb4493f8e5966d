//! The induction walk as its page shows it: each point, what it says and asks, how it stands, and what is left.
//!
//! Which answer is right is not in it: that is asked of `standing::act`.

use crate::entry::Point;
use crate::standing::walk::{Walked, mark_of_all, points, walked};
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::door::room_name;

/// The walk.
#[derive(Clone, Debug, PartialEq)]
pub struct WalkView {
    /// Its points, in order.
    pub points: Vec<PointRow>,
    /// How many are still to be walked.
    pub left: usize,
    /// When all of it was walked, as it stands; if so.
    pub done: Option<Instant>,
    /// Until when this member is inducted, if they are.
    pub inducted_until: Option<Instant>,
}

/// One point.
#[derive(Clone, Debug, PartialEq)]
pub struct PointRow {
    /// Which.
    pub point: Point,
    /// In which room; of a statement, none.
    pub room: Option<String>,
    /// What it says first.
    pub text: String,
    /// What more it says.
    pub says: Vec<String>,
    /// The word of its sign.
    pub sign: Option<String>,
    /// What it asks, and the answers.
    pub question: Option<(String, Vec<String>)>,
    /// How it stands.
    pub walked: Walked,
}

/// The walk of this viewer.
pub fn walk(viewer: &Viewer) -> WalkView {
    let mut points: Vec<PointRow> = points(viewer.book)
        .into_iter()
        .filter_map(|(point, mark)| {
            let walked = walked(viewer.state, viewer.me, &point, mark);
            row(viewer, point, walked)
        })
        .collect();
    let mut left = points.iter().filter(|row| row.walked != Walked::Behind).count();
    let done = viewer.state.walks.get(viewer.me).filter(|(_, mark)| left == 0 && *mark == mark_of_all(viewer.book));
    // Something was taken out of the walk since: the last of its points is walked once more, and with it the whole as it is now.
    if let (0, None, Some(last)) = (left, done, points.last_mut()) {
        last.walked = Walked::Changed;
        left = 1;
    }
    let member = viewer.members.get(viewer.me);
    WalkView {
        points,
        left,
        done: done.map(|(at, _)| *at),
        inducted_until: member.and_then(|member| member.inducted_until).filter(|until| viewer.now < *until),
    }
}

fn row(viewer: &Viewer, point: Point, walked: Walked) -> Option<PointRow> {
    Some(match &point {
        Point::Stop(id) => {
            let stop = viewer.book.stop(id)?;
            let asked = stop.question.as_ref();
            PointRow {
                room: Some(room_name(viewer, &stop.room)),
                text: stop.text.clone(),
                says: stop.says.clone(),
                sign: stop.sign.clone(),
                question: asked.map(|asked| (asked.text.clone(), asked.answers.clone())),
                walked,
                point,
            }
        }
        Point::Statement(id) => {
            let statement = viewer.book.statements.iter().find(|statement| statement.id == *id)?;
            PointRow {
                room: None,
                text: statement.text.clone(),
                says: Vec::new(),
                sign: statement.sign.clone(),
                question: None,
                walked,
                point,
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Fact};
    use crate::ids::{PersonId, SessionId};
    use crate::rulebook::{Question, Stop};
    use crate::state::State;
    use crate::testing::{World, at};

    #[test]
    fn the_page_says_what_is_left_and_never_which_answer_is_right() {
        let mut world = World::new();
        let question = Question {
            text: "Which?".into(),
            answers: vec!["This".into(), "That".into()],
            right: 2,
            because: "That one.".into(),
        };
        world.book.stops = vec![Stop {
            id: "bin".into(),
            room: "forge".into(),
            text: "The bin.".into(),
            says: vec!["Lid shut.".into()],
            sign: None,
            question: Some(question),
            mark: Some("m".into()),
        }];
        world.book.statements.truncate(1);
        let me = PersonId::from("teun");
        let said = |fact| Entry { at: at(1), session: SessionId::outside(), who: me.clone(), fact };
        let walked = |point| said(Fact::Walked { point, mark: "m".into() });
        let bin = walked(Point::Stop("bin".into()));
        let door = said(Fact::Walked { point: Point::Statement("loose".into()), mark: "-".into() });
        let all = said(Fact::WalkDone { mark: mark_of_all(&world.book) });
        let other = said(Fact::WalkDone { mark: "other".into() });
        for (log, left, done) in [
            (vec![], 2, None),
            (vec![bin.clone()], 1, None),
            // A walk that had more points when it was walked.
            (vec![bin.clone(), door.clone()], 1, None),
            (vec![bin.clone(), door.clone(), other], 1, None),
            (vec![bin, door, all], 0, Some(at(1))),
        ] {
            world.state = State::of(&log);
            let view = walk(&world.viewer(&me, at(5)));
            assert_eq!((view.left, view.done), (left, done), "{log:?}");
            assert_eq!(view.points[0].room.as_deref(), Some("Room forge"));
            assert!(!format!("{view:?}").contains("That one."));
        }
    }
}
