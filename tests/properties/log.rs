//! A log, one entry's JSON a line: what is read comes back when written; any order of anything folds, is reported, and goes on from
//! bytes as from itself.

use std::sync::LazyLock;

use shared_core::log::wire;
use shared_core::members::Members;
use shared_core::report::report;
use shared_core::rulebook::{Rulebook, parse};
use shared_core::state::{State, fold};
use shared_core::time::Instant;
use shared_core::trace::trace;
use shared_core::view::{Viewer, bench, door, room, sweep};

use super::comes_back;

/// Lines past these are passed over: a fuzzer that is let writes ever longer logs.
const LINES_MAX: usize = 40;
/// Phones past these are passed over, for the same reason.
const SESSIONS_MAX: usize = 3;

static SHOP: LazyLock<Rulebook> = LazyLock::new(|| {
    let (book, problems) = parse::read(include_str!("../data/case-log-1-shop.toml"));
    book.unwrap_or_else(|| panic!("{problems:#?}"))
});

/// Holds of any bytes.
///
/// # Panics
///
/// If it does not.
pub fn holds(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let (mut state, mut last) = (State::default(), Instant::from_ms(0));
    for line in text.lines().take(LINES_MAX) {
        let Ok(entry) = wire::read_line(line) else { continue };
        comes_back(&entry);
        let mut from_bytes = again(&state);
        fold(&mut from_bytes, &entry);
        fold(&mut state, &entry);
        assert_eq!(from_bytes, state, "a state that was written and read folds as before");
        last = last.max(entry.at);
    }
    let told = report(&SHOP, &state);
    assert_eq!(told.sessions.len(), state.sessions.len(), "every session is reported, and none twice");
    for machine in &SHOP.machines {
        let traced = trace(&state, machine, last);
        assert!(traced.footage_minutes >= 0, "{traced:?}");
        for window in &traced.windows {
            assert!(window.from <= window.to && window.to <= last, "{window:?}");
        }
    }
    is_shown(&state, last);
}

/// Written as bytes, and read.
fn again(state: &State) -> State {
    let bytes = borsh::to_vec(state).expect("no number of a log is none");
    borsh::from_slice(&bytes).expect("it was just written")
}

/// Every phone that syncs this log shows something, whoever holds it.
fn is_shown(state: &State, now: Instant) {
    let members = Members::default();
    for (id, session) in state.sessions.iter().take(SESSIONS_MAX) {
        let (me, session) = (&session.who, Some(id));
        let viewer = Viewer { book: &SHOP, members: &members, state, me, session, now, day_from: now };
        let (door, bench) = (door::door(&viewer, None), bench::bench(&viewer));
        let shown = format!("{door:?}{bench:?}{:?}{:?}", sweep::sweep(&viewer), room::room(&viewer));
        assert!(!shown.is_empty());
    }
}
