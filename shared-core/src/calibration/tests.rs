//! Sweeps in a small invented shop, judged by hand: the saw's chore is planned at 4 minutes, the floor's at 6, the floor of
//! the reserve is 2 minutes.

use crate::log::wire::read_line;

use super::*;

const SHOP: &str = r#"
[shop]
name = "Invented"
time_zone = "Etc/UTC"
session_hours_max = 12
[reserve]
floor_minutes = 2
quantile = 0.8
prior_weight = 5
[fire_watch]
minutes = 30
[[statement]]
id = "eyes"
text = "Eye protection is on."
decline = "Another day."
[[room]]
id = "forge"
name = "Forge"
[[room.chore]]
id = "floor"
text = "Sweep."
minutes = 6
[[machine]]
id = "saw"
name = "Saw"
room = "forge"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 4
[[machine]]
id = "torch"
name = "Torch"
room = "forge"
training = "torch"
hot_work = true
"#;

/// A session: minute, what and its fields.
fn session<'a>(name: &'a str, lines: &'a [(i64, &'a str)]) -> impl Iterator<Item = Entry> + 'a {
    lines.iter().map(move |(minute, what)| {
        let at = Instant::from_ms(1_780_000_000_000) + Span::from_minutes(*minute);
        let line = format!(r#"{{"at":"{at}","session":"{name}","who":"{name}",{what}}}"#);
        read_line(&line).expect(&line)
    })
}

