//! What a shop of 5,000 members said in two years, and its figures: what a steward's page reckons when it is opened.
//!
//! Drawn from a seed over the demo's rulebook: twenty sessions a day in two rooms, an hour and a half each, with buddies, hot
//! work, chores that take a third more or less than written, things found, tags and rounds.

use std::hint::black_box;

use criterion::{Criterion, Throughput};
use shared_core::chores;
use shared_core::entry::{Condition, Entry, Fact, Given, Place};
use shared_core::figures::{Reach, Stretch, figures, of_reach};
use shared_core::ids::{PersonId, SessionId};
use shared_core::rulebook::{Machine, Rulebook, parse};
use shared_core::sync::shop::UtcOffset;
use shared_core::time::{Instant, Span};
use tests::parity::Dice;
use tests::timed::folded;

const MEMBERS: u64 = 5_000;
const DAYS: i64 = 730;
const SESSIONS_A_DAY: u64 = 20;
/// 2026-01-01T00:00:00Z.
const BEGIN: Instant = Instant::from_ms(1_767_225_600_000);
const OFFSETS: [UtcOffset; 1] = [UtcOffset { from: BEGIN, minutes: 60 }];

/// Times all that is kept, and what the page shows when it is opened.
pub(crate) fn two_years(criterion: &mut Criterion) {
    let book = parse::read(include_str!("../../../hub/demo/shop.toml")).0.expect("the demo's rulebook");
    let entries = drawn(&book);
    let state = folded(&entries);
    let now = BEGIN + day(DAYS);
    let all = Stretch::of(Reach::All, &state, &OFFSETS, now);
    let said = figures(&book, &state, &OFFSETS, all);
    let (sessions, sweeps) = (said.sessions.begun, said.reserve.of);
    println!(
        "figures: {} entries, {sessions} sessions by {} people, {sweeps} whole sweeps",
        entries.len(),
        said.sessions.people
    );
    let mut group = criterion.benchmark_group("figures");
    group.throughput(Throughput::Elements(entries.len() as u64)).sample_size(10);
    group.bench_function("all of two years", |bench| {
        bench.iter(|| figures(black_box(&book), black_box(&state), &OFFSETS, all));
    });
    group.bench_function("the page as it opens: this month", |bench| {
        bench.iter(|| of_reach(black_box(&book), black_box(&state), &OFFSETS, now, Reach::ThisMonth));
    });
    group.finish();
}

fn day(days: i64) -> Span {
    Span::from_minutes(days * 24 * 60)
}

fn drawn(book: &Rulebook) -> Vec<Entry> {
    let (mut dice, mut entries) = (Dice(7), Vec::new());
    for today in 0..DAYS {
        for number in 0..SESSIONS_A_DAY {
            let name = SessionId::new(format!("{today:08x}{number:08x}"));
            let from = BEGIN + day(today) + Span::from_minutes(8 * 60 + dice.below(13 * 60).cast_signed());
            session(book, &mut dice, &name, from, &mut entries);
        }
        let steward = |at, fact| Entry { at, session: SessionId::outside(), who: "p0".into(), fact };
        let noon = BEGIN + day(today) + Span::from_minutes(12 * 60);
        for round in book.rounds.iter().filter(|round| round.every == "P1D") {
            entries.push(steward(noon, Fact::RoundDone { round: round.id.clone() }));
        }
        if today % 9 == 0 {
            let machine = pick(&mut dice, &book.machines).id.clone();
            let problem = "belt slips".to_owned();
            entries.push(steward(noon, Fact::TaggedOut { machine: machine.clone(), problem, photo: None }));
            entries.push(steward(noon + day(3), Fact::TagCleared { machine }));
        }
    }
    entries.sort_by_key(|entry| entry.at);
    entries
}

fn session(book: &Rulebook, dice: &mut Dice, session: &SessionId, from: Instant, entries: &mut Vec<Entry>) {
    let room = pick(dice, &book.rooms);
    let member = |dice: &mut Dice| PersonId::new(format!("p{}", dice.below(MEMBERS)));
    let (who, buddy) = (member(dice), member(dice));
    let mut at = from;
    let mut say = |at, fact| entries.push(Entry { at, session: session.clone(), who: who.clone(), fact });
    say(at, Fact::Entered { room: room.id.clone(), out_by: from + Span::from_minutes(120) });
    let here: Vec<&Machine> = book.machines.iter().filter(|machine| machine.room == room.id).collect();
    let mut used = Vec::new();
    for _ in 0..2 {
        let Some(machine) = here.get(usize::try_from(dice.below(here.len() as u64)).unwrap_or(0)) else { continue };
        if machine.buddy {
            let given = Given::OnTheirWord;
            say(at, Fact::BuddyConfirmed { buddy: buddy.clone(), machine: None, proof: None, given });
        }
        say(at, Fact::MachineStarted { machine: machine.id.clone(), material: None });
        at = at + Span::from_minutes(10 + dice.below(20).cast_signed());
        say(at, Fact::MachineStopped { machine: machine.id.clone() });
        used.push(&machine.id);
    }
    if let (true, Some(machine)) = (dice.below(4) == 0, used.first()) {
        let condition = if dice.below(3) == 0 { Condition::Mess } else { Condition::Clean };
        say(at, Fact::Found { place: Place::Machine((*machine).clone()), condition, note: None });
    }
    say(at, Fact::SweepStarted { crew: 1 });
    for due in chores::of_session(book, &room.id, used, true) {
        if dice.below(40) == 0 {
            continue;
        }
        let took_ms = due.chore.minutes_milli * 60 * (66 + dice.below(68).cast_signed()) / 100;
        at = at + Span::from_ms(took_ms);
        #[expect(clippy::cast_precision_loss, reason = "minutes of one chore")]
        let minutes = Some(took_ms as f64 / 60_000.0);
        say(at, Fact::ChoreDone { chore: due.id, minutes, photo: None });
    }
    say(at + Span::from_minutes(2), Fact::Left);
}

fn pick<'a, T>(dice: &mut Dice, from: &'a [T]) -> &'a T {
    &from[usize::try_from(dice.below(from.len() as u64)).unwrap_or(0)]
}
