//! The fire watch against its definition, told minute by minute: several machines and several sessions at once, new sparks in
//! the watch, watchers who leave, nights across midnight.
//!
//! Everything happens at whole minutes. The demo shop's watch is held to the published minimum.

use proptest::prelude::*;
use shared_core::entry::{Entry, Fact};
use shared_core::fire_watch::{WatchStage, kept, watch};
use shared_core::rulebook::Rulebook;
use shared_core::state::State;
use shared_core::time::{Instant, Span};

use crate::table::rows;

const TORCHES: [&str; 2] = ["torch", "cutter"];

/// Ten minutes before midnight UTC, so that most watches cross it.
fn at(minute: i64) -> Instant {
    Instant::parse("2026-10-24T23:50:00Z").expect("RFC 3339") + Span::from_minutes(minute)
}

fn book(minutes: u32) -> Rulebook {
    let machine = |id: &str, hot: bool| {
        format!("[[machine]]\nid = \"{id}\"\nname = \"{id}\"\nroom = \"forge\"\ntraining = \"t\"\nhot_work = {hot}\n")
    };
    let text = format!(
        "[shop]\nname = \"Invented\"\ntime_zone = \"Etc/UTC\"\nsession_hours_max = 12\n[fire_watch]\nminutes = {minutes}\n\
         [[statement]]\nid = \"eyes\"\ntext = \"Eyes.\"\ndecline = \"Another day.\"\n[[room]]\nid = \"forge\"\nname = \"Forge\"\n\
         {}{}{}",
        machine("torch", true),
        machine("cutter", true),
        machine("saw", false)
    );
    let (book, problems) = shared_core::rulebook::parse::read(&text);
    assert_eq!(problems, [], "{text}");
    book.expect("a rulebook without problems")
}

/// A session's sparks: pauses and lengths at each of two torches, both of which may burn at once; a cold saw; its leaving.
#[derive(Clone, Debug)]
struct Stay {
    burns: [Vec<(i64, i64)>; 2],
    saws: bool,
    left: Option<i64>,
}

fn stay() -> impl Strategy<Value = Stay> {
    let burns = || {
        prop::collection::vec((0..40_i64, 1..20_i64), 0..3).prop_map(|pauses| {
            let mut end = 0;
            let burn = |(pause, length): (i64, i64)| {
                let from = end + pause;
                end = from + length;
                (from, end)
            };
            pauses.into_iter().map(burn).collect::<Vec<_>>()
        })
    };
    (burns(), burns(), any::<bool>(), prop::option::weighted(0.8, 0..90_i64)).prop_map(|(one, other, saws, stays)| {
        let last = one.iter().chain(&other).map(|(_, to)| *to).max().unwrap_or(0);
        Stay { burns: [one, other], saws, left: stays.map(|stays| last.max(3) + stays) }
    })
}

fn log(stays: &[Stay]) -> Vec<Entry> {
    let mut log = Vec::new();
    for (number, stay) in stays.iter().enumerate() {
        let mut say = |minute: i64, fact: Fact| {
            let name = format!("s{number}");
            log.push(Entry { at: at(minute), session: name.as_str().into(), who: name.as_str().into(), fact });
        };
        say(0, Fact::Entered { room: "forge".into(), out_by: at(300) });
        let hot = TORCHES.iter().zip(&stay.burns).flat_map(|(id, burns)| burns.iter().map(move |burn| (*id, *burn)));
        for (id, (from, to)) in hot.chain(stay.saws.then_some(("saw", (0, 3)))) {
            say(from, Fact::MachineStarted { machine: id.into(), material: None });
            say(to, Fact::MachineStopped { machine: id.into() });
        }
        if let Some(left) = stay.left {
            say(left, Fact::Left);
        }
    }
    log.sort_by_key(|entry| entry.at);
    log
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn every_minute_that_needs_a_watcher_and_has_none_is_told(
        stays in prop::collection::vec(stay(), 1..4),
        minutes in 1..70_u32,
        now in 0..200_i64,
    ) {
        let book = book(minutes);
        let log = log(&stays);
        let state = State::of(&log);
        for (number, stay) in stays.iter().enumerate() {
            let session = &state.sessions[&format!("s{number}").as_str().into()];
            let burns = || stay.burns.iter().flatten();
            let last_burning_minute = burns().map(|(_, to)| to - 1).max();
            let told = kept(&book, session);
            prop_assert_eq!(told.is_some(), last_burning_minute.is_some());
            let (Some(told), Some(last)) = (told, last_burning_minute) else { continue };

            // An ember may glow in each of the F minutes after the last one in which something burned.
            let glowing = last + 1..=last + i64::from(minutes);
            let until = session.left().unwrap_or(session.last_at);
            let unwatched = glowing.clone().filter(|minute| at(*minute) >= until);
            prop_assert_eq!(told.cut_short_minutes, i64::try_from(unwatched.count()).expect("few"));
            prop_assert_eq!(told.needed_until, at(glowing.end() + 1));
            prop_assert_eq!(told.kept_until, told.needed_until.min(until));

            // What the session's own phone shows at `now`, from what had happened by then.
            let before: Vec<Entry> = log.iter().filter(|entry| entry.at <= at(now)).cloned().collect();
            let state = State::of(&before);
            let Some(session) = state.sessions.get(&session.id).filter(|session| session.is_open()) else { continue };
            let burning = burns().any(|(from, to)| (*from..*to).contains(&now));
            let last = burns().filter(|(from, _)| *from <= now).map(|(_, to)| *to).max();
            let stage = watch(&book, session, at(now)).map(|watch| watch.stage);
            let expected = last.map(|last| match (burning, last + i64::from(minutes)) {
                (true, _) => WatchStage::Sparking,
                (false, until) if now < until => WatchStage::Watching { from: at(last), until: at(until) },
                (false, until) => WatchStage::Over { at: at(until) },
            });
            prop_assert_eq!(stage, expected);
        }
    }
}

#[test]
fn the_demo_shop_watches_as_long_as_the_law_asks() {
    let (book, problems) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    assert_eq!(problems, []);
    let minutes = book.expect("a rulebook without problems").fire_watch.minutes;
    for row in rows(include_str!("../data/watch-minutes.csv"), 1) {
        assert!(f64::from(minutes) >= row.number("minutes"), "{}: {minutes}", row.name());
    }
}
