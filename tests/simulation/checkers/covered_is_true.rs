//! "Covered" is true: never shown without a word that a buddy really gave, for this session, in this room, and that holds;
//! and every stretch of a buddy machine's use that nobody covered is a gap in the report.
//!
//! The reading is [`plain`], the proof is opened and held against what people really answered.

use shared_core::code::answer::{Answer, Kind};
use shared_core::entry::{Entry, Fact, Given};
use shared_core::ids::MachineId;
use shared_core::report::report;
use shared_core::rulebook::Rulebook;
use shared_core::state::State;
use shared_core::time::{Instant, Span};
use shared_core::view::bench::{BenchView, Cover, MachineRow as Row, Standing};

use super::plain::{self, Log, Stay};
use crate::world::World;

pub(crate) fn check(world: &mut World, phone: usize, bench: &BenchView) {
    let Some(page) = &world.phones[phone].page else { return };
    let Some(session) = &page.session else { return };
    let stay = Stay { session: session.clone(), who: world.phones[phone].me.clone() };
    let (book, now) = (&world.shop.books[page.book].rules, page.steady.now());
    let (mut covered, mut bare) = (0, 0);
    let told = |row: &Row| matches!(row.standing, Standing::Running { covered_until: Some(_), .. });
    if !bench.machines.iter().any(told) {
        return;
    }
    let log = Log::of(&page.entries);
    for row in &bench.machines {
        let Standing::Running { covered_until: Some(cover), .. } = row.standing else { continue };
        let plainly = |t| log.covered(book, &stay, &row.id, t);
        match cover {
            Cover::Until(until) => {
                covered += 1;
                let between = plain::moments(book, &page.entries).into_iter().filter(|t| now < *t && *t < until);
                for t in [now, until - Span::from_ms(1)].into_iter().chain(between) {
                    assert!(plainly(t), "phone {phone} shows {} covered until {until} and at {t} it is not", row.id);
                }
                assert!(!plainly(until), "phone {phone}: cover of {} ends later than {until}", row.id);
            }
            Cover::GapSince(since) => {
                bare += 1;
                assert!(!plainly(now), "phone {phone} shows {} uncovered at {now} and it is not", row.id);
                assert!(since <= now && !plainly(since), "phone {phone}: no gap of {} at {since}", row.id);
                assert!(
                    now == since || !plainly(Instant::from_ms(i64::midpoint(since.ms(), now.ms()))),
                    "phone {phone}: the gap of {} did not last from {since} on",
                    row.id
                );
            }
        }
    }
    world.tally.add("cover: shown as covered", covered);
    world.tally.add("cover: shown as a gap", bare);
}

/// Every word in the hub's log was really given; and the report's gaps are what plainly was not covered.
pub(crate) fn gaps(world: &mut World) {
    let entries: Vec<Entry> = world.hub.store.entries().cloned().collect();
    for entry in &entries {
        really_given(world, entry);
    }
    let gaps = report_is_plain(&world.shop.books[world.hub.book].rules, &entries);
    world.tally.add("cover: gaps in reports", gaps);
    for number in 0..world.phones.len() {
        if let Some(page) = &world.phones[number].page {
            report_is_plain(&world.shop.books[page.book].rules, &page.entries);
        }
    }
}

fn really_given(world: &World, entry: &Entry) {
    let Fact::BuddyConfirmed { buddy, proof, .. } = &entry.fact else { return };
    let log = Log::of(world.hub.store.entries().filter(|other| other.session == entry.session));
    let stay = Stay { session: entry.session.clone(), who: entry.who.clone() };
    let begun = log.begun().find(|(begun, _)| **begun == stay);
    // A liar may write what they like about a session of their own.
    let honest = world.phones.iter().any(|phone| phone.me == entry.who);
    let Some(room) = begun.map(|(_, room)| room).filter(|_| honest) else { return };
    let answer = proof.as_deref().and_then(Answer::read).expect("a word without proof is nobody's");
    assert!(answer.is_signed_for(&stay.who, room), "the proof of {entry:?} is not signed for it");
    assert_eq!((&answer.said.buddy, &answer.said.session), (buddy, &entry.session));
    assert_eq!(world.shop.devices.get(&answer.said.device), Some(buddy), "the proof is another phone's");
    let words = world.given.words(&answer).expect("somebody really gave this answer");
    assert_eq!((&words.buddy, &words.operator, &words.room, words.kind), (buddy, &stay.who, room, Kind::Here));
}

