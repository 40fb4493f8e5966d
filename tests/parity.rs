//! The rules, told the same invented evenings on every target: what they say must be the same bytes.
//!
//! From a seed alone come a few dozen entries of a few people in the demo shop: sensible ones and senseless ones. They
//! are signed, chained, opened, folded, and everything that the app or the hub would ask is asked and written down.
//! Floating point is written in full, so that a difference in the last bit shows.
//!
//! Built for wasm32 it exports plain functions and imports nothing: the rules need no web. No expected value is here.

use std::fmt::Write as _;

use ed25519_dalek::SigningKey;
use shared_core::entry::{Condition, Entry, Fact, Given, Place};
use shared_core::ids::{ChoreId, PersonId, SessionId};
use shared_core::log::chain::Chain;
use shared_core::log::jws::{self, Link};
use shared_core::material::density::{Reading, Size, density};
use shared_core::material::identify::{Seen, identify};
use shared_core::members::Members;
use shared_core::report::report;
use shared_core::rulebook::{Rulebook, parse};
use shared_core::state::{State, fold};
use shared_core::time::{Instant, Span};
use shared_core::trace::trace;
use shared_core::view::{Viewer, bench, door, room, sweep};

/// The demo shop's rulebook.
const SHOP: &str = include_str!("../hub/demo/shop.toml");
/// Entries of one evening.
const ENTRIES: u64 = 60;
/// 2025-10-07T17:00:00Z, an arbitrary evening.
const BEGIN: Instant = Instant::from_ms(1_759_856_400_000);

/// Everything that the rules say about the evening of a seed.
pub fn evening(seed: u64) -> String {
    let (book, problems) = parse::read(SHOP);
    let Some(book) = book else { return format!("{problems:#?}") };
    let mut out = String::new();
    let (state, last) = lived(&book, &mut Dice(seed), &mut out);
    ask(&book, &state, last, &mut out);
    out
}

/// Signs, opens and folds the entries of an evening; what was signed goes to `out`.
fn lived(book: &Rulebook, dice: &mut Dice, out: &mut String) -> (State, Instant) {
    let key = SigningKey::from_bytes(&[7; 32]);
    let dev = jws::device_of(&key.verifying_key());
    let mut chain = Chain::new(dev.clone());
    let (mut state, mut now) = (State::default(), BEGIN);
    for _ in 0..ENTRIES {
        now = now + Span::from_ms(dice.below(900_000).cast_signed());
        let entry = Entry { at: now, session: dice.session(), who: dice.person(), fact: dice.fact(book, now) };
        let head = chain.head().clone();
        let link = Link { dev: dev.clone(), seq: head.seq + 1, prev: head.hash, book: parse::book_id(SHOP.as_bytes()) };
        let signed = jws::sign(&entry, &link, &key).jws;
        let _ = writeln!(out, "{signed}\n{:?}", chain.accept(&signed));
        match jws::open(&signed) {
            Ok(opened) => fold(&mut state, &opened.entry),
            Err(fault) => drop(writeln!(out, "{fault}")),
        }
    }
    (state, now)
}

/// Asks all that screens, the command and the steward ask.
fn ask(book: &Rulebook, state: &State, now: Instant, out: &mut String) {
    let _ = writeln!(out, "{state:#?}\n{:#?}", report(book, state));
    for machine in &book.machines {
        let _ = writeln!(out, "{:?}", trace(state, machine, now));
    }
    let members = Members::default();
    for (id, session) in state.sessions.iter() {
        let viewer =
            Viewer { book, members: &members, state, me: &session.who, session: Some(id), now, day_from: BEGIN };
        let (bench, sweep) = (bench::bench(&viewer), sweep::sweep(&viewer));
        let _ = writeln!(out, "{:#?}\n{bench:#?}\n{sweep:#?}\n{:#?}", door::door(&viewer, None), room::room(&viewer));
    }
    // A piece that weighs what the evening's last minute says: floating point in the square root of doubts.
    let grams = f64::from(u32::try_from(now.ms() / 60_000 % 4_000).unwrap_or_default()) + 40.25;
    let read = |value| Reading { value, off: 0.5 };
    let found = density(read(grams), Size::Round(read(25.4), read(101.3)));
    let seen = Seen { density: found.ok(), ..Seen::default() };
    let _ = writeln!(out, "{found:?}\n{:?}", identify(&seen));
}

