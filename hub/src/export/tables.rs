//! The tables: one for each thing that is counted, one row for each time that it happened.
//!
//! What follows from rules (missing chores, gaps, the watch) stands as `sweepbell replay` says it. A column is never taken
//! away or given another meaning; new ones come last.

use shared_core::entry::{Condition, Entry, Fact, Place};
use shared_core::report::{SessionReport, report};
use shared_core::time::{Instant, Span};

use super::Known;
use super::table::{Cell, table};

/// One table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Table {
    /// Each session, from coming to leaving.
    Sessions,
    /// Each use of a machine.
    Uses,
    /// Each chore that was done.
    Chores,
    /// Each round that was done.
    Rounds,
    /// Each thing that was found.
    Finds,
    /// Each tag that was put on or taken off.
    Tags,
    /// Each incident, in its teller's words.
    Incidents,
}

impl Table {
    /// All of them.
    pub(crate) const ALL: [Self; 7] =
        [Self::Sessions, Self::Uses, Self::Chores, Self::Rounds, Self::Finds, Self::Tags, Self::Incidents];

    /// What it is called.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Sessions => "sessions",
            Self::Uses => "uses",
            Self::Chores => "chores",
            Self::Rounds => "rounds",
            Self::Finds => "finds",
            Self::Tags => "tags",
            Self::Incidents => "incidents",
        }
    }

    /// The one of this name.
    pub(crate) fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|table| table.name() == name)
    }

    pub(super) fn write(self, known: &Known<'_>) -> String {
        match self {
            Self::Sessions => sessions(known),
            Self::Uses => uses(known),
            Self::Chores => said(known, &["session", "who", "chore", "at", "minutes"], |entry| match &entry.fact {
                Fact::ChoreDone { chore, minutes, .. } => {
                    let minutes = minutes.map_or(Cell::Empty, |minutes| Cell::Plain(minutes.to_string()));
                    Some(vec![session(entry), who(entry), chore.as_str().into(), entry.at.into(), minutes])
                }
                _ => None,
            }),
            Self::Rounds => said(known, &["at", "who", "round", "room", "source"], |entry| match &entry.fact {
                Fact::RoundDone { round } => {
                    let known = known.book.round(round);
                    let room = known.map(|known| known.room.as_str());
                    let source = known.and_then(|known| known.source.as_deref());
                    Some(vec![entry.at.into(), who(entry), round.as_str().into(), room.into(), source.into()])
                }
                _ => None,
            }),
            Self::Finds => said(known, &["at", "who", "machine", "room", "state", "note"], |entry| match &entry.fact {
                Fact::Found { place, condition, note } => {
                    let (machine, room) = match place {
                        Place::Machine(machine) => (Some(machine.as_str()), None),
                        Place::Room(room) => (None, Some(room.as_str())),
                    };
                    let state = match condition {
                        Condition::Clean => "clean",
                        Condition::Mess => "mess",
                    };
                    let note = note.as_deref().into();
                    Some(vec![entry.at.into(), who(entry), machine.into(), room.into(), state.into(), note])
                }
                _ => None,
            }),
            Self::Tags => said(known, &["at", "who", "machine", "what", "problem"], |entry| {
                let (machine, what, problem) = match &entry.fact {
                    Fact::TaggedOut { machine, problem, .. } => (machine, "tagged_out", Some(problem.as_str())),
                    Fact::TagCleared { machine } => (machine, "tag_cleared", None),
                    _ => return None,
                };
                Some(vec![entry.at.into(), who(entry), machine.as_str().into(), what.into(), problem.into()])
            }),
            Self::Incidents => said(known, &["at", "who", "session", "note"], |entry| match &entry.fact {
                Fact::Incident { note, .. } => {
                    Some(vec![entry.at.into(), who(entry), session(entry), note.as_str().into()])
                }
                _ => None,
            }),
        }
    }
}

fn session(entry: &Entry) -> Cell {
    entry.session.as_str().into()
}

fn who(entry: &Entry) -> Cell {
    entry.who.as_str().into()
}

/// A row for each entry that makes one.
fn said(known: &Known<'_>, columns: &[&str], row: impl Fn(&Entry) -> Option<Vec<Cell>>) -> String {
    let counted = known.entries.iter().filter(|entry| known.counts(entry.at));
    table(columns, counted.filter_map(|entry| row(entry)))
}

fn sessions(known: &Known<'_>) -> String {
    let columns = [
        "session",
        "who",
        "room",
        "from",
        "to",
        "out_by",
        "sweep_from",
        "minutes",
        "chores_done",
        "chores_missing",
        "buddy_gaps",
        "buddy_gap_minutes",
        "watch_needed_until",
        "watch_kept_until",
        "watch_cut_short_minutes",
        "clock_jumped_seconds",
    ];
    let mut said = report(known.book, &known.state).sessions;
    said.retain(|session| known.counts(session.from));
    said.sort_by(|a, b| (a.from, &a.session).cmp(&(b.from, &b.session)));
    table(&columns, said.iter().map(session_row))
}

fn session_row(said: &SessionReport) -> Vec<Cell> {
    let list = |ids: &[shared_core::ids::ChoreId]| {
        ids.iter().map(shared_core::ids::ChoreId::as_str).collect::<Vec<_>>().join(" ").as_str().into()
    };
    let bare: Span = said.buddy_gaps.iter().map(|gap| gap.to - gap.from).sum();
    let watch = said.watch.as_ref();
    vec![
        said.session.as_str().into(),
        said.who.as_str().into(),
        said.room.as_str().into(),
        said.from.into(),
        said.to.into(),
        said.out_by.into(),
        said.sweep_from_actual.into(),
        said.to.map(|to| to - said.from).into(),
        list(&said.chores_done),
        list(&said.chores_missing),
        said.buddy_gaps.len().into(),
        bare.into(),
        watch.map(|watch| watch.needed_until).into(),
        watch.map(|watch| watch.kept_until).into(),
        watch.map(|watch| Span::from_minutes(watch.cut_short_minutes)).into(),
        Cell::Plain((said.clock_jumped.ms() / 1000).to_string()),
    ]
}

fn uses(known: &Known<'_>) -> String {
    let mut rows: Vec<(Instant, Vec<Cell>)> = Vec::new();
    for session in known.state.sessions.values().filter(|session| known.counts(session.from)) {
        for use_ in &session.uses {
            // Of a machine that still runs nobody knows until when.
            let to = use_.to.or(session.left()).map(|_| session.use_end(use_, session.last_at));
            let cells = vec![
                session.id.as_str().into(),
                session.who.as_str().into(),
                session.room.as_str().into(),
                use_.machine.as_str().into(),
                use_.material.as_deref().into(),
                use_.from.into(),
                to.into(),
                to.map(|to| to - use_.from).into(),
            ];
            rows.push((use_.from, cells));
        }
    }
    rows.sort_by_key(|(from, _)| *from);
    let columns = ["session", "who", "room", "machine", "material", "from", "to", "minutes"];
    table(&columns, rows.into_iter().map(|(_, cells)| cells))
}