fn report_is_plain(book: &Rulebook, entries: &[Entry]) -> u64 {
    let state = State::of(entries);
    let (moments, log) = (plain::moments(book, entries), Log::of(entries));
    let mut gaps = 0;
    for session in report(book, &state).sessions {
        let stay = Stay::of(&session.session, &session.who);
        let last = log.said_in(&stay).iter().map(|entry| entry.at).max();
        let end = session.to.or(last).unwrap_or(session.from);
        gaps += session.buddy_gaps.len() as u64;
        for (machine, from, to) in log.uses(&stay) {
            if !book.machine(machine).is_some_and(|machine| machine.buddy) {
                continue;
            }
            let to = to.or(session.to).unwrap_or(end).max(*from);
            let inside = moments.iter().copied().filter(|t| *from <= *t && *t < to);
            for t in inside {
                let told = session.buddy_gaps.iter().any(|gap| gap.machine == *machine && gap.from <= t && t < gap.to);
                let bare = !log.covered(book, &stay, machine, t);
                assert_eq!(
                    told, bare,
                    "{machine} of session {} at {t}: told as a gap, and plainly one",
                    session.session
                );
            }
        }
    }
    gaps
}

/// Where the plain reading was wrong once: words of a stay that began only later keep no buddy busy.
#[test]
fn a_word_counts_from_the_beginning_of_its_stay() {
    let book = &crate::shop::Shop::demo().books[0].rules;
    let (t, machine) = (|minute| Instant::from_ms(0) + Span::from_minutes(minute), MachineId::from("welding"));
    let said =
        |session: &str, minute, fact| Entry { at: t(minute), session: session.into(), who: "joris".into(), fact };
    let entered = Fact::Entered { room: "forge".into(), out_by: t(600) };
    let word = Fact::BuddyConfirmed { buddy: "wout".into(), machine: None, proof: None, given: Given::OnTheirWord };
    let started = Fact::MachineStarted { machine: machine.clone(), material: None };
    let stay = Stay { session: "two".into(), who: "joris".into() };
    for (began, covered, gaps) in [(0, false, 1), (6, true, 0)] {
        let mut log = vec![
            said("one", began, entered.clone()),
            said("one", 3, word.clone()),
            said("two", 1, entered.clone()),
            said("two", 4, word.clone()),
            said("two", 5, started.clone()),
            said("two", 8, Fact::MachineStopped { machine: machine.clone() }),
        ];
        log.sort_by_key(|entry| entry.at);
        assert_eq!(Log::of(&log).covered(book, &stay, &machine, t(5)), covered, "the other stay began at {began}");
        assert_eq!(report_is_plain(book, &log), gaps, "the other stay began at {began}");
    }
}

/// Where the plain reading was wrong once: a buddy's own machine runs no longer than their stay, also where another phone of
/// theirs said that they left and nothing says that they stopped it.
#[test]
fn a_machine_runs_no_longer_than_the_stay() {
    let book = &crate::shop::Shop::demo().books[0].rules;
    let (t, machine) = (|minute| Instant::from_ms(0) + Span::from_minutes(minute), MachineId::from("welding"));
    let said = |who: &str, minute, fact| Entry { at: t(minute), session: who.into(), who: who.into(), fact };
    let entered = Fact::Entered { room: "forge".into(), out_by: t(600) };
    let started = Fact::MachineStarted { machine: machine.clone(), material: None };
    let word = Fact::BuddyConfirmed { buddy: "wout".into(), machine: None, proof: None, given: Given::OnTheirWord };
    let stay = Stay { session: "joris".into(), who: "joris".into() };
    // One gap is of the machine that the buddy runs.
    for (left, covered, gaps) in [(3, true, 1), (7, false, 2)] {
        let mut log = vec![
            said("wout", 0, entered.clone()),
            said("wout", 1, started.clone()),
            said("wout", left, Fact::Left),
            said("joris", 2, entered.clone()),
            said("joris", 4, word.clone()),
            said("joris", 5, started.clone()),
            said("joris", 8, Fact::MachineStopped { machine: machine.clone() }),
        ];
        log.sort_by_key(|entry| entry.at);
        assert_eq!(Log::of(&log).covered(book, &stay, &machine, t(5)), covered, "wout left at {left}");
        assert_eq!(report_is_plain(book, &log), gaps, "wout left at {left}");
    }
}
