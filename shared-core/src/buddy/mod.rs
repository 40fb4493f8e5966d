//! Buddy coverage and its gaps.
//!
//! A confirmation at instant c covers [c, min(c + term, the buddy's leaving, the buddy's session end)), if it counts: see
//! [`words`]. A machine that asks for a buddy must be covered at every instant of its use; a gap is a maximal stretch
//! that is not. Nothing here ever says "covered" on the strength of a word older than its term. See DESIGN.md
//! section 4, "Buddy".
//!
//! Half-open stretches throughout: at the very instant of a lapse there is no cover, and a renewal then leaves no gap.

mod heard;
pub mod matching;
#[cfg(test)]
mod tests;
mod words;

pub use self::heard::Heard;
use crate::ids::{MachineId, PersonId, RoomId, SessionId};
use crate::refusal::Refusal;
use crate::rulebook::Rulebook;
use crate::state::{Confirmation, Session, State};
use crate::time::{Instant, Span};
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
pub fn gaps(book: &Rulebook, heard: &Heard, session: &Session, open_end: Instant) -> Vec<Gap> {
    let mut gaps = Vec::new();
    let words = words::that_count(book, heard, session);
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

/// What was heard since a session began.
fn around<'s>(state: &'s State, session: &Session) -> Heard<'s> {
    Heard::since(state, session.from - Span::from_minutes(60))
}

/// Whether `machine` is covered at `now`, and until when without a further word; else since when it is not.
pub fn cover_now(book: &Rulebook, state: &State, session: &Session, machine: &MachineId, now: Instant) -> Cover {
    cover_of(book, &around(state, session), session, machine, now)
}

fn cover_of(book: &Rulebook, heard: &Heard, session: &Session, machine: &MachineId, now: Instant) -> Cover {
    let stretches = cover(&words::that_count(book, heard, session), machine);
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
    standing_of(book, &around(state, session), session, now)
}

/// The same, of what was gathered before.
pub fn standing_of<'a>(
    book: &Rulebook,
    heard: &Heard<'a>,
    session: &Session,
    now: Instant,
) -> Vec<(&'a Confirmation, Instant)> {
    let mut words = words::that_count(book, heard, session);
    words.retain(|(word, until)| word.at <= now && *until > now);
    words
}

/// Whether `buddy` may confirm for a session of `operator` in `room`, as far as this phone knows.
pub fn may_cover(
    viewer: &Viewer,
    heard: &Heard,
    buddy: &PersonId,
    session: &SessionId,
    operator: &PersonId,
    room: &RoomId,
) -> Result<(), Refusal> {
    if buddy == operator {
        return Err(Refusal::OwnBuddy);
    }
    let name = || viewer.members.name(buddy).to_owned();
    let stays = heard.of(buddy).iter().filter(|row| row.word.is_none()).map(|row| row.session);
    if let Some(own) = stays.filter(|own| own.is_open()).max_by_key(|own| own.from) {
        if own.room != *room {
            let room = viewer.book.room(&own.room).map_or_else(|| own.room.to_string(), |room| room.name.clone());
            return Err(Refusal::BuddyElsewhere { buddy: name(), room });
        }
        if !viewer.book.buddy.may_operate && own.running_all().any(|use_| asks_for_buddy(viewer.book, &use_.machine)) {
            return Err(Refusal::BuddyOperates { buddy: name() });
        }
    }
    let covers = viewer.book.buddy.covers;
    if covering(heard, buddy, Some(session)) >= covers as usize {
        return Err(Refusal::BuddyFull { buddy: name(), covers });
    }
    Ok(())
}

/// How many open sessions `buddy` covers now, but for one.
pub fn covering(heard: &Heard, buddy: &PersonId, but: Option<&SessionId>) -> usize {
    let holding = heard.of(buddy).iter().filter(|row| row.holds).map(|row| &row.session.id);
    let mut covered: Vec<&SessionId> = holding.filter(|id| Some(*id) != but).collect();
    covered.sort();
    covered.dedup();
    covered.len()
}

/// Whether a session runs a machine that asks for a buddy and has none now.
pub fn is_bare(viewer: &Viewer, heard: &Heard, session: &Session) -> bool {
    session.running_all().filter(|use_| asks_for_buddy(viewer.book, &use_.machine)).any(|use_| {
        let cover = cover_of(viewer.book, heard, session, &use_.machine, viewer.now);
        matches!(cover, Cover::GapSince(_))
    })
}

fn asks_for_buddy(book: &Rulebook, machine: &MachineId) -> bool {
    book.machine(machine).is_some_and(|machine| machine.buddy)
}
