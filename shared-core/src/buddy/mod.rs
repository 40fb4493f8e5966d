//! Buddy coverage and its gaps.
//!
//! A confirmation at instant c covers [c, min(c + term, the buddy's leaving, the buddy's session end)), if it counts: see
//! [`words`]. A machine that asks for a buddy must be covered at every instant of its use; a gap is a maximal stretch
//! that is not. Nothing here ever says "covered" on the strength of a word older than its term. See DESIGN.md
//! section 4, "Buddy".
//!
//! Half-open stretches throughout: at the very instant of a lapse there is no cover, and a renewal then leaves no gap.

pub mod matching;
#[cfg(test)]
mod tests;
mod words;

use crate::ids::{MachineId, PersonId, RoomId, SessionId};
use crate::refusal::Refusal;
use crate::rulebook::Rulebook;
use crate::state::{Confirmation, Session, State};
use crate::time::Instant;
use crate::viewer::Viewer;

/// A half-open stretch of time.
type Stretch = (Instant, Instant);

/// A stretch of use that nobody covered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// Of which machine.
    pub machine: MachineId,
    /// From when.
    pub from: Instant,
    /// Until when.
    pub to: Instant,
}

/// The cover of a machine that asks for a buddy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cover {
    /// Covered until then.
    Until(Instant),
    /// Uncovered since then.
    GapSince(Instant),
}

/// The stretches of one machine's cover by the words that count, in order, overlaps left in.
fn cover(words: &[words::Word], machine: &MachineId) -> Vec<Stretch> {
    words
        .iter()
        .filter(|(word, _)| word.machine.as_ref().is_none_or(|only| only == machine))
        .map(|(word, until)| (word.at, *until))
        .collect()
}

/// Every gap of a session: per use in order of start. Uses that still go on are judged up to `open_end`.
pub fn gaps(book: &Rulebook, state: &State, session: &Session, open_end: Instant) -> Vec<Gap> {
    let mut gaps = Vec::new();
    let words = words::that_count(book, state, session);
    for use_ in session.uses.iter().filter(|use_| asks_for_buddy(book, &use_.machine)) {
        let end = session.use_end(use_, open_end);
        let mut covered_to = use_.from;
        for (from, to) in cover(&words, &use_.machine) {
            if from > covered_to && covered_to < end {
                gaps.push(Gap { machine: use_.machine.clone(), from: covered_to, to: from.min(end) });
            }
            covered_to = covered_to.max(to);
        }
        if covered_to < end {
            gaps.push(Gap { machine: use_.machine.clone(), from: covered_to, to: end });
        }
    }
    gaps
}

/// Whether `machine` is covered at `now`, and until when without a further word; else since when it is not.
pub fn cover_now(book: &Rulebook, state: &State, session: &Session, machine: &MachineId, now: Instant) -> Cover {
    let stretches = cover(&words::that_count(book, state, session), machine);
    let mut until = now;
    for (from, to) in &stretches {
        if *from <= until && *to > until {
            until = *to;
        }
    }
    if until > now {
        return Cover::Until(until);
    }
    let begun = session.running(machine).map_or(now, |use_| use_.from);
    let lapsed = stretches.iter().map(|(_, to)| *to).filter(|to| *to <= now).max();
    Cover::GapSince(lapsed.map_or(begun, |at| at.max(begun)))
}

/// The words that hold at `now`, with until when.
pub fn standing<'a>(
    book: &Rulebook,
    state: &'a State,
    session: &Session,
    now: Instant,
) -> Vec<(&'a Confirmation, Instant)> {
    let mut words = words::that_count(book, state, session);
    words.retain(|(word, until)| word.at <= now && *until > now);
    words
}

/// Whether `buddy` may confirm for a session of `operator` in `room`, as far as this phone knows.
pub fn may_cover(
    viewer: &Viewer,
    buddy: &PersonId,
    session: &SessionId,
    operator: &PersonId,
    room: &RoomId,
) -> Result<(), Refusal> {
    if buddy == operator {
        return Err(Refusal::OwnBuddy);
    }
    let name = || viewer.members.name(buddy).to_owned();
    if let Some(own) = viewer.state.open_session_of(buddy) {
        if own.room != *room {
            let room = viewer.book.room(&own.room).map_or_else(|| own.room.to_string(), |room| room.name.clone());
            return Err(Refusal::BuddyElsewhere { buddy: name(), room });
        }
        if !viewer.book.buddy.may_operate && own.running_all().any(|use_| asks_for_buddy(viewer.book, &use_.machine)) {
            return Err(Refusal::BuddyOperates { buddy: name() });
        }
    }
    let covers = viewer.book.buddy.covers;
    if covering(viewer, buddy, Some(session)) >= covers as usize {
        return Err(Refusal::BuddyFull { buddy: name(), covers });
    }
    Ok(())
}

/// How many open sessions `buddy` covers now, but for one.
pub fn covering(viewer: &Viewer, buddy: &PersonId, but: Option<&SessionId>) -> usize {
    let others = viewer.state.sessions.open().filter(|other| Some(&other.id) != but);
    let covered = others.filter(|other| {
        standing(viewer.book, viewer.state, other, viewer.now).iter().any(|(word, _)| word.buddy == *buddy)
    });
    covered.count()
}

/// Whether a session runs a machine that asks for a buddy and has none now.
pub fn is_bare(viewer: &Viewer, session: &Session) -> bool {
    session.running_all().filter(|use_| asks_for_buddy(viewer.book, &use_.machine)).any(|use_| {
        let cover = cover_now(viewer.book, viewer.state, session, &use_.machine, viewer.now);
        matches!(cover, Cover::GapSince(_))
    })
}

fn asks_for_buddy(book: &Rulebook, machine: &MachineId) -> bool {
    book.machine(machine).is_some_and(|machine| machine.buddy)
}
