//! A large shop, drawn: 5,000 members of the demo's rooms and what they said in two years, for timing the pages of the app.
//!
//! Stays at all hours in both rooms, an hour and a half each: buddies, hot work, chores that take a third more or less than
//! written, things found, tags, rounds. The requirement is 300 ms a page on a phone. Nothing is judged here.

use shared_core::chores;
use shared_core::entry::{Condition, Entry, Fact, Given, Place, Told};
use shared_core::figures::Reach;
use shared_core::ids::{PersonId, SessionId};
use shared_core::members::{Member, Members};
use shared_core::ordered::Map;
use shared_core::rulebook::{Machine, Rulebook, parse};
use shared_core::state::State;
use shared_core::sync::shop::UtcOffset;
use shared_core::time::{Instant, Span};
use shared_core::view::door::DoorView;
use shared_core::view::{
    Viewer, board, door, figures, finds, history, incidents, kept, people, posted, repairs, room, today,
};

use crate::parity::Dice;
use crate::timed::folded;

const MEMBERS: u64 = 5_000;
const DAYS: i64 = 730;
/// The shop's first day: 2026-01-01T00:00:00Z.
pub const BEGIN: Instant = Instant::from_ms(1_767_225_600_000);
const OFFSETS: [UtcOffset; 1] = [UtcOffset { from: BEGIN, minutes: 60 }];

/// The shop at the end of its two years, as a steward's phone knows it.
pub struct LargeShop {
    book: Rulebook,
    members: Members,
    state: State,
    me: PersonId,
}

/// Reckons what a page shows and returns how many lines of some kind it has, so that nothing is left out.
pub type Reckon = fn(&Viewer) -> usize;

/// The pages that are timed, each by the name of what it shows.
pub const PAGES: &[(&str, Reckon)] = &[
    ("door", |viewer| match door::door(viewer, None) {
        DoorView::Outside { rooms } => rooms.len(),
        _ => 0,
    }),
    ("room", |viewer| room::room(viewer).rooms.len()),
    ("boards of all rooms", |viewer| {
        let boards = viewer.book.rooms.iter().filter_map(|room| board::board(viewer, &room.id));
        boards.map(|board| board.sessions.len()).sum()
    }),
    ("own evenings", |viewer| history::evenings(viewer).len()),
    ("today", |viewer| today::today(viewer).needs.len()),
    ("finds", |viewer| finds::finds(viewer).finds.len()),
    ("repairs", |viewer| repairs::repairs(viewer).days.len()),
    ("rounds", |viewer| kept::kept(viewer).rounds.len()),
    ("incidents", |viewer| incidents::incidents(viewer).open.len()),
    ("people", |viewer| people::people(viewer, "49", Some(&PersonId::from("p4999"))).found.len()),
    ("print", |viewer| posted::posted(viewer).len()),
    ("figures, this month", |viewer| figures::figures(viewer, &OFFSETS, Reach::ThisMonth).own.machines.len()),
    ("figures, all", |viewer| figures::figures(viewer, &OFFSETS, Reach::All).own.machines.len()),
];

impl LargeShop {
    /// So many stays a day for two years.
    ///
    /// # Panics
    ///
    /// If the demo's rulebook is none.
    pub fn drawn(stays_a_day: u64) -> (Self, usize) {
        let book = parse::read(include_str!("../hub/demo/shop.toml")).0.expect("the demo's rulebook");
        let entries = entries(&book, stays_a_day);
        let state = folded(&entries);
        let members = Members::new((0..MEMBERS).map(member).collect());
        (Self { book, members, state, me: "p0".into() }, entries.len())
    }

    /// What a phone keeps of it, so that it need not fold its log again.
    ///
    /// # Panics
    ///
    /// If the state holds a number that is none.
    pub fn tally(&self) -> Vec<u8> {
        borsh::to_vec(&self.state).expect("nothing of it is no number")
    }

    /// Through a steward's eyes, at noon of the last day, with people in.
    pub fn viewer(&self) -> Viewer<'_> {
        let (now, day_from) = (now(), BEGIN + day(DAYS - 1));
        let (book, members, state) = (&self.book, &self.members, &self.state);
        Viewer { book, members, state, me: &self.me, session: None, now, day_from }
    }
}

/// The state that a tally holds: how many sessions it has.
///
/// # Panics
///
/// If it is no tally.
pub fn sessions_of(tally: &[u8]) -> usize {
    borsh::from_slice::<State>(tally).expect("a state's bytes").sessions.len()
}

