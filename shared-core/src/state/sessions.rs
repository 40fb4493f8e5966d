//! The sessions that are known, by id, by their ends and by whose they are.
//!
//! A touch must not cost more because the log is longer: whatever asks who is here, what went on lately, or for somebody's own, asks
//! [`Sessions::open`], [`Sessions::since`] or [`Sessions::of`], and never walks those that were over long before. These orders follow
//! from the sessions alone: they are kept nowhere, written nowhere, and told to nobody.

use std::cmp::Reverse;
use std::ops::Deref;

use borsh::io::{self, Read, Write};
use borsh::{BorshDeserialize, BorshSerialize};

use super::Session;
use crate::ids::{PersonId, SessionId};
use crate::ordered::{Map, Set};
use crate::time::Instant;

/// Every session, open or left; read like a map by id.
#[derive(Clone, Debug, Default)]
pub struct Sessions {
    by_id: Map<SessionId, Session>,
    /// Those that have not left, by id.
    open: Vec<SessionId>,
    /// Those that left, by their last entries. What was said of one after it left puts it here again: one place is true.
    over: Set<(Instant, SessionId)>,
    /// Each person's, by their beginnings; of one instant the first by id is the last here. Neither ever changes.
    of: Map<PersonId, Vec<(Instant, SessionId)>>,
}

impl Sessions {
    /// Takes up a session that is not known yet.
    pub fn put(&mut self, session: Session) {
        place(&mut self.open, &mut self.over, &session);
        let of = self.of.entry(session.who.clone()).or_default();
        let place = of.partition_point(|(from, id)| (*from, Reverse(id)) < (session.from, Reverse(&session.id)));
        of.insert(place, (session.from, session.id.clone()));
        self.by_id.insert(session.id.clone(), session);
    }

    /// Changes a session, if there is one of that id.
    pub(super) fn change(&mut self, id: &SessionId, change: impl FnOnce(&mut Session)) {
        if let Some(session) = self.by_id.get_mut(id) {
            change(session);
            place(&mut self.open, &mut self.over, session);
        }
    }

    /// Those that have not left, by id.
    pub fn open(&self) -> impl Iterator<Item = &Session> + Clone {
        self.open.iter().filter_map(|id| self.by_id.get(id))
    }

    /// Those of one person, the latest beginning first, and of one instant by id.
    pub fn of(&self, who: &PersonId) -> impl Iterator<Item = &Session> {
        self.of.get(who).into_iter().flatten().rev().filter_map(|(_, id)| self.by_id.get(id))
    }

    /// Those that have not left, then those of which anything was said at `at` or later, the latest first.
    pub fn since(&self, at: Instant) -> Vec<&Session> {
        let mut since: Vec<&Session> = self.open().collect();
        for (last, id) in self.over.iter().rev().take_while(|(last, _)| *last >= at) {
            since.extend(self.by_id.get(id).filter(|one| one.last_at == *last));
        }
        since
    }
}

impl BorshSerialize for Sessions {
    fn serialize<W: Write>(&self, writer: &mut W) -> io::Result<()> {
        self.by_id.serialize(writer)
    }
}

impl BorshDeserialize for Sessions {
    fn deserialize_reader<R: Read>(reader: &mut R) -> io::Result<Self> {
        let mut sessions = Self::default();
        for _ in 0..u32::deserialize_reader(reader)? {
            SessionId::deserialize_reader(reader)?;
            sessions.put(Session::deserialize_reader(reader)?);
        }
        Ok(sessions)
    }
}

fn place(open: &mut Vec<SessionId>, over: &mut Set<(Instant, SessionId)>, session: &Session) {
    match (open.binary_search(&session.id), session.is_open()) {
        (Err(place), true) => open.insert(place, session.id.clone()),
        (Ok(place), false) => drop(open.remove(place)),
        _ => {}
    }
    if !session.is_open() {
        over.insert((session.last_at, session.id.clone()));
    }
}

/// The rest follows from the sessions.
impl PartialEq for Sessions {
    fn eq(&self, other: &Self) -> bool {
        self.by_id == other.by_id
    }
}

impl Deref for Sessions {
    type Target = Map<SessionId, Session>;
    fn deref(&self) -> &Self::Target {
        &self.by_id
    }
}

impl FromIterator<Session> for Sessions {
    fn from_iter<I: IntoIterator<Item = Session>>(all: I) -> Self {
        let mut sessions = Self::default();
        all.into_iter().for_each(|session| sessions.put(session));
        sessions
    }
}

#[cfg(test)]
mod tests {
    use crate::entry::{Entry, Fact};
    use crate::state::State;
    use crate::testing::at;

    /// Stays by name: from, to if they left, and a word of theirs that is heard after that.
    type Stay = (&'static str, i64, Option<i64>, Option<i64>);

    #[track_caller]
    fn check(stays: &[Stay], since: i64, expected: &[&str]) {
        let mut log = Vec::new();
        for (name, from, to, word) in stays {
            let said = |minute, fact| Entry { at: at(minute), session: (*name).into(), who: (*name).into(), fact };
            log.push(said(*from, Fact::Entered { room: "forge".into(), out_by: at(*from + 60) }));
            log.extend(to.map(|to| said(to, Fact::Left)));
            log.extend(word.map(|word| said(word, Fact::WatchRound)));
        }
        let state = State::of(&log);
        let told: Vec<&str> = state.sessions.since(at(since)).into_iter().map(|session| session.id.as_str()).collect();
        assert_eq!(told, expected, "since {since}");
        let open: Vec<&str> = state.sessions.values().filter(|one| one.is_open()).map(|one| one.id.as_str()).collect();
        assert!(state.sessions.open().map(|session| session.id.as_str()).eq(open));
        let again: super::Sessions = state.sessions.values().cloned().collect();
        assert_eq!(again.since(at(since)), state.sessions.since(at(since)), "it follows from the sessions alone");
    }

    #[test]
    fn what_was_over_before_is_not_walked() {
        const STAYS: &[Stay] = &[
            ("a", 0, Some(60), None),
            ("b", 10, None, Some(500)),
            ("c", 20, Some(50), Some(70)),
            ("d", 5, None, None),
        ];
        check(&[], 0, &[]);
        check(STAYS, 0, &["b", "d", "c", "a"]);
        check(STAYS, 60, &["b", "d", "c", "a"]);
        check(STAYS, 61, &["b", "d", "c"]);
        check(STAYS, 71, &["b", "d"]);
        check(STAYS, 9_999, &["b", "d"]);
    }
}
