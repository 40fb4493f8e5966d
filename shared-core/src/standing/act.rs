//! Acts of Book on people: a point of one's own walk; inducting, signing off, taking back, giving a role.
//!
//! Decided like a command, by the same eyes; apart from those, because no session is needed for them and they are seldom
//! asked for. Said outside of any session.

use super::fresh::days_span;
use super::walk::{is_done_but_for, mark_of_all, points};
use super::{Key, Words};
use crate::card::Role;
use crate::decide::arrive::card_holds;
use crate::entry::{Entry, Fact, Point};
use crate::ids::{PersonId, SessionId};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// This point of the walk was seen; of a stop that asks, with an answer, counted from 1.
    Walk {
        /// Which.
        point: Point,
        /// The answer that was picked.
        answer: Option<u32>,
    },
    /// Induct somebody, for as long as the rulebook says.
    Induct(PersonId),
    /// Sign somebody off on a training, for as long as it says.
    SignOff(PersonId, String),
    /// Take back an induction or a sign-off.
    TakeBack(PersonId, Key),
    /// Give somebody a role.
    GiveRole(PersonId, Role),
}

/// What follows: entries to be made durable together, or why not.
pub fn decide(viewer: &Viewer, act: Act) -> Result<Vec<Entry>, Refusal> {
    let (book, now) = (viewer.book, viewer.now);
    let facts = match act {
        Act::Walk { point, answer } => walk(viewer, point, answer)?,
        Act::Induct(person) => {
            let until = Some(now + days_span(book.shop.induction_days));
            vec![Fact::Inducted { person, until }]
        }
        Act::SignOff(person, training) => {
            let known = book.trainings().contains(training.as_str());
            if !known {
                return Err(Refusal::NoSuchTraining { training });
            }
            let until = Some(now + days_span(book.valid_days(&training)));
            vec![Fact::SignedOff { person, training, until }]
        }
        Act::TakeBack(person, Key::Training(training)) => vec![Fact::SignedOff { person, training, until: None }],
        Act::TakeBack(person, Key::Induction) => vec![Fact::Inducted { person, until: None }],
        Act::TakeBack(person, Key::Role) => vec![Fact::RoleGiven { person, role: Role::Member }],
        Act::GiveRole(person, role) => vec![Fact::RoleGiven { person, role }],
    };
    card_holds(viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?, now)?;
    for fact in &facts {
        Words::may_give(viewer.me, fact, book, viewer.members)?;
    }
    let entry = |fact| Entry { at: now, session: SessionId::outside(), who: viewer.me.clone(), fact };
    Ok(facts.into_iter().map(entry).collect())
}

fn walk(viewer: &Viewer, point: Point, answer: Option<u32>) -> Result<Vec<Fact>, Refusal> {
    let mark = points(viewer.book).into_iter().find(|(known, _)| *known == point).map(|(_, mark)| mark.to_owned());
    let mark = mark.ok_or(Refusal::NoSuchStop)?;
    if let Point::Stop(stop) = &point
        && let Some(question) = viewer.book.stop(stop).and_then(|stop| stop.question.as_ref())
        && answer != Some(question.right)
    {
        return Err(Refusal::OtherAnswer { because: question.because.clone() });
    }
    let done = is_done_but_for(viewer.book, viewer.state, viewer.me, Some(&point));
    let mut facts = vec![Fact::Walked { point, mark }];
    if done {
        facts.push(Fact::WalkDone { mark: mark_of_all(viewer.book) });
    }
    Ok(facts)
}