fn day(days: i64) -> Span {
    Span::from_minutes(days * 24 * 60)
}

/// Noon of the last day: nothing is said later.
fn now() -> Instant {
    BEGIN + day(DAYS - 1) + Span::from_minutes(12 * 60)
}

fn member(number: u64) -> Member {
    Member {
        id: format!("p{number}").as_str().into(),
        name: format!("Member {number}"),
        inducted_until: None,
        signed_off: Map::new(),
        steward: number == 0,
        signer: false,
        card_until: None,
        said: Map::new(),
        used: Map::new(),
    }
}

/// What was said, in order.
fn entries(book: &Rulebook, stays_a_day: u64) -> Vec<Entry> {
    let (mut dice, mut entries) = (Dice(7), Vec::new());
    for today in 0..DAYS {
        for number in 0..stays_a_day {
            let name = SessionId::new(format!("{today:08x}{number:08x}"));
            let from = BEGIN + day(today) + Span::from_minutes(8 * 60 + dice.below(13 * 60).cast_signed());
            stay((book, MEMBERS), &mut dice, &name, from, &mut entries);
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
        if today % 30 == 0 {
            let (note, told) = ("a spark in the bin".to_owned(), Told::default());
            entries.push(steward(noon, Fact::Incident { note, told }));
        }
    }
    entries.retain(|entry| entry.at <= now());
    entries.sort_by_key(|entry| entry.at);
    entries
}

/// One stay of one of so many members, an hour and a half and 17 entries or so.
pub fn stay(
    (book, members): (&Rulebook, u64),
    dice: &mut Dice,
    session: &SessionId,
    from: Instant,
    entries: &mut Vec<Entry>,
) {
    let room = pick(dice, &book.rooms);
    let member = |dice: &mut Dice| PersonId::new(format!("p{}", dice.below(members)));
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

#[cfg(target_arch = "wasm32")]
mod exported {
    //! What a host with a clock calls: the shop stays here until its pages are timed.

    use std::cell::RefCell;

    use super::{LargeShop, PAGES, sessions_of};

    thread_local! {
        static SHOP: RefCell<Option<LargeShop>> = const { RefCell::new(None) };
        static TALLY: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    }

    /// Draws the shop, and returns how many entries it has said.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn draw_shop(stays_a_day: u32) -> u32 {
        let (shop, entries) = LargeShop::drawn(stays_a_day.into());
        SHOP.set(Some(shop));
        u32::try_from(entries).unwrap_or(u32::MAX)
    }

    /// Writes the shop's tally, and returns its bytes.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn tally_written() -> u32 {
        let tally = SHOP.with_borrow(|shop| shop.as_ref().map(LargeShop::tally).unwrap_or_default());
        let bytes = u32::try_from(tally.len()).unwrap_or(u32::MAX);
        TALLY.set(tally);
        bytes
    }

    /// Reads that, and returns its sessions.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn tally_read() -> u32 {
        TALLY.with_borrow(|tally| u32::try_from(sessions_of(tally)).unwrap_or(u32::MAX))
    }

    /// Reckons the page of that number in [`PAGES`], and returns how much it shows.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn page_lines(page: u32) -> u32 {
        SHOP.with_borrow(|shop| {
            let reckon = usize::try_from(page).ok().and_then(|page| PAGES.get(page));
            let lines = shop.as_ref().zip(reckon).map(|(shop, (_, reckon))| reckon(&shop.viewer()));
            lines.and_then(|lines| u32::try_from(lines).ok()).unwrap_or(u32::MAX)
        })
    }

    /// The name of a page, a byte at a time; 0 past its end and past the last page.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn page_name(page: u32, at: u32) -> u8 {
        let page = usize::try_from(page).ok().and_then(|page| PAGES.get(page));
        let byte = page.and_then(|(name, _)| name.as_bytes().get(usize::try_from(at).ok()?));
        byte.copied().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_timed_is_a_shop_with_something_on_each_page() {
        let (shop, entries) = LargeShop::drawn(20);
        assert!(entries > 100_000, "{entries}");
        assert!(shop.state.sessions.len() > 20 * 729, "{}", shop.state.sessions.len());
        assert_eq!(sessions_of(&shop.tally()), shop.state.sessions.len());
        for (name, reckon) in PAGES {
            assert!(reckon(&shop.viewer()) > 0, "{name}");
        }
    }
}
