//! The steward's pages over a large shop: 5,000 members, 60 stays a day for two years. The requirement is 300 ms a page.

use std::hint::black_box;

use criterion::Criterion;
use shared_core::entry::{Condition, Entry, Fact, Given, Place};
use shared_core::ids::{ChoreId, PersonId, SessionId};
use shared_core::members::{Member, Members};
use shared_core::rulebook::{Rulebook, parse};
use shared_core::state::State;
use shared_core::time::{HOUR_MS, Instant, Span};
use shared_core::view::{Viewer, finds, repairs, today};

const MEMBERS: i64 = 5_000;
const STAYS_A_DAY: i64 = 60;
const DAYS: i64 = 730;
const DAY_MS: i64 = 24 * HOUR_MS;

pub(crate) fn pages(criterion: &mut Criterion) {
    let book = parse::read(include_str!("../../../hub/demo/shop.toml")).0.expect("the demo's rulebook");
    let members = Members::new((0..MEMBERS).map(member).collect());
    let now = Instant::from_ms(1_800_000_000_000);
    let entries: Vec<Entry> = (0..DAYS * STAYS_A_DAY).flat_map(|stay| evening(&book, now, stay)).collect();
    let state = State::of(&entries);
    let (me, day_from) = (PersonId::from("p0"), now - Span::from_ms(HOUR_MS));
    let viewer = Viewer { book: &book, members: &members, state: &state, me: &me, session: None, now, day_from };
    println!("{} entries, {} stays", entries.len(), state.sessions.len());
    let (needs, found) = (today::today(&viewer).needs.len(), finds::finds(&viewer));
    println!("{needs} needs, {} finds, {} people whose sweeps repeat", found.finds.len(), found.people.len());
    let mut group = criterion.benchmark_group("book");
    group.sample_size(10);
    group.bench_function("fold two years", |bench| bench.iter(|| State::of(black_box(&entries))));
    group.bench_function("today", |bench| bench.iter(|| today::today(black_box(&viewer))));
    group.bench_function("finds", |bench| bench.iter(|| finds::finds(black_box(&viewer))));
    group.bench_function("repairs", |bench| bench.iter(|| repairs::repairs(black_box(&viewer))));
    group.finish();
}

fn member(number: i64) -> Member {
    Member {
        id: format!("p{number}").as_str().into(),
        name: format!("Member {number}"),
        inducted_until: None,
        signed_off: std::collections::BTreeMap::new(),
        steward: number == 0,
        signer: false,
        card_until: None,
        said: std::collections::BTreeMap::new(),
        used: std::collections::BTreeMap::new(),
    }
}

/// One stay: two machines, a buddy's word, and in most cases what is owed; now and then a mess that was found.
fn evening(book: &Rulebook, now: Instant, stay: i64) -> Vec<Entry> {
    let day = DAYS - stay / STAYS_A_DAY;
    let from = now - Span::from_ms(day * DAY_MS) + Span::from_minutes(stay % STAYS_A_DAY * 12);
    let pick = |of: usize| usize::try_from(stay.rem_euclid(i64::try_from(of).unwrap_or(1))).unwrap_or(0);
    let room = &book.rooms[pick(book.rooms.len())];
    let machines: Vec<_> = book.machines_in(&room.id).collect();
    let machine = machines[pick(machines.len())];
    let (who, session) = (PersonId::new(format!("p{}", stay * 7_919 % MEMBERS)), SessionId::new(format!("s{stay}")));
    let said = |minutes: i64, fact: Fact| Entry {
        at: from + Span::from_minutes(minutes),
        session: session.clone(),
        who: who.clone(),
        fact,
    };
    let buddy = PersonId::new(format!("p{}", (stay + 1) * 7_919 % MEMBERS));
    let mut all = vec![
        said(0, Fact::Entered { room: room.id.clone(), out_by: from + Span::from_minutes(180) }),
        said(4, Fact::BuddyConfirmed { buddy, machine: None, proof: None, given: Given::OnTheirWord }),
        said(5, Fact::MachineStarted { machine: machine.id.clone(), material: None }),
        said(40, Fact::MachineStopped { machine: machine.id.clone() }),
        said(120, Fact::SweepStarted { crew: 1 }),
    ];
    let owners = machine.chores.iter().map(|chore| ChoreId::of(machine.id.as_str(), &chore.id));
    let owed = owners.chain(room.chores.iter().map(|chore| ChoreId::of(room.id.as_str(), &chore.id)));
    for (nth, chore) in (0..).zip(owed) {
        if (stay + nth) % 11 != 0 {
            all.push(said(125 + nth, Fact::ChoreDone { chore, minutes: Some(3.0), photo: None }));
        }
    }
    if stay % 20 == 0 {
        let place = Place::Machine(machine.id.clone());
        all.push(said(1, Fact::Found { place, condition: Condition::Mess, note: None }));
    }
    all.push(said(150, Fact::Left));
    all
}
