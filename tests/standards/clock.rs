//! Nights and clocks that are not as they should be: the worked logs told at other times, across midnight and across each
//! change of the clocks in thirteen zones; by a phone whose clock was wrong until it was set; and a buddy whose clock is.
//!
//! What a log says of lengths of time does not depend on when it happened: sessions are in UTC, and one phone's entries share
//! its clock. What one phone says about another's clock can be wrong by that clock's error, and never by more than a term.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use shared_core::buddy::Gap;
use shared_core::entry::{Entry, Fact, Given};
use shared_core::fire_watch::Kept;
use shared_core::log::wire::read_line;
use shared_core::report::{InRoom, Report, report};
use shared_core::rulebook::Rulebook;
use shared_core::state::State;
use shared_core::time::{Instant, Span};
use shared_core::trace::trace;

use crate::table::rows;

fn case(number: u32) -> (Rulebook, Vec<Entry>) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/cases/log-{number}"));
    let text = |file: &str| fs::read_to_string(folder.join(file)).expect(file);
    let (book, problems) = shared_core::rulebook::parse::read(&text("shop.toml"));
    assert_eq!(problems, []);
    let lines = text("log.jsonl");
    let entries = lines.lines().filter(|line| !line.is_empty()).map(|line| read_line(line).expect(line));
    (book.expect("a rulebook without problems"), entries.collect())
}

/// The same entries, told by clocks that are ahead by so much.
fn told_later(entries: &[Entry], by: Span) -> Vec<Entry> {
    let later = |entry: &Entry| {
        let fact = match &entry.fact {
            Fact::Entered { room, out_by } => Fact::Entered { room: room.clone(), out_by: *out_by + by },
            Fact::OutByMoved { out_by } => Fact::OutByMoved { out_by: *out_by + by },
            fact => fact.clone(),
        };
        Entry { at: entry.at + by, fact, ..entry.clone() }
    };
    entries.iter().map(later).collect()
}

/// The same report, every instant later by so much.
fn read_later(report: Report, by: Span) -> Report {
    let Report { mut sessions, mut in_room, mut tagged_out, rounds } = report;
    for one in &mut sessions {
        one.from = one.from + by;
        one.out_by = one.out_by + by;
        one.to = one.to.map(|to| to + by);
        one.sweep_from_actual = one.sweep_from_actual.map(|from| from + by);
        let gaps = one.buddy_gaps.drain(..);
        let gaps = gaps.map(|gap| Gap { from: gap.from + by, to: gap.to + by, ..gap }).collect();
        one.buddy_gaps = gaps;
        one.watch = one.watch.map(|kept| Kept {
            needed_until: kept.needed_until + by,
            kept_until: kept.kept_until + by,
            ..kept
        });
    }
    in_room = in_room.into_iter().map(|here| InRoom { since: here.since + by, ..here }).collect();
    for (_, tag) in &mut tagged_out {
        tag.since = tag.since + by;
    }
    Report { sessions, in_room, tagged_out, rounds }
}

#[test]
fn no_midnight_and_no_change_of_the_clocks_alters_what_a_log_says() {
    let changes: BTreeSet<Instant> = rows(include_str!("../data/zone-offsets.csv"), 93)
        .iter()
        .map(|row| Instant::parse(row.text("from")).expect("RFC 3339"))
        .collect();
    for number in 1..=3 {
        let (book, entries) = case(number);
        let plain = report(&book, &State::of(&entries));
        let middle = entries.get(entries.len() / 2).expect("a log").at;
        for change in &changes {
            // The middle of the log falls on the change; every new year of the table is a midnight.
            let by = *change - middle;
            let told = report(&book, &State::of(&told_later(&entries, by)));
            assert_eq!(told, read_later(plain.clone(), by), "log-{number} at {change}");
        }
    }
}