/// Dice that fall the same way on every target: splitmix64 (Steele, Lea and Flood 2014; constants from memory).
pub struct Dice(pub u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `end`.
    pub fn below(&mut self, end: u64) -> u64 {
        self.next() % end.max(1)
    }

    fn one<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        let at = self.below(of.len() as u64);
        of.get(usize::try_from(at).unwrap_or_default())
    }

    fn session(&mut self) -> SessionId {
        SessionId::new(format!("s{}", self.below(4)))
    }

    fn person(&mut self) -> PersonId {
        PersonId::new(format!("p{}", self.below(4)))
    }

    fn fact(&mut self, book: &Rulebook, now: Instant) -> Fact {
        let out_by = now + Span::from_minutes(30 + self.below(240).cast_signed());
        let (Some(machine), Some(room)) = (self.one(&book.machines), self.one(&book.rooms)) else { return Fact::Left };
        let (id, problem) = (machine.id.clone(), "the stop sticks".to_owned());
        match self.below(17) {
            0 | 1 => Fact::Entered { room: room.id.clone(), out_by },
            2 => self.one(&book.statements).map_or(Fact::Left, |said| Fact::Attested { statement: said.id.clone() }),
            3..=5 => Fact::MachineStarted { machine: id, material: None },
            6 | 7 => Fact::MachineStopped { machine: id },
            8 => Fact::BuddyConfirmed { buddy: self.person(), machine: None, proof: None, given: Given::OnTheirWord },
            9 => Fact::BuddyLeft { buddy: self.person() },
            10 => Fact::SweepStarted { crew: 1 + u32::from(self.below(2) == 1) },
            11 | 12 => self.one(&machine.chores).map_or(Fact::WatchRound, |chore| Fact::ChoreDone {
                chore: ChoreId::of(machine.id.as_str(), &chore.id),
                minutes: Some(f64::from(u32::try_from(self.below(9_000)).unwrap_or_default()) / 700.0),
                photo: None,
            }),
            13 => Fact::Found { place: Place::Machine(id), condition: Condition::Clean, note: None },
            14 if self.below(4) == 0 => Fact::TaggedOut { machine: id, problem, photo: None },
            14 => Fact::OutByMoved { out_by },
            15 => self.one(&book.rounds).map_or(Fact::Left, |round| Fact::RoundDone { round: round.id.clone() }),
            _ if self.below(3) == 0 => Fact::Left,
            _ => Fact::TagCleared { machine: id },
        }
    }
}

#[cfg(target_arch = "wasm32")]
mod exported {
    //! What a host without any glue can call: numbers in, numbers out.

    use std::cell::RefCell;

    thread_local! {
        static SAID: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    }

    /// Lives the evening of a seed and returns how many bytes there are to read.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn evening(seed: u32) -> u32 {
        SAID.with_borrow_mut(|said| {
            *said = super::evening(seed.into()).into_bytes();
            u32::try_from(said.len()).unwrap_or(u32::MAX)
        })
    }

    /// The byte at a place of what was said.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn byte(at: u32) -> u32 {
        let at = usize::try_from(at).unwrap_or(usize::MAX);
        SAID.with_borrow(|said| said.get(at).copied().unwrap_or_default().into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn evenings_repeat_differ_and_hold_something() {
        assert_eq!(evening(1), evening(1));
        assert_ne!(evening(1), evening(2));
        let all: String = (0..20).map(evening).collect();
        for said in ["buddy_gaps: [\n", "cut_short", "Running", "Refused", "chores_missing: [\n", "lex_8h"] {
            assert!(all.contains(said), "no evening says {said}");
        }
    }
}
