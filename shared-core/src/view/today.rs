//! Today: what needs the steward, the most pressing first; empty when nothing does.
//!
//! A need is a fact with a next step, never a reproach: it names a session or a thing, not a fault of somebody's.

use crate::ids::{PersonId, SessionId};
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::door::room_name;

/// What needs the steward.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Today {
    /// The most pressing first.
    pub needs: Vec<Need>,
}

/// One thing that does.
#[derive(Clone, Debug, PartialEq)]
pub enum Need {
    /// A session is open past its out-by: is its member safe?
    PastOutBy {
        /// Which.
        session: SessionId,
        /// Whose.
        who: PersonId,
        /// What they are called.
        name: String,
        /// The name of the room.
        room: String,
        /// When they meant to be out.
        out_by: Instant,
        /// When their phone was last heard of.
        heard: Instant,
    },
}

/// What needs this viewer, as far as their phone knows.
pub fn today(viewer: &Viewer) -> Today {
    let late = viewer.state.sessions.values().filter(|session| session.is_open() && session.out_by < viewer.now);
    let mut needs: Vec<Need> = late
        .map(|session| Need::PastOutBy {
            session: session.id.clone(),
            who: session.who.clone(),
            name: viewer.members.name(&session.who).to_owned(),
            room: room_name(viewer, &session.room),
            out_by: session.out_by,
            heard: session.last_at,
        })
        .collect();
    needs.sort_by_key(|need| match need {
        Need::PastOutBy { out_by, .. } => *out_by,
    });
    Today { needs }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Fact};
    use crate::testing::{World, at};

    fn said(session: &str, who: &str, minute: i64, fact: Fact) -> Entry {
        Entry { at: at(minute), session: session.into(), who: who.into(), fact }
    }

    #[test]
    fn a_session_needs_the_steward_once_it_is_open_past_its_out_by() {
        let entered = |session: &str, who: &str, out_by| {
            said(session, who, 0, Fact::Entered { room: "forge".into(), out_by: at(out_by) })
        };
        let log = [
            entered("a", "noor", 90),
            entered("b", "ilse", 60),
            entered("c", "teun", 30),
            said("c", "teun", 40, Fact::Left),
            said("a", "noor", 55, Fact::WatchRound),
        ];
        for (minute, late) in [(59, vec![]), (60, vec![]), (61, vec!["b"]), (200, vec!["b", "a"])] {
            let mut world = World::new();
            world.state = crate::state::State::of(&log);
            let me = PersonId::from("bram");
            let needs = today(&world.viewer(&me, at(minute))).needs;
            let sessions = needs.iter().map(|need| match need {
                Need::PastOutBy { session, .. } => session.as_str(),
            });
            assert_eq!(sessions.collect::<Vec<_>>(), late, "minute {minute}");
        }
    }
}
