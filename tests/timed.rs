//! What `cargo xtask bench` times on this machine and on wasm32: drawn plans, and a log of ordinary evenings.
//!
//! Built for wasm32 it exports plain functions to a host that has a clock; here nothing reads one. What is made ready
//! and what is timed are two calls. Nothing is judged, and no expected value is here.

use std::fmt::Write as _;

use shared_core::entry::{Entry, Fact, Given};
use shared_core::estimate::History;
use shared_core::ids::{ChoreId, PersonId, RoomId, SessionId};
use shared_core::ordered::Set;
use shared_core::plan::{HotWork, Plan, Request, plan};
use shared_core::rulebook::{Rulebook, parse};
use shared_core::state::{State, fold};
use shared_core::time::{Instant, Span};

use crate::parity::Dice;

/// 2026-03-03T21:48:00Z, an arbitrary evening.
const OUT_BY: Instant = Instant::from_ms(1_772_574_480_000);

/// A plan to be made.
pub struct Case {
    book: Rulebook,
    crew: u32,
    hot_work: HotWork,
    now: Instant,
}

impl Case {
    /// A room of so many chores for so many people; hands, order, gear and the watch are drawn from the seed.
    ///
    /// # Panics
    ///
    /// If what is drawn is no rulebook.
    pub fn drawn(seed: u64, chores: u64, crew: u32) -> Self {
        let mut dice = Dice(seed);
        let (longest, waiting, geared) = (3 + dice.below(18), dice.below(6), dice.below(4));
        let mut toml = format!(
            "shop = {{ name = \"Drawn\", time_zone = \"UTC\", session_hours_max = 12 }}\n\
             fire_watch = {{ minutes = {}, exclusive = {} }}\n\
             gear = [{{ id = \"g0\", count = 1 }}, {{ id = \"g1\", count = 2 }}]\n\
             [[statement]]\nid = \"eyes\"\ntext = \"On.\"\ndecline = \"Put them on.\"\n\
             [[room]]\nid = \"bay\"\nname = \"Bay\"\n",
            5 + dice.below(56),
            dice.below(4) > 0,
        );
        for index in 0..chores {
            let (minutes, hands) = (1 + dice.below(longest), dice.below(u64::from(crew) + 1));
            let after: Vec<_> = (0..index)
                .filter(|_| dice.below(10) < waiting && dice.below(3) == 0)
                .map(|before| format!("\"c{before}\""))
                .collect();
            let _ = writeln!(toml, "[[room.chore]]\nid = \"c{index}\"\ntext = \"Do.\"\nminutes = {minutes}");
            let _ = writeln!(toml, "hands = {hands}\nafter = [{}]", after.join(", "));
            if dice.below(4) < geared {
                let _ = writeln!(toml, "gear = \"g{}\"", dice.below(2));
            }
        }
        let (book, problems) = parse::read(&toml);
        let book = book.unwrap_or_else(|| panic!("{problems:#?}"));
        let now = OUT_BY - Span::from_ms(dice.below(120 * 60_000).cast_signed());
        let hot_work = match dice.below(3) {
            0 => HotWork::None,
            1 => HotWork::Coming,
            _ => HotWork::Ended(now - Span::from_ms(dice.below(40 * 60_000).cast_signed())),
        };
        Self { book, crew, hot_work, now }
    }

    /// Makes the plan.
    ///
    /// # Panics
    ///
    /// If there is none, or it is not proved the best.
    pub fn plan(&self) -> Plan {
        let request = Request {
            book: &self.book,
            room: &RoomId::from("bay"),
            out_by: OUT_BY,
            crew: self.crew,
            last_out: false,
            hot_work: self.hot_work,
            uses: &[],
            done: &Set::new(),
            now: Some(self.now),
            history: &History::new(),
        };
        let plan = plan(&request).expect("nobody is asked for more hands than there are");
        assert!(plan.optimal, "up to 12 chores are solved exactly");
        plan
    }
}

