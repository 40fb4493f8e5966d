//! Trace against its definition, told minute by minute and without the shipping code's arithmetic: no window could be left
//! out, and none added.
//!
//! Everything happens at whole minutes, so that looking at the middle of each minute misses nothing.

use std::collections::BTreeSet;

use proptest::prelude::*;
use shared_core::entry::{Condition, Entry, Fact, Place};
use shared_core::rulebook::Machine;
use shared_core::state::State;
use shared_core::time::{Instant, Span};
use shared_core::trace::trace;

/// One stay: when it came and left, its uses of the machine, when each of two chores was ticked.
#[derive(Clone, Debug)]
struct Stay {
    from: i64,
    left: Option<i64>,
    uses: Vec<(i64, i64)>,
    chores: [Option<i64>; 2],
}

fn at(minute: i64) -> Instant {
    Instant::from_ms(1_780_000_000_000) + Span::from_minutes(minute)
}

fn stay() -> impl Strategy<Value = Stay> {
    let turn = (0..40_i64, 1..15_i64);
    let tick = || prop::option::weighted(0.6, 0..90_i64);
    (0..60_i64, prop::option::weighted(0.8, 0..100_i64), prop::collection::vec(turn, 0..3), tick(), tick()).prop_map(
        |(from, stays, uses, one, other)| {
            let mut begin = from;
            let uses: Vec<(i64, i64)> = uses
                .into_iter()
                .map(|(pause, length)| {
                    let from = begin + pause;
                    begin = from + length;
                    (from, begin)
                })
                .collect();
            let chores = [one, other].map(|tick| tick.map(|after| from + after));
            let last = chores.iter().flatten().copied().chain([begin]).max().unwrap_or(begin);
            Stay { from, left: stays.map(|stays| last + stays), uses, chores }
        },
    )
}

/// The log of some stays and of findings, in order of time.
fn log(stays: &[Stay], clean: &[i64]) -> Vec<Entry> {
    let mut log = Vec::new();
    for (number, stay) in stays.iter().enumerate() {
        let mut say = |minute: i64, fact: Fact| {
            let name = format!("s{number}");
            log.push(Entry { at: at(minute), session: name.as_str().into(), who: name.as_str().into(), fact });
        };
        say(stay.from, Fact::Entered { room: "forge".into(), out_by: at(500) });
        for (from, to) in &stay.uses {
            say(*from, Fact::MachineStarted { machine: "saw".into(), material: None });
            say(*to, Fact::MachineStopped { machine: "saw".into() });
        }
        for (name, tick) in ["saw/brush", "saw/bin"].iter().zip(stay.chores) {
            if let Some(minute) = tick {
                say(minute, Fact::ChoreDone { chore: (*name).into(), minutes: None, photo: None });
            }
        }
        if let Some(left) = stay.left {
            say(left, Fact::Left);
        }
    }
    for minute in clean {
        let fact = Fact::Found { place: Place::Machine("saw".into()), condition: Condition::Clean, note: None };
        log.push(Entry { at: at(*minute), session: "finder".into(), who: "finder".into(), fact });
    }
    log.sort_by_key(|entry| entry.at);
    log
}

/// The last minute before `seen` at which the machine was left or found clean.
fn last_clean(stays: &[Stay], clean: &[i64], seen: i64) -> Option<i64> {
    let left = stays.iter().filter(|stay| !stay.uses.is_empty()).filter_map(|stay| match stay.chores {
        [Some(one), Some(other)] => Some(one.max(other)),
        _ => None,
    });
    left.chain(clean.iter().copied()).filter(|minute| *minute < seen).max()
}

/// Whether a mess made in the middle of some minute of this use would be news since the machine was last clean and would
/// have been there when it was seen: the definition of a suspect.
fn could_have_left_it(use_: (i64, i64), since: Option<i64>, seen: i64) -> bool {
    (use_.0..use_.1).any(|minute| since.is_none_or(|since| minute >= since) && minute < seen)
}

fn machine() -> Machine {
    let (book, problems) = shared_core::rulebook::parse::read(SHOP);
    assert_eq!(problems, []);
    book.and_then(|book| book.machine(&"saw".into()).cloned()).expect("a saw")
}

const SHOP: &str = r#"
[shop]
name = "Invented"
time_zone = "Etc/UTC"
session_hours_max = 12
[[statement]]
id = "eyes"
text = "Eye protection is on."
decline = "Another day."
[[room]]
id = "forge"
name = "Forge"
[[machine]]
id = "saw"
name = "Saw"
room = "forge"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 2
[[machine.chore]]
id = "bin"
text = "Empty the bin."
minutes = 1
"#;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    #[test]
    fn the_windows_are_the_suspects_and_no_others(
        stays in prop::collection::vec(stay(), 0..6),
        clean in prop::collection::vec(0..160_i64, 0..3),
        seen in 0..200_i64,
    ) {
        let state = State::of(&log(&stays, &clean));
        let traced = trace(&state, &machine(), at(seen));
        let since = last_clean(&stays, &clean, seen);
        prop_assert_eq!(traced.from, since.map(at));

        let mut suspects = BTreeSet::new();
        let mut footage = BTreeSet::new();
        for (number, stay) in stays.iter().enumerate() {
            for use_ in stay.uses.iter().filter(|use_| could_have_left_it(**use_, since, seen)) {
                // To the later of the session's end and its last chore on the machine, never past the seeing.
                let last_chore = stay.chores.iter().flatten().copied().max();
                let end = stay.left.unwrap_or(seen).max(last_chore.unwrap_or(0)).max(use_.1).min(seen);
                suspects.insert((format!("s{number}"), at(use_.0), at(end)));
                footage.extend(use_.0..end);
            }
        }
        let told: BTreeSet<_> =
            traced.windows.iter().map(|window| (window.session.to_string(), window.from, window.to)).collect();
        prop_assert_eq!(told.len(), traced.windows.len(), "each window once");
        prop_assert_eq!(&told, &suspects);
        prop_assert_eq!(usize::try_from(traced.footage_minutes), Ok(footage.len()));
        prop_assert!(traced.windows.is_sorted_by_key(|window| window.from));
    }
}