const IN: (i64, &str) = (0, r#""what":"entered","room":"forge","out_by":"2026-05-29T00:00:00Z""#);

fn started(machine: &str) -> String {
    format!(r#""what":"machine_started","machine":"{machine}""#)
}

fn stopped(machine: &str) -> String {
    format!(r#""what":"machine_stopped","machine":"{machine}""#)
}

fn done(chore: &str, minutes: f64) -> String {
    format!(r#""what":"chore_done","chore":"{chore}","minutes":{minutes}"#)
}

const SWEEP: &str = r#""what":"sweep_started","crew":1"#;
const LEFT: &str = r#""what":"left""#;

#[track_caller]
fn check(sessions: &[Vec<(i64, String)>], sweeps: (u64, u64), incomplete: u64, saw: (u64, u64)) -> Calibration {
    let (book, problems) = crate::rulebook::parse::read(SHOP);
    assert_eq!(problems, []);
    let mut entries = Vec::new();
    for (number, lines) in sessions.iter().enumerate() {
        let lines: Vec<(i64, &str)> = lines.iter().map(|(minute, what)| (*minute, what.as_str())).collect();
        entries.extend(session(&format!("s{number}"), &[vec![IN], lines].concat()));
    }
    entries.sort_by_key(|entry: &Entry| entry.at);
    let said = calibrate(&book.expect("a rulebook"), &entries);
    let pair = |tally: Tally| (tally.within, tally.of);
    assert_eq!((pair(said.sweeps), said.incomplete, pair(said.machines[&"saw".into()])), (sweeps, incomplete, saw));
    said
}

/// At the saw for an hour, then a sweep in which brushing and sweeping take so long.
fn evening(begins: i64, brush: i64, floor: Option<i64>) -> Vec<(i64, String)> {
    let sweep = begins + 60;
    #[expect(clippy::cast_precision_loss, reason = "minutes")]
    let mut lines = vec![
        (begins, started("saw")),
        (sweep, stopped("saw")),
        (sweep, SWEEP.to_owned()),
        (sweep + brush, done("saw/brush", brush as f64)),
    ];
    #[expect(clippy::cast_precision_loss, reason = "minutes")]
    lines.extend(floor.map(|floor| (sweep + brush + floor, done("forge/floor", floor as f64))));
    lines.push((sweep + 40, LEFT.to_owned()));
    lines
}

#[test]
fn a_sweep_is_within_the_reserve_up_to_its_planned_end() {
    check(&[evening(0, 4, Some(6))], (1, 1), 0, (1, 1));
    check(&[evening(0, 4, Some(7))], (0, 1), 0, (0, 1));
    check(&[evening(0, 1, Some(9))], (1, 1), 0, (1, 1));
    // A sweep that left something out is no sweep in time.
    let said = check(&[evening(0, 1, None)], (0, 0), 1, (0, 0));
    assert_eq!(Tally::of(&said.chores[&"saw/brush".into()]), Tally { within: 1, of: 1 });
    // Whoever is still there, or went without sweeping, is not judged.
    check(&[vec![(5, started("saw"))], vec![(5, LEFT.to_owned())]], (0, 0), 0, (0, 0));
}

#[test]
fn the_plan_is_the_one_that_the_log_had_taught_by_then() {
    // Ten evenings of ten minutes' brushing: late at first, expected in the end. Five copies of the written 4 minutes and n
    // tens: the 0.8 quantile is at place 0.8 (n + 4) of 0 to n + 4. For n = 1 that is 4, the last of the fours; for n = 2 it
    // is 4.8, between 4 and 10: 8.8 minutes, so 9; for n = 3 it is 5.6, a ten.
    let evenings: Vec<_> = (0..10).map(|day| evening(day * 1440, 10, Some(6))).collect();
    let said = check(&evenings, (7, 10), 0, (7, 10));
    let brush = &said.chores[&"saw/brush".into()];
    let planned: Vec<i64> = brush.iter().map(|one| one.planned_minutes).collect();
    assert_eq!(planned, [4, 4, 9, 10, 10, 10, 10, 10, 10, 10]);
    assert!(brush.iter().all(|one| (one.written_minutes, one.took_minutes) == (4, 10.0)), "{brush:?}");
    assert_eq!(Tally::of(brush), Tally { within: 7, of: 10 });
}

#[test]
fn a_watch_that_still_runs_is_part_of_the_plan() {
    let evening = |ends: i64| {
        vec![
            (0, started("torch")),
            (10, stopped("torch")),
            (20, SWEEP.to_owned()),
            (ends, done("forge/floor", 6.0)),
            (60, LEFT.to_owned()),
        ]
    };
    // Watched until 40, then six minutes for the floor.
    let said = check(&[evening(46)], (1, 1), 0, (0, 0));
    assert_eq!(said.machines[&"torch".into()], Tally { within: 1, of: 1 });
    check(&[evening(47)], (0, 1), 0, (0, 0));
}

/// What had been learned by an instant, by looking at all of the log: of each chore the last times, oldest first.
fn learned(state: &State, now: Instant) -> History {
    let mut all: Vec<(Instant, i64, &ChoreId)> = Vec::new();
    for session in state.sessions.values() {
        for (chore, done) in &session.chores {
            let milli = done.minutes.and_then(crate::state::believable_milli);
            all.extend(milli.filter(|_| done.at <= now).map(|milli| (done.at, milli, chore)));
        }
    }
    all.sort();
    let mut history = History::new();
    for (_, milli, chore) in all {
        let seen = history.entry(chore.clone()).or_default();
        seen.push(f64::from(i32::try_from(milli).expect("minutes of a chore")) / 1000.0);
        seen.drain(..seen.len().saturating_sub(crate::state::OBSERVED_MOST));
    }
    history
}

#[test]
fn what_was_taught_by_an_instant_is_the_last_of_all_that_was_seen_by_then() {
    const SESSIONS: i64 = 300;
    const MINUTES: i64 = SESSIONS * 20;
    let book = crate::rulebook::parse::read(SHOP).0.expect("the invented shop");
    let mut chance = chance_from(7);
    let mut entries = Vec::new();
    for number in 0..SESSIONS {
        let (name, from) = (format!("s{number}"), chance(MINUTES));
        let mut lines = vec![(from, IN.1.to_owned())];
        // Every session sweeps, one in nine brushes, and some stay for days.
        for (chore, one_in, minutes) in [("forge/floor", 1, chance(9_000)), ("saw/brush", 9, chance(9_000))] {
            if chance(one_in) == 0 {
                let tick = done(chore, f64::from(i32::try_from(minutes).expect("four figures")) / 1000.0);
                lines.push((from + chance(if number % 20 == 0 { 4_000 } else { 90 }), tick));
            }
        }
        let lines: Vec<(i64, &str)> = lines.iter().map(|(minute, what)| (*minute, what.as_str())).collect();
        entries.extend(session(&name, &lines));
    }
    let state = State::of(&entries);
    for first in [0, MINUTES / 3, MINUTES - 200] {
        let at = |minute| Instant::from_ms(1_780_000_000_000) + Span::from_minutes(minute);
        let mut taught = Taught::of(&book, &state, at(first));
        for now in (first..MINUTES + 4_100).step_by(70) {
            assert_eq!(*taught.by(at(now)), learned(&state, at(now)), "from {first}, at {now}");
        }
    }
}

/// Numbers below a bound, from a seed (a linear congruence, Knuth's MMIX constants).
fn chance_from(mut seed: u64) -> impl FnMut(i64) -> i64 {
    move |below| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from((seed >> 33) % u64::try_from(below).expect("above zero")).expect("31 bits")
    }
}
