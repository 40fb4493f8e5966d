//! Four weeks of evenings, a few visits by day, two machines tagged out, and a quiet room now.
//!
//! The newest session is over when the hub starts, so that whoever tries the demo finds nobody in the rooms. One tag
//! stays open, so that a refusal can be seen.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::{Entry, Fact};
use shared_core::ids::{MachineId, PersonId, SessionId};
use shared_core::rulebook::{Machine, Rulebook};
use shared_core::time::{HOUR_MS, Instant, Span};

use super::chance::Chance;
use super::desk;
use super::evening::{Evening, Past};
use crate::shop::Rules;

const DAYS: i64 = 28;
/// For so many days nobody has thought of the weekly rounds: one is late.
const FORGOTTEN_DAYS: i64 = 8;
/// Whoever comes in an evening has left by then.
const LONGEST: Span = Span::from_ms(6 * HOUR_MS);
const DAY: Span = Span::from_ms(24 * HOUR_MS);

/// The whole log, in order of time. Everything in it lies before `now`.
pub(super) fn story(rules: &Rules, seed: u64, now: Instant) -> Vec<Entry> {
    let mut chance = Chance::of(seed);
    let tags = tags(rules, now, &mut chance);
    let mut past = Past {
        tagged: tags.iter().map(Tag::stretch).collect(),
        left_dirty: BTreeMap::new(),
        rounds: BTreeMap::new(),
        rounds_forgotten_from: now - Span::from_ms(DAY.ms() * FORGOTTEN_DAYS),
    };
    let mut entries: Vec<Entry> = tags.iter().flat_map(Tag::entries).collect();
    for days_ago in (0..=DAYS).rev() {
        let midnight = midnight(rules, now - Span::from_ms(DAY.ms() * days_ago));
        for opens in openings(days_ago, midnight, &mut chance).into_iter().filter(|opens| *opens + LONGEST < now) {
            // Nobody is in two rooms at once.
            let mut elsewhere = BTreeSet::new();
            for room in &rules.rulebook.rooms {
                if chance.happens(80) {
                    entries.extend(Evening { rules, room, opens }.play(&mut elsewhere, &mut past, &mut chance));
                }
            }
        }
    }
    entries.sort_by_key(|entry| entry.at);
    entries.extend(desk::entries(rules, &entries, now));
    entries.sort_by_key(|entry| entry.at);
    entries
}

/// When people come that day: in the evening, and on some days late in the morning too.
fn openings(days_ago: i64, midnight: Instant, chance: &mut Chance) -> Vec<Instant> {
    let hour = |hour: i64| midnight + Span::from_ms(hour * HOUR_MS);
    let mut opens = Vec::new();
    if chance.happens(30) {
        opens.push(hour(10) + chance.minutes(0, 45));
    }
    // Yesterday evening is always told: it is what the first screen shows.
    if days_ago <= 1 || chance.happens(85) {
        opens.push(hour(17) + chance.minutes(0, 60));
    }
    opens
}

/// The start of the shop's day.
fn midnight(rules: &Rules, at: Instant) -> Instant {
    let east = Span::from_minutes(i64::from(rules.minutes_east(at)));
    let local = at + east;
    local - Span::from_ms(local.ms().rem_euclid(DAY.ms())) - east
}

/// A machine that could not be used for a while.
struct Tag<'a> {
    machine: &'a Machine,
    who: PersonId,
    session: SessionId,
    problem: &'static str,
    from: Instant,
    cleared: Option<(PersonId, Instant)>,
}

/// One tag that was cleared after three days, and one that is open: the guard of a saw, if the shop has one.
fn tags<'a>(rules: &'a Rules, now: Instant, chance: &mut Chance) -> Vec<Tag<'a>> {
    let book = &rules.rulebook;
    let people: Vec<_> = rules.members.iter().map(|member| member.id.clone()).collect();
    let steward = rules.members.iter().find(|member| member.steward).map(|member| member.id.clone());
    let saw = book.machines.iter().find(|machine| machine.id.as_str().contains("saw")).or(book.machines.last());
    let other = other_machine(book, saw);
    let noon = |days_ago: i64| midnight(rules, now - Span::from_ms(DAY.ms() * days_ago)) + Span::from_ms(12 * HOUR_MS);
    let mut tags = Vec::new();
    for (machine, problem, days_ago, cleared_days_ago) in
        [(other, "belt slips under load", 17, Some(14)), (saw, "blade guard loose", 3, None)]
    {
        let (Some(machine), Some(who)) = (machine, chance.pick(&people).cloned()) else { continue };
        let from = noon(days_ago) + chance.minutes(0, 90);
        let by = steward.clone().unwrap_or_else(|| who.clone());
        let cleared = cleared_days_ago.map(|days_ago| (by, noon(days_ago)));
        let session = SessionId::new(format!("{:016x}", chance.bits()));
        tags.push(Tag { machine, who, session, problem, from, cleared });
    }
    tags
}

fn other_machine<'a>(book: &'a Rulebook, than: Option<&Machine>) -> Option<&'a Machine> {
    let than = than.map(|machine| &machine.id);
    book.machines.iter().find(|machine| Some(&machine.id) != than && !machine.hot_work && machine.noise_dba.is_some())
}

impl Tag<'_> {
    /// From when to when the machine is out of use.
    fn stretch(&self) -> (MachineId, Instant, Option<Instant>) {
        (self.machine.id.clone(), self.from, self.cleared.as_ref().map(|(_, at)| *at))
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |at, who: &PersonId, fact| Entry { at, session: self.session.clone(), who: who.clone(), fact };
        let machine = self.machine.id.clone();
        let tagged = Fact::TaggedOut { machine: machine.clone(), problem: self.problem.into(), photo: None };
        let mut entries = vec![entry(self.from, &self.who, tagged)];
        if let Some((by, at)) = &self.cleared {
            entries.push(entry(*at, by, Fact::TagCleared { machine }));
        }
        entries
    }
}
