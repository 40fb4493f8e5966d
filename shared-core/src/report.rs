//! What a log says about its sessions: done and missing chores, buddy gaps, the watch, exposure, who is in, what is
//! tagged out. The projection behind `sweepbell replay` (DESIGN.md section 5).
//!
//! Asks the rules and adds nothing to them. It knows no clock: an open session is judged at its last entry.

use crate::buddy::{self, Gap, Heard};
use crate::chores;
use crate::exposure::noise::{Noise, noise};
use crate::exposure::vibration::{Vibration, vibration};
use crate::fire_watch::{self, Kept};
use crate::ids::{ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId};
use crate::roster;
use crate::round::Every;
use crate::rulebook::{Round, Rulebook};
use crate::state::{RoundDone, Session, State, Tag};
use crate::time::{Instant, Span};

/// What a log says.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Every session, by id.
    pub sessions: Vec<SessionReport>,
    /// Who has not left, by session id.
    pub in_room: Vec<InRoom>,
    /// What is tagged out, by machine id.
    pub tagged_out: Vec<(MachineId, Tag)>,
    /// The rulebook's rounds, in its order.
    pub rounds: Vec<RoundReport>,
}

/// What a log says about one round. Whether it is late is for whoever knows what time it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoundReport {
    /// Which.
    pub round: RoundId,
    /// Where.
    pub room: RoomId,
    /// When it was last done, and by whom.
    pub done: Option<RoundDone>,
    /// When it is due again; unknown while nobody has done it.
    pub due: Option<Instant>,
}

/// What a log says about one session.
#[derive(Clone, Debug, PartialEq)]
pub struct SessionReport {
    /// Its id.
    pub session: SessionId,
    /// Whose.
    pub who: PersonId,
    /// Where.
    pub room: RoomId,
    /// Since when.
    pub from: Instant,
    /// Until when, if it left.
    pub to: Option<Instant>,
    /// When it meant to be out, as last said.
    pub out_by: Instant,
    /// When it began to sweep.
    pub sweep_from_actual: Option<Instant>,
    /// Chores done, by id.
    pub chores_done: Vec<ChoreId>,
    /// Chores owed and not done, by id; for an open session as if it left at its last entry.
    pub chores_missing: Vec<ChoreId>,
    /// Stretches of use that no buddy covered.
    pub buddy_gaps: Vec<Gap>,
    /// How the fire watch was kept, if there was one.
    pub watch: Option<Kept>,
    /// By how much the phone's wall clock jumped while the session ran, jumps added up. Lengths of time in the session are
    /// right all the same; its clock times may be wrong by this much.
    pub clock_jumped: Span,
    /// Noise, an estimate from typical levels.
    pub noise: Noise,
    /// Hand-arm vibration, an estimate from typical magnitudes.
    pub vibration: Vibration,
}

/// Somebody who has not left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InRoom {
    /// Who.
    pub who: PersonId,
    /// Where.
    pub room: RoomId,
    /// Since when.
    pub since: Instant,
}

/// What a folded log says.
pub fn report(book: &Rulebook, state: &State) -> Report {
    let open = state.sessions.open();
    let heard = Heard::all(state);
    Report {
        sessions: state.sessions.values().map(|session| session_report(book, state, &heard, session)).collect(),
        in_room: open
            .map(|session| InRoom { who: session.who.clone(), room: session.room.clone(), since: session.from })
            .collect(),
        tagged_out: state.tags.iter().map(|(machine, tag)| (machine.clone(), tag.clone())).collect(),
        rounds: book.rounds.iter().map(|round| round_report(state, round)).collect(),
    }
}

fn round_report(state: &State, round: &Round) -> RoundReport {
    let done = state.rounds.get(&round.id).cloned();
    let due = done.as_ref().and_then(|done| Some(Every::parse(&round.every)?.after(done.at)));
    RoundReport { round: round.id.clone(), room: round.room.clone(), done, due }
}

/// The chores that a session owes and has not done if it leaves at `end`, by id.
pub fn missing(book: &Rulebook, state: &State, session: &Session, end: Instant) -> Vec<ChoreId> {
    let last_out = roster::last_out_at(state, session, end);
    let owed = chores::of_session(book, &session.room, session.machines(), last_out);
    let mut missing: Vec<ChoreId> =
        owed.into_iter().map(|due| due.id).filter(|id| !session.chores.contains_key(id)).collect();
    missing.sort();
    missing
}

fn session_report(book: &Rulebook, state: &State, heard: &Heard, session: &Session) -> SessionReport {
    let end = session.left().unwrap_or(session.last_at);
    SessionReport {
        session: session.id.clone(),
        who: session.who.clone(),
        room: session.room.clone(),
        from: session.from,
        to: session.left(),
        out_by: session.out_by,
        sweep_from_actual: session.sweep().map(|sweep| sweep.from),
        chores_done: session.chores.keys().cloned().collect(),
        chores_missing: missing(book, state, session, end),
        buddy_gaps: buddy::gaps(book, heard, session, end),
        watch: fire_watch::kept(book, session),
        clock_jumped: session.clock_jumped(),
        noise: noise(&doses(book, session, end, |machine| machine.noise_dba)),
        vibration: vibration(&doses(book, session, end, |machine| machine.vibration_ms2)),
    }
}

/// The level of each machine used and for how long, where the rulebook gives a level.
pub fn doses(
    book: &Rulebook,
    session: &Session,
    open_end: Instant,
    level: impl Fn(&crate::rulebook::Machine) -> Option<f64>,
) -> Vec<(f64, Span)> {
    session
        .uses
        .iter()
        .filter_map(|use_| {
            let level = level(book.machine(&use_.machine)?)?;
            Some((level, session.use_end(use_, open_end) - use_.from))
        })
        .collect()
}
