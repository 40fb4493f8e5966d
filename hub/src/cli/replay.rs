//! `sweepbell replay SHOP.toml LOG.jsonl`: what a log says about its sessions, the rooms and the tags.
//!
//! Folds the lines and asks [`shared_core::report`]; writes the contract's fields. DESIGN.md section 5.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;
use shared_core::ids::{ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId};
use shared_core::report::{RoundReport, SessionReport, report};
use shared_core::state::State;
use shared_core::time::Instant;

use super::{Failure, answer, read_log, read_rulebook};

/// Fold a log, and say what it says.
#[derive(Args, Debug)]
pub(super) struct Replay {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// The log, one entry a line.
    #[arg(value_name = "LOG.jsonl")]
    log: PathBuf,
}

#[derive(Debug, Serialize)]
struct Answer {
    sessions: Vec<Session>,
    in_room: Vec<InRoom>,
    tagged_out: Vec<TaggedOut>,
    rounds: Vec<Round>,
}

#[derive(Debug, Serialize)]
#[expect(clippy::struct_field_names, reason = "the contract's names")]
struct Session {
    session: SessionId,
    who: PersonId,
    room: RoomId,
    from: Instant,
    to: Option<Instant>,
    out_by: Instant,
    sweep_from_actual: Option<Instant>,
    chores_done: Vec<ChoreId>,
    chores_missing: Vec<ChoreId>,
    buddy_gaps: Vec<Gap>,
    /// Lines of it that were erased because they named a buddy who wanted that: a gap may be what they covered.
    lines_erased: usize,
    watch: Option<Watch>,
    clock_jumped_seconds: i64,
    noise: Noise,
    vibration: Vibration,
}

#[derive(Debug, Serialize)]
#[expect(clippy::struct_field_names, reason = "named like a session's `session`")]
struct Round {
    round: RoundId,
    room: RoomId,
    done_at: Option<Instant>,
    by: Option<PersonId>,
    due: Option<Instant>,
}

#[derive(Debug, Serialize)]
struct Gap {
    machine: MachineId,
    from: Instant,
    to: Instant,
}

#[derive(Debug, Serialize)]
struct Watch {
    needed_until: Instant,
    kept_until: Instant,
    cut_short_minutes: i64,
}

#[derive(Debug, Serialize)]
struct Noise {
    osha_dose_pct: f64,
    osha_twa_dba: Option<f64>,
    niosh_dose_pct: f64,
    lex_8h_dba: Option<f64>,
}

#[derive(Debug, Serialize)]
struct Vibration {
    points: f64,
    a8_ms2: f64,
}

#[derive(Debug, Serialize)]
struct InRoom {
    who: PersonId,
    room: RoomId,
    since: Instant,
}

#[derive(Debug, Serialize)]
struct TaggedOut {
    machine: MachineId,
    problem: String,
    since: Instant,
}

impl Replay {
    /// Folds and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let book = read_rulebook(&self.shop)?;
        let log = read_log(&self.log)?;
        let said = report(&book, &State::of(&log.entries));
        let lines_erased = |of: &SessionId| log.erased.iter().filter(|left| left.session.as_ref() == Some(of)).count();
        let in_room = said.in_room.into_iter().map(|one| InRoom { who: one.who, room: one.room, since: one.since });
        let tagged_out = said.tagged_out.into_iter();
        let tagged_out = tagged_out.map(|(machine, tag)| TaggedOut { machine, problem: tag.problem, since: tag.since });
        answer(&Answer {
            sessions: said
                .sessions
                .into_iter()
                .map(|it| Session { lines_erased: lines_erased(&it.session), ..it.into() })
                .collect(),
            in_room: in_room.collect(),
            tagged_out: tagged_out.collect(),
            rounds: said.rounds.into_iter().map(Round::from).collect(),
        })
    }
}

impl From<RoundReport> for Round {
    fn from(said: RoundReport) -> Self {
        let (done_at, by) = said.done.map(|done| (done.at, done.by)).unzip();
        Self { round: said.round, room: said.room, done_at, by, due: said.due }
    }
}

impl From<SessionReport> for Session {
    fn from(said: SessionReport) -> Self {
        let gaps = said.buddy_gaps.into_iter();
        let (noise, vibration) = (said.noise, said.vibration);
        Self {
            session: said.session,
            who: said.who,
            room: said.room,
            from: said.from,
            to: said.to,
            out_by: said.out_by,
            sweep_from_actual: said.sweep_from_actual,
            chores_done: said.chores_done,
            chores_missing: said.chores_missing,
            buddy_gaps: gaps.map(|gap| Gap { machine: gap.machine, from: gap.from, to: gap.to }).collect(),
            lines_erased: 0,
            watch: said.watch.map(|kept| Watch {
                needed_until: kept.needed_until,
                kept_until: kept.kept_until,
                cut_short_minutes: kept.cut_short_minutes,
            }),
            clock_jumped_seconds: said.clock_jumped.ms() / 1000,
            noise: Noise {
                osha_dose_pct: noise.osha_dose_pct,
                osha_twa_dba: noise.osha_twa_dba,
                niosh_dose_pct: noise.niosh_dose_pct,
                lex_8h_dba: noise.lex_8h_dba,
            },
            vibration: Vibration { points: vibration.points, a8_ms2: vibration.a8_ms2 },
        }
    }
}
