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
use super::evening::{Evening, Past};
use crate::shop::Rules;

const DAYS: i64 = 28;
/// Whoever comes in an evening has left by then.
const LONGEST: Span = Span::from_ms(6 * HOUR_MS);
const DAY: Span = Span::from_ms(24 * HOUR_MS);

/// The whole log, in order of time. Everything in it lies before `now`.
pub(super) fn story(rules: &Rules, seed: u64, now: Instant) -> Vec<Entry> {
    let mut chance = Chance::of(seed);
    let tags = tags(rules, now, &mut chance);
    let mut past = Past { tagged: tags.iter().map(Tag::stretch).collect(), left_dirty: BTreeMap::new() };
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
        let tagged = Fact::TaggedOut { machine: machine.clone(), problem: self.problem.into() };
        let mut entries = vec![entry(self.from, &self.who, tagged)];
        if let Some((by, at)) = &self.cleared {
            entries.push(entry(*at, by, Fact::TagCleared { machine }));
        }
        entries
    }
}

#[cfg(test)]
mod tests {
    use shared_core::entry::Condition;
    use shared_core::report::report;
    use shared_core::state::State;

    use super::*;
    use crate::shop::Source;

    fn rules(now: Instant) -> Rules {
        Rules::read(&Source::Demo, now).expect("the demo shop has no mistakes")
    }

    fn check(seed: u64, now: &str) {
        let now = Instant::parse(now).expect(now);
        let rules = rules(now);
        let entries = story(&rules, seed, now);
        assert_eq!(entries, story(&rules, seed, now), "the same seed tells the same story");
        assert!(entries.iter().all(|entry| entry.at < now), "seed {seed}: nothing lies ahead");
        assert!(entries.is_sorted_by_key(|entry| entry.at));
        assert!(entries.first().is_some_and(|first| (now - first.at).ms() > 20 * DAY.ms()), "seed {seed}: weeks back");

        let said = report(&rules.rulebook, &State::of(&entries));
        assert!(said.sessions.len() >= 40, "seed {seed}: {} sessions", said.sessions.len());
        assert_eq!(said.in_room, vec![], "seed {seed}: the rooms are quiet now");
        let tags: Vec<_> = said.tagged_out.iter().map(|(_, tag)| tag.problem.as_str()).collect();
        assert_eq!(tags, vec!["blade guard loose"], "seed {seed}");
        let sloppy = said.sessions.iter().filter(|session| !session.chores_missing.is_empty()).count();
        assert!(sloppy > 0 && sloppy * 3 < said.sessions.len(), "seed {seed}: {sloppy} sweeps left something");
        for (n, one) in said.sessions.iter().enumerate() {
            let meets = |other: &&shared_core::report::SessionReport| {
                other.who == one.who && Some(other.from) < one.to && other.to > Some(one.from)
            };
            assert_eq!(said.sessions.iter().skip(n + 1).find(meets), None, "seed {seed}: {} is in two places", one.who);
        }
        check_uses(seed, &rules, &entries);
    }

    /// Nobody starts what is tagged out, in use, elsewhere or not signed off.
    fn check_uses(seed: u64, rules: &Rules, entries: &[Entry]) {
        let (mut tagged, mut running, mut rooms) = (BTreeSet::new(), BTreeSet::new(), BTreeMap::new());
        for Entry { at, session, who, fact } in entries {
            match fact {
                Fact::Entered { room, .. } => drop(rooms.insert(session, room)),
                Fact::TaggedOut { machine, .. } => drop(tagged.insert(machine)),
                Fact::TagCleared { machine } => drop(tagged.remove(machine)),
                Fact::MachineStopped { machine } => assert!(running.remove(machine), "seed {seed}: {machine} at {at}"),
                Fact::MachineStarted { machine: id, .. } => {
                    let machine = rules.rulebook.machine(id).expect("a machine of the shop");
                    let member = rules.members.get(who).expect("a member");
                    let until = member.signed_off.get(&machine.training);
                    assert!(until.is_some_and(|until| until > at), "seed {seed}: {who} at {id}");
                    assert_eq!(rooms.get(session), Some(&&machine.room), "seed {seed}: {id} at {at}");
                    assert!(!tagged.contains(id) && running.insert(id), "seed {seed}: {id} at {at}");
                }
                _ => {}
            }
        }
    }

    #[test]
    fn every_seed_tells_evenings_that_could_have_been() {
        for seed in 1..=12 {
            check(seed, "2026-11-25T20:30:00Z");
        }
        // In the small hours, and just after the clocks went forward.
        check(1, "2026-11-25T00:10:00Z");
        check(1, "2027-03-28T01:30:00Z");
    }

    #[test]
    fn failings_happen_in_some_of_the_stories() {
        let now = Instant::parse("2026-11-25T20:30:00Z").expect("an instant");
        let rules = rules(now);
        let (mut gaps, mut cut_short, mut messes) = (0, 0, 0);
        for seed in 1..=6 {
            let entries = story(&rules, seed, now);
            let said = report(&rules.rulebook, &State::of(&entries));
            gaps += said.sessions.iter().map(|session| session.buddy_gaps.len()).sum::<usize>();
            let kept = said.sessions.iter().filter_map(|session| session.watch.as_ref());
            cut_short += kept.filter(|kept| kept.cut_short_minutes > 0).count();
            let is_mess = |entry: &&Entry| matches!(&entry.fact, Fact::Found { condition: Condition::Mess, .. });
            messes += entries.iter().filter(is_mess).count();
        }
        assert!(gaps > 6 && cut_short > 6 && messes > 6, "{gaps} gaps, {cut_short} cut short, {messes} messes");
    }
}
