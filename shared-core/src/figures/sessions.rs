//! Sessions, hours by machine, and the hours of the week in which somebody was there.
//!
//! A session counts from its beginning to its leaving, or to its last entry while it is open. Two people in the room for an
//! hour are two hours. The hours of the week are the shop's own.

use serde::Serialize;

use super::stretch::weekday_and_hour;
use crate::ids::{MachineId, PersonId};
use crate::ordered::{Map, Set};
use crate::rulebook::Rulebook;
use crate::state::Session;
use crate::sync::shop::UtcOffset;
use crate::time::{HOUR_MS, Instant, Span};

/// Sessions of a stretch.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Sessions {
    /// How many began.
    pub begun: u32,
    /// By how many people.
    pub people: u32,
    /// How many of them are still open.
    pub open: u32,
    /// How long they were there, together.
    pub minutes: i64,
    /// Of that, in each hour of the week: seven days from Monday, 24 hours each.
    pub hours: Vec<Vec<i64>>,
}

/// A machine's use.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct MachineUse {
    /// Which.
    pub machine: MachineId,
    /// How often it was started.
    pub uses: u32,
    /// How long it ran.
    pub minutes: i64,
}

/// What is counted on the way.
#[derive(Clone, Debug, Default)]
pub(super) struct Counted {
    begun: u32,
    open: u32,
    people: Set<PersonId>,
    there: Span,
    machines: Map<MachineId, (u32, Span)>,
    hours: [[i64; 24]; 7],
}

impl Counted {
    /// Counts one session.
    pub(super) fn add(&mut self, session: &Session, offsets: &[UtcOffset]) {
        let end = session.left().unwrap_or(session.last_at).max(session.from);
        self.begun += 1;
        self.open += u32::from(session.is_open());
        self.people.insert(session.who.clone());
        self.there = self.there + (end - session.from);
        self.spread(session.from, end, offsets);
        for use_ in &session.uses {
            let (uses, ran) = self.machines.entry(use_.machine.clone()).or_default();
            *uses += 1;
            *ran = *ran + (session.use_end(use_, end) - use_.from);
        }
    }

    /// Adds a stay to each hour that it touches. The shop's clocks stand at whole quarters of an hour from UTC.
    fn spread(&mut self, from: Instant, to: Instant, offsets: &[UtcOffset]) {
        const QUARTER_MS: i64 = HOUR_MS / 4;
        let mut at = from;
        while at < to {
            let next = Instant::from_ms((at.ms().div_euclid(QUARTER_MS) + 1) * QUARTER_MS).min(to);
            let (day, hour) = weekday_and_hour(offsets, at);
            if let Some(ms) = self.hours.get_mut(day).and_then(|hours| hours.get_mut(hour)) {
                *ms += (next - at).ms();
            }
            at = next;
        }
    }

    /// What was counted.
    pub(super) fn told(mut self, book: &Rulebook) -> (Sessions, Vec<MachineUse>) {
        let whole = |ms: &i64| Span::from_ms(*ms).minutes_up();
        let sessions = Sessions {
            begun: self.begun,
            people: u32::try_from(self.people.len()).unwrap_or(u32::MAX),
            open: self.open,
            minutes: self.there.minutes_up(),
            hours: self.hours.iter().map(|day| day.iter().map(whole).collect()).collect(),
        };
        let known = book.machines.iter().filter_map(|machine| self.machines.remove_entry(&machine.id));
        let mut used: Vec<(MachineId, (u32, Span))> = known.collect();
        used.extend(self.machines);
        let told =
            |(machine, (uses, ran)): (MachineId, (u32, Span))| MachineUse { machine, uses, minutes: ran.minutes_up() };
        (sessions, used.into_iter().map(told).collect())
    }
}