/// So many sessions of an ordinary evening, 14 entries each: two rooms' worth, each session in its own hours.
pub fn log(sessions: i64) -> Vec<Entry> {
    let (room, machine) = (RoomId::from("forge"), "grinder");
    let mut entries = Vec::new();
    for number in 0..sessions {
        let (session, who) = (SessionId::new(format!("{number:016x}")), PersonId::new(format!("p{}", number % 23)));
        let begin = OUT_BY + Span::from_minutes(97 * number);
        let mut say = |minutes, fact| {
            let at = begin + Span::from_minutes(minutes);
            entries.push(Entry { at, session: session.clone(), who: who.clone(), fact });
        };
        say(0, Fact::Entered { room: room.clone(), out_by: begin + Span::from_minutes(150) });
        for statement in ["hair", "eyes", "sober"] {
            say(0, Fact::Attested { statement: statement.into() });
        }
        say(2, Fact::BuddyConfirmed { buddy: "p99".into(), machine: None, proof: None, given: Given::OnTheirWord });
        say(3, Fact::MachineStarted { machine: machine.into(), material: Some("mild steel".to_owned()) });
        say(15, Fact::BuddyConfirmed { buddy: "p99".into(), machine: None, proof: None, given: Given::OnTheirWord });
        say(29, Fact::MachineStopped { machine: machine.into() });
        say(31, Fact::SweepStarted { crew: 1 });
        for (minutes, chore) in [(35, "dust"), (41, "wheel")] {
            let chore = ChoreId::of(machine, chore);
            say(minutes, Fact::ChoreDone { chore, minutes: Some(4.5), photo: None });
        }
        say(61, Fact::WatchRound);
        say(88, Fact::ChoreDone { chore: ChoreId::of("forge", "floor"), minutes: Some(6.0), photo: None });
        say(91, Fact::Left);
    }
    entries
}

/// Folds them all.
pub fn folded(entries: &[Entry]) -> State {
    let mut state = State::default();
    for entry in entries {
        fold(&mut state, entry);
    }
    state
}

#[cfg(target_arch = "wasm32")]
mod exported {
    //! What a host with a clock calls: what is made ready stays here until it is timed.

    use std::cell::RefCell;

    use super::{Case, Entry, folded, log};

    thread_local! {
        static READY: RefCell<(Option<Case>, Vec<Entry>)> = const { RefCell::new((None, Vec::new())) };
    }

    fn count(of: usize) -> u32 {
        u32::try_from(of).unwrap_or(u32::MAX)
    }

    /// Draws the plan that `planned` makes.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn draw_plan(seed: u32, chores: u32, crew: u32) {
        READY.with_borrow_mut(|ready| ready.0 = Some(Case::drawn(seed.into(), chores.into(), crew)));
    }

    /// Makes it, and returns how many steps it has.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn planned() -> u32 {
        READY.with_borrow(|ready| ready.0.as_ref().map_or(0, |case| count(case.plan().steps.len())))
    }

    /// Writes the log that `folded_sessions` folds, and returns how many entries it has.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn draw_log(sessions: u32) -> u32 {
        READY.with_borrow_mut(|ready| {
            ready.1 = log(sessions.into());
            count(ready.1.len())
        })
    }

    /// Folds it, and returns how many sessions there are then.
    #[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
    #[unsafe(no_mangle)]
    extern "C" fn folded_sessions() -> u32 {
        READY.with_borrow(|ready| count(folded(&ready.1).sessions.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_timed_is_what_it_says() {
        for (chores, crew) in [(1, 1), (12, 1), (7, 6)] {
            let case = Case::drawn(3, chores, crew);
            assert_eq!(case.plan().steps.len() as u64, chores);
        }
        let entries = log(145);
        assert_eq!(entries.len(), 2_030);
        let state = folded(&entries);
        assert_eq!(state.sessions.len(), 145);
    }
}
