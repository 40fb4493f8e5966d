//! A shop of a given size at two in the night after its last day: so many entries behind it, so many sessions open.
//!
//! The rooms and the rules are the demo's, the machines the demo's over and over. Whoever is in came within the hour, attested,
//! has a buddy who is in too, and runs a machine. The viewer is the first of them, and a steward.

use shared_core::entry::{Entry, Fact, Given};
use shared_core::ids::{MachineId, PersonId, SessionId};
use shared_core::members::{Member, Members};
use shared_core::ordered::Map;
use shared_core::rulebook::{Machine, Rulebook, parse};
use shared_core::state::State;
use shared_core::time::{Instant, Span};
use shared_core::viewer::Viewer;
use tests::large_shop::{BEGIN, stay};
use tests::parity::Dice;
use tests::timed::folded;

/// Stays of a day.
const STAYS: i64 = 60;
const DAY: Span = Span::from_minutes(24 * 60);

/// How large a shop is.
#[derive(Clone, Copy)]
pub(crate) struct Size {
    pub(crate) entries: u64,
    pub(crate) members: u64,
    pub(crate) machines: u64,
    pub(crate) open: u64,
}

/// A shop, and all that was said in it.
pub(crate) struct Shop {
    pub(crate) book: Rulebook,
    pub(crate) members: Members,
    pub(crate) entries: Vec<Entry>,
    pub(crate) state: State,
    pub(crate) now: Instant,
    /// How often something was done in it.
    pub(crate) done: i64,
    me: PersonId,
    own: SessionId,
}

impl Shop {
    pub(crate) fn of(size: Size) -> Self {
        let mut book = parse::read(include_str!("../../hub/demo/shop.toml")).0.expect("the demo's rulebook");
        let machines = std::mem::take(&mut book.machines);
        book.machines =
            (0..size.machines).zip(machines.iter().cycle()).map(|(nth, machine)| again(machine, nth)).collect();
        let (mut dice, mut entries, mut number) = (Dice(7), Vec::new(), 0);
        let open = size.open * 8;
        while (entries.len() as u64) + open < size.entries {
            let from = BEGIN + day(number / STAYS) + Span::from_minutes(8 * 60 + dice.below(13 * 60).cast_signed());
            let name = SessionId::new(format!("{number:016x}"));
            stay((&book, size.members), &mut dice, &name, from, &mut entries);
            number += 1;
        }
        let now = BEGIN + day(number / STAYS + 1) + Span::from_minutes(2 * 60);
        for nth in 0..size.open {
            come_in(&book, size, nth, now, &mut entries);
        }
        entries.sort_by_key(|entry| entry.at);
        let state = folded(&entries);
        let members = (0..size.members).map(|number| member(&book, number, now)).collect::<Members>();
        Self { book, members, state, entries, now, done: 0, me: "p0".into(), own: session(0) }
    }

    /// Through the eyes of a steward who is in.
    pub(crate) fn steward(&self) -> Viewer<'_> {
        let day_from = self.now - Span::from_minutes(2 * 60);
        let (book, members, state) = (&self.book, &self.members, &self.state);
        Viewer { book, members, state, me: &self.me, session: Some(&self.own), now: self.now, day_from }
    }

    /// Through the eyes of somebody who has no session.
    pub(crate) fn outside<'a>(&'a self, me: &'a PersonId) -> Viewer<'a> {
        Viewer { me, session: None, ..self.steward() }
    }
}

fn day(days: i64) -> Span {
    Span::from_ms(DAY.ms() * days)
}

fn session(nth: u64) -> SessionId {
    SessionId::new(format!("open{nth:012x}"))
}

fn again(machine: &Machine, nth: u64) -> Machine {
    let id = MachineId::new(format!("{}-{nth}", machine.id));
    Machine { id, name: format!("{} {nth}", machine.name), ..machine.clone() }
}

fn member(book: &Rulebook, number: u64, now: Instant) -> Member {
    let until = now + day(100);
    let signed_off: Map<String, Instant> =
        book.trainings().into_iter().map(|training| (training.to_owned(), until)).collect();
    Member {
        id: format!("p{number}").as_str().into(),
        name: format!("Member {number} Lastname"),
        inducted_until: Some(until),
        signed_off,
        steward: number == 0,
        ..Member::default()
    }
}

/// Eight lines of somebody who is in. Their buddy is the next but one in the same room, if there is one.
fn come_in(book: &Rulebook, size: Size, nth: u64, now: Instant, entries: &mut Vec<Entry>) {
    let person = |nth: u64| PersonId::new(format!("p{}", nth % size.members));
    let place = |from: usize| usize::try_from(nth).unwrap_or_default() % from;
    let room = &book.rooms[place(book.rooms.len())].id;
    let at = |minutes: i64| now - Span::from_minutes(minutes);
    let mut say = |at, fact| entries.push(Entry { at, session: session(nth), who: person(nth), fact });
    let came = 55 - (nth % 40).cast_signed();
    say(at(came), Fact::Entered { room: room.clone(), out_by: now + Span::from_minutes(120) });
    for statement in &book.statements {
        say(at(came), Fact::Attested { statement: statement.id.clone() });
    }
    let buddy = person((nth + book.rooms.len() as u64) % size.open.max(2));
    for minutes in [14, 5] {
        let given = Given::OnTheirWord;
        say(at(minutes), Fact::BuddyConfirmed { buddy: buddy.clone(), machine: None, proof: None, given });
    }
    let here: Vec<&Machine> = book.machines_in(room).collect();
    if let Some(machine) = here.get(place(here.len().max(1))) {
        say(at(4), Fact::MachineStarted { machine: machine.id.clone(), material: None });
    }
    say(at(3), Fact::BellHeard);
}
