//! The story holds together: nobody in two places, failings in some evenings, chores whose minutes can be learned, rounds that
//! are kept and one that is late.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::calibration::learning::{Learning, Written};
use shared_core::calibration::{Tally, calibrate};
use shared_core::entry::{Condition, Entry, Fact};
use shared_core::estimate::{chore_minutes, quantile_type7};
use shared_core::ids::ChoreId;
use shared_core::report::report;
use shared_core::round::{Every, Standing, standing};
use shared_core::state::State;
use shared_core::time::{Instant, Span};

use super::sitting::pace;
use super::weeks::story;
use crate::shop::{Rules, Source};

const DAY: Span = Span::from_minutes(24 * 60);

fn rules(now: Instant) -> Rules {
    Rules::read(&Source::Demo, None, now).expect("the demo shop has no mistakes")
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

/// A chore of the demo shop, and its observed minutes in the story of a seed, oldest first.
fn observed(rules: &Rules, seed: u64, id: &ChoreId) -> Vec<f64> {
    let minutes = |entry: &Entry| match &entry.fact {
        Fact::ChoreDone { chore, minutes, .. } if chore == id => *minutes,
        _ => None,
    };
    story(rules, seed, evening()).iter().filter_map(minutes).collect()
}

fn evening() -> Instant {
    Instant::parse("2026-11-25T20:30:00Z").expect("an instant")
}

/// The minutes of a room's chore go from what the rulebook wrote to the asked quantile of how long it really takes.
#[track_caller]
fn check_learning(room: &str, chore: &str, longer: bool) {
    let rules = rules(evening());
    let reserve = &rules.rulebook.reserve;
    let room = rules.rulebook.room(&room.into()).expect("a room");
    let written = room.chores.iter().find(|one| one.id.as_str() == chore).expect("a chore").minutes_milli / 1000;
    let id = ChoreId::of(room.id.as_str(), chore);
    let (least, longest) = pace(&id);
    #[expect(clippy::cast_precision_loss, reason = "percent and minutes")]
    let asked = written as f64 * (least as f64 + reserve.quantile * (longest - least) as f64) / 100.0;
    let (mut early, mut late) = (0.0, 0.0);
    for seed in 1..=8 {
        let all = observed(&rules, seed, &id);
        assert!(all.len() >= 20, "seed {seed}: only {} times", all.len());
        let after = |count: usize| chore_minutes(written, all.get(..count).expect("so many"), reserve);
        let path: Vec<i64> = (0..=all.len()).map(after).collect();
        assert_eq!(path.first(), Some(&written));
        let learned = path.last().copied().expect("a path");
        #[expect(clippy::cast_precision_loss, reason = "minutes")]
        let off = (learned as f64 - asked).abs();
        assert!(off <= 1.0, "seed {seed}: {learned} learned, {asked} asked: {path:?}");
        // From its own side, and never far past the mark.
        assert!(path.iter().all(|minutes| if longer { *minutes >= written } else { *minutes <= written }), "{path:?}");
        // Before rounding: nearer with thirty evenings than with five.
        let before_rounding = |count: usize| {
            let prior = std::iter::repeat_n(i32::try_from(written).expect("few").into(), reserve.prior_weight as usize);
            let mut sample: Vec<f64> = all.iter().take(count).copied().chain(prior).collect();
            sample.sort_by(f64::total_cmp);
            (quantile_type7(&sample, reserve.quantile).expect("a sample") - asked).abs()
        };
        early += before_rounding(5);
        late += before_rounding(all.len());
    }
    assert!(late * 2.0 < early, "{early} minutes off at first, {late} in the end, over eight stories");
}

#[test]
fn minutes_that_were_written_too_short_are_learned() {
    check_learning("forge", "floor", true);
}

#[test]
fn minutes_that_were_written_too_long_are_learned() {
    check_learning("fitting", "floor", false);
}

/// What is known of a chore that was timed often enough to say, in the story of a seed.
fn learned(rules: &Rules, seed: u64) -> Vec<(ChoreId, Learning)> {
    let said = calibrate(&rules.rulebook, &story(rules, seed, evening()));
    let often = said.chores.into_iter().filter(|(_, timed)| timed.len() >= 20);
    often.filter_map(|(id, timed)| Some((id, Learning::of(&timed, &rules.rulebook.reserve)?))).collect()
}

/// DESIGN.md section 4, "Chore minutes", chore by chore: at the end of the log what is planned is nearer to the asked
/// quantile of what was seen than what the rulebook writes, by half at least, and on the rulebook's side of it.
#[test]
fn the_reserve_converges_from_both_sides() {
    let rules = rules(evening());
    let (mut short, mut long) = ((0, Tally::default(), Tally::default()), (0, Tally::default(), Tally::default()));
    for seed in 1..=8 {
        for (id, one) in learned(&rules, seed) {
            let (first, now) = (one.off_at_first(), one.off_now());
            // What was written right has nothing to learn; nothing of the sort is in this story.
            assert!(first.abs() > 0.2, "seed {seed}, {id}: {first} minutes off at first");
            assert!(now.abs() * 2.0 <= first.abs(), "seed {seed}, {id}: {first} minutes off at first, {now} now");
            // Where the rulebook's minutes lie far off, so does the next of those seen: it may be passed by a breath.
            let past = if first < 0.0 { now } else { -now };
            assert!(past <= 0.2, "seed {seed}, {id}: {first} minutes off at first, {now} now");
            let (chores, at_first, since) = if one.written() == Written::TooShort { &mut short } else { &mut long };
            *chores += 1;
            *at_first = both(*at_first, one.at_first);
            *since = both(*since, one.since);
        }
    }
    assert!(short.0 >= 16 && long.0 >= 64, "{} written too short, {} too long", short.0, long.0);
    // Too few in time at first, and too many: then what was asked or somewhat more, being rounded up.
    let asked = 80;
    assert!(share(short.1) < asked && (asked..95).contains(&share(short.2)), "{short:?}");
    assert!(share(long.1) > asked && share(long.2) >= asked, "{long:?}");
}

/// Whole sweeps end in time oftener than each of their chores: not all are slow on the same evening.
#[test]
fn whole_sweeps_do_better_than_their_chores() {
    let rules = rules(evening());
    let (mut sweeps, mut chores) = (Tally::default(), Tally::default());
    for seed in 1..=8 {
        let said = calibrate(&rules.rulebook, &story(&rules, seed, evening()));
        sweeps = both(sweeps, said.sweeps);
        chores = said.chores.values().map(|timed| Tally::of(timed)).fold(chores, both);
    }
    assert!(share(sweeps) >= share(chores) && share(chores) >= 80, "{sweeps:?} {chores:?}");
}

fn both(one: Tally, other: Tally) -> Tally {
    Tally { within: one.within + other.within, of: one.of + other.of }
}

/// In percent, rounded down.
fn share(tally: Tally) -> u64 {
    tally.within * 100 / tally.of
}

#[test]
fn rounds_are_kept_and_one_is_late() {
    let rules = rules(evening());
    for seed in 1..=6 {
        let state = State::of(&story(&rules, seed, evening()));
        let mut stands: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        for round in &rules.rulebook.rounds {
            let every = Every::parse(&round.every).expect("linted");
            let done = state.rounds.get(&round.id).map(|done| done.at);
            let stand = match standing(every, done, evening()) {
                Standing::NeverDone => "never done",
                Standing::Done { .. } | Standing::Due { .. } => "kept",
                Standing::Overdue { .. } => "late",
            };
            stands.entry(stand).or_default().insert(round.id.as_str());
        }
        assert!(stands["late"].contains("wheel_gaps"), "seed {seed}: {stands:?}");
        assert!(stands["kept"].contains("extinguishers_forge"), "seed {seed}: {stands:?}");
        assert!(stands["never done"].contains("extinguishers_yearly"), "seed {seed}: {stands:?}");
    }
}
