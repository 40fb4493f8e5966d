//! Commands into facts or refusals, one file a command.
//!
//! [`decide`] never changes anything: what it answers becomes true once the caller has made it durable and folded it.
//! The order of refusals in a file is the order in which they are asked; for a machine's start that order is the rule.

pub mod arrive;
pub mod clear_tag;
pub mod confirm_buddy;
pub mod end_buddy;
pub mod finish_chore;
pub mod finish_round;
pub mod leave;
pub mod move_out_by;
pub mod note;
pub mod note_published;
pub mod report_found;
pub mod report_incident;
pub mod start_machine;
pub mod start_sweep;
pub mod stop_machine;
pub mod tag_out;
#[cfg(test)]
mod tests;
pub mod walk_watch;

use crate::command::Command;
use crate::entry::{Entry, Fact, Matter, Place};
use crate::ids::{MachineId, SessionId};
use crate::refusal::Refusal;
use crate::repair;
use crate::state::Session;
use crate::time::Instant;
use crate::viewer::Viewer;

/// The longest words that are kept, in characters.
pub const WORDS_MOST: usize = 500;

/// What follows from a command, as the viewer knows the world: entries to be made durable together, or why not.
pub fn decide(viewer: &Viewer, command: Command) -> Result<Vec<Entry>, Refusal> {
    let facts = match command {
        Command::Arrive { session, room, entered_at, out_by, attested } => {
            return arrive::decide(viewer, &session, &room, entered_at, out_by, attested);
        }
        Command::StartMachine { machine, material } => start_machine::decide(viewer, &machine, material.as_deref()),
        Command::StopMachine { machine } => stop_machine::decide(viewer, machine),
        Command::ConfirmBuddy { buddy, machine, proof, given } => {
            confirm_buddy::decide(viewer, buddy, machine, proof, given)
        }
        Command::EndBuddy { buddy } => end_buddy::decide(viewer, buddy),
        Command::MoveOutBy { out_by } => move_out_by::decide(viewer, out_by),
        Command::StartSweep { crew } => start_sweep::decide(viewer, crew),
        Command::FinishChore { chore, photo } => finish_chore::decide(viewer, chore, photo),
        Command::FinishRound { round } => finish_round::decide(viewer, round),
        Command::WalkWatch => walk_watch::decide(viewer),
        Command::ReportFound { place, condition, note } => {
            report_found::decide(viewer, place, condition, note.as_deref())
        }
        Command::TagOut { machine, problem, photo } => tag_out::decide(viewer, machine, &problem, photo),
        Command::ClearTag { machine } => clear_tag::decide(viewer, machine),
        Command::ReportIncident { note, told } => report_incident::decide(viewer, &note, told),
        Command::Note { of, step, note } => note::decide(viewer, of, step, note.as_deref()),
        Command::NotePublished { number, book, note } => note_published::decide(viewer, number, book, note.as_deref()),
        Command::NoteJump { seconds } => open(viewer).map(|_| vec![Fact::ClockJumped { seconds }]),
        Command::SetTimer { rings_at } => open(viewer).map(|_| vec![Fact::TimerSet { rings_at }]),
        Command::CallClear { room } => match viewer.book.room(&room) {
            Some(_) => Ok(vec![Fact::ClearCalled { room }]),
            None => Err(Refusal::NoSuchRoom { room }),
        },
        Command::HearBell => open(viewer).map(|_| vec![Fact::BellHeard]),
        Command::NameOnBoard { may } => open(viewer).map(|_| vec![Fact::BoardName { may }]),
        Command::Leave => leave::decide(viewer, None),
        Command::LeaveUndone { why } => leave::decide(viewer, Some(why)),
    }?;
    Ok(entries(viewer, facts))
}

/// Facts said now, in this viewer's session if there is one.
fn entries(viewer: &Viewer, facts: Vec<Fact>) -> Vec<Entry> {
    let session = viewer.open_session();
    // Two phones may disagree about now; one session's entries never run backwards.
    let at = session.map_or(viewer.now, |session| viewer.now.max(session.last_at));
    let id = session.map_or_else(SessionId::outside, |session| session.id.clone());
    let said = |fact| match machine_of(&fact).and_then(|machine| repair::newest_word(viewer.state, machine)) {
        // A word about a tag answers those before it, also where a phone's clock says otherwise: a tag must not be undone by
        // words that are older than it. It stands outside the session, whose own times are right by one clock.
        Some(word) if word >= at => entry(viewer, &SessionId::outside(), word.next(), fact),
        _ => entry(viewer, &id, at, fact),
    };
    facts.into_iter().map(said).collect()
}

/// The machine whose tag is put on, talked about or taken off.
fn machine_of(fact: &Fact) -> Option<&MachineId> {
    match fact {
        Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => Some(machine),
        Fact::Noted { of, .. } => match &of.matter {
            Matter::Tag(machine) => Some(machine),
            _ => None,
        },
        _ => None,
    }
}

fn entry(viewer: &Viewer, session: &SessionId, at: Instant, fact: Fact) -> Entry {
    Entry { at, session: session.clone(), who: viewer.me.clone(), fact }
}

/// This viewer's session, or a refusal that says whether there was one.
fn open<'a>(viewer: &Viewer<'a>) -> Result<&'a Session, Refusal> {
    let known = viewer.session.and_then(|id| viewer.state.sessions.get(id)).ok_or(Refusal::NoSession)?;
    if known.is_open() { Ok(known) } else { Err(Refusal::HasLeft) }
}

/// Whether a place is one of this shop's.
fn is_here(viewer: &Viewer, place: &Place) -> Result<(), Refusal> {
    match place {
        Place::Machine(id) if viewer.book.machine(id).is_none() => Err(Refusal::NoSuchMachine { machine: id.clone() }),
        Place::Room(id) if viewer.book.room(id).is_none() => Err(Refusal::NoSuchRoom { room: id.clone() }),
        Place::Machine(_) | Place::Room(_) => Ok(()),
    }
}

/// Words that somebody may have written: none where there is nothing but blanks.
fn maybe_words(text: Option<&str>) -> Result<Option<String>, Refusal> {
    text.filter(|text| !text.trim().is_empty()).map(words).transpose()
}

/// Words that somebody wrote: trimmed, not empty, not too long.
fn words(text: &str) -> Result<String, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        Err(Refusal::NoWords)
    } else if text.chars().count() > WORDS_MOST {
        Err(Refusal::TooLong { most: WORDS_MOST })
    } else {
        Ok(text.to_owned())
    }
}