/// The phone of one member is an hour ahead; in the middle of each session its clock is set right, which its steady time does
/// not follow: it says so, and goes on as it began.
#[test]
fn a_clock_that_was_wrong_moves_a_session_and_stretches_nothing() {
    let hour = Span::from_minutes(60);
    for number in 1..=3 {
        let (book, entries) = case(number);
        let plain = report(&book, &State::of(&entries));
        for session in &plain.sessions {
            let (own, others): (Vec<Entry>, Vec<Entry>) =
                entries.iter().cloned().partition(|entry| entry.session == session.session);
            let mut own = told_later(&own, hour);
            let half = own.len() / 2;
            let set = Fact::ClockJumped { seconds: -3600 };
            let jump = own.get(half).map(|entry| Entry { fact: set, ..entry.clone() }).expect("a session");
            own.insert(half, jump);
            let told = report(&book, &State::of(others.iter().chain(&own)));
            let of = |report: &Report| report.sessions.iter().find(|one| one.session == session.session).cloned();
            let told = of(&told).expect("the session");
            let mut expected = of(&read_later(plain.clone(), hour)).expect("the session");
            expected.clock_jumped = Span::from_ms(-3_600_000);
            // Who was there last depends on other phones' clocks.
            expected.chores_missing.clone_from(&told.chores_missing);
            assert_eq!(told, expected, "log-{number}");
        }
    }
}

/// Footage is looked for where the log says; a window of a phone whose clock was set says by how much it may be off.
#[test]
fn a_window_says_by_how_much_its_clock_was_off() {
    let (book, mut entries) = case(1);
    let machine = book.machines.iter().find(|machine| {
        entries.iter().any(|entry| matches!(&entry.fact, Fact::MachineStarted { machine: id, .. } if *id == machine.id))
    });
    let machine = machine.expect("a machine that was used");
    let seen = entries.iter().map(|entry| entry.at).max().expect("a log") + Span::from_minutes(1);
    let windows = trace(&State::of(&entries), machine, seen).windows;
    assert!(windows.iter().all(|window| window.clock_jumped == Span::ZERO));
    let Some(first) = windows.first() else { panic!("nobody could have left it") };
    let last = entries.iter().rfind(|entry| entry.session == first.session).cloned().expect("its last entry");
    entries.push(Entry { fact: Fact::ClockJumped { seconds: 95 }, ..last });
    let told = trace(&State::of(&entries), machine, seen).windows;
    assert_eq!(told.first().map(|window| window.clock_jumped), Some(Span::from_ms(95_000)));
}

/// A buddy whose clock is wrong leaves at the wrong time, as far as the log knows. What that can hide is bounded by the word's
/// own term: it is said by the operator's clock.
#[test]
fn a_buddys_wrong_clock_hides_no_more_than_one_term() {
    let (book, problems) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    assert_eq!(problems, []);
    let book = book.expect("a rulebook without problems");
    let at = |minute: i64| Instant::from_ms(1_780_000_000_000) + Span::from_minutes(minute);
    let said =
        |who: &str, minute: i64, fact: Fact| Entry { at: at(minute), session: who.into(), who: who.into(), fact };
    let entered = || Fact::Entered { room: "fitting".into(), out_by: at(300) };
    for (off_minutes, uncovered_from) in [(0, 12), (3, 15), (-3, 9), (60, 20), (-60, 20)] {
        let log = [
            said("ilse", -100 + off_minutes, entered()),
            said("noor", 0, entered()),
            said(
                "noor",
                5,
                Fact::BuddyConfirmed { buddy: "ilse".into(), machine: None, proof: None, given: Given::OnTheirWord },
            ),
            said("noor", 5, Fact::MachineStarted { machine: "lathe".into(), material: None }),
            said("ilse", 12 + off_minutes, Fact::Left),
            said("noor", 50, Fact::MachineStopped { machine: "lathe".into() }),
        ];
        let told = report(&book, &State::of(&log));
        let noor = told.sessions.iter().find(|session| session.who.as_str() == "noor").expect("a session");
        let gaps: Vec<_> = noor.buddy_gaps.iter().map(|gap| (gap.from, gap.to)).collect();
        assert_eq!(gaps, [(at(uncovered_from), at(50))], "{off_minutes} minutes off");
    }
}
