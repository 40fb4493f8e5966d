//! Sessions in groups that cannot have met: what is asked of one needs nobody but its own group.
//!
//! Who was last out, and who stood by whom, is asked of all sessions that are known; over two years that would be every
//! session by every other. Sessions that do not touch in time have nothing to do with each other, so each group is folded
//! state of its own, and the rules are asked of that. A session that never left may meet everybody after it, and is in every
//! later group, though it begins in one.
//!
//! Holds no rule and judges nothing.

use crate::ids::SessionId;
use crate::ordered::Set;
use crate::state::{Session, State};
use crate::time::{Instant, Span};

/// Sessions this far apart have not met: longer than any buddy's word holds.
const APART: Span = Span::from_minutes(12 * 60);
/// A group of so many is taken apart wherever one session does not touch the next.
const MANY: usize = 64;

/// Sessions that may have met.
#[derive(Clone, Debug, Default)]
pub struct Group {
    /// Nothing but these sessions.
    pub state: State,
    begun: Set<SessionId>,
}

impl Group {
    fn of(open: &[&Session], begun: &[&Session]) -> Self {
        let mut state = State::default();
        for session in open.iter().chain(begun) {
            state.sessions.put((*session).clone());
        }
        Self { state, begun: begun.iter().map(|session| session.id.clone()).collect() }
    }

    /// Those that began here, by id.
    pub fn begun(&self) -> impl Iterator<Item = &Session> {
        self.begun.iter().filter_map(|id| self.state.sessions.get(id))
    }
}

/// The groups in which a session began that counts, in order of time: whatever of one group ends, ends before the next begins.
pub fn groups(state: &State, counts: impl Fn(&Session) -> bool) -> Vec<Group> {
    let mut sessions: Vec<&Session> = state.sessions.values().collect();
    sessions.sort_by_key(|session| (session.from, &session.id));
    let (mut groups, mut begun, mut until) = (Vec::new(), Vec::new(), None::<Instant>);
    // Those that had not left when the group began.
    let mut never_left: Vec<&Session> = Vec::new();
    for session in sessions {
        let apart = if begun.len() < MANY { APART } else { Span::ZERO };
        if until.is_some_and(|until| session.from > until + apart) {
            end(&mut groups, &mut never_left, &mut begun, &counts);
        }
        begun.push(session);
        let ends = if session.is_open() { session.from } else { session.last_at.max(session.from) };
        until = Some(until.map_or(ends, |until| until.max(ends)));
    }
    end(&mut groups, &mut never_left, &mut begun, &counts);
    groups
}

/// Closes the group, which is kept if one that counts began in it; whoever has not left is in the next ones too.
fn end<'a>(
    groups: &mut Vec<Group>,
    open: &mut Vec<&'a Session>,
    begun: &mut Vec<&'a Session>,
    counts: &impl Fn(&Session) -> bool,
) {
    if begun.iter().any(|session| counts(session)) {
        groups.push(Group::of(open, begun));
    }
    open.extend(begun.drain(..).filter(|session| session.is_open()));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Fact};
    use crate::testing::at;

    #[track_caller]
    fn check(stays: &[(&str, i64, Option<i64>)], expected: &[&[&str]]) {
        let mut entries = Vec::new();
        for (who, from, to) in stays {
            let said = |minute, fact| Entry { at: at(minute), session: (*who).into(), who: (*who).into(), fact };
            entries.push(said(*from, Fact::Entered { room: "forge".into(), out_by: at(*from + 60) }));
            entries.extend(to.map(|to| said(to, Fact::Left)));
        }
        let state = State::of(&entries);
        let groups = groups(&state, |_| true);
        let begun: Vec<Vec<&str>> =
            groups.iter().map(|group| group.begun().map(|session| session.id.as_str()).collect()).collect();
        assert_eq!(begun, expected);
        // Of one session alone there is one group, the same as among all of them.
        for group in &groups {
            for session in group.begun() {
                let alone = super::groups(&state, |one| one.id == session.id);
                assert_eq!(alone.len(), 1, "{}", session.id);
                assert!(alone[0].begun().eq(group.begun()));
                assert_eq!(alone[0].state.sessions, group.state.sessions);
            }
        }
        let last = groups.last().map_or(0, |group| group.state.sessions.len());
        let never_left = stays.iter().filter(|(_, _, to)| to.is_none()).count();
        assert!(last >= never_left, "whoever never left may meet the last to come");
    }

    #[test]
    fn sessions_that_may_have_met_are_in_one_group() {
        const DAY: i64 = 24 * 60;
        check(&[], &[]);
        check(&[("a", 0, Some(60)), ("b", 30, Some(90)), ("c", 100, Some(120))], &[&["a", "b", "c"]]);
        check(&[("a", 0, Some(60)), ("b", DAY, Some(DAY + 60))], &[&["a"], &["b"]]);
        check(&[("a", 0, None), ("b", DAY, Some(DAY + 60)), ("c", 3 * DAY, None)], &[&["a"], &["b"], &["c"]]);
    }
}
