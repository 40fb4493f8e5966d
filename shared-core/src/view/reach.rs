//! What of a session's bells reaches a pocket without a network: the phone's own timer, set by its owner.
//!
//! Nothing here knows whether a timer runs: the owner's word is all there is, and it is shown as that.

use crate::state::Session;
use crate::time::{Instant, MINUTE_MS, Span};
use crate::view::bench::Times;

/// A timer counts whole minutes, and setting it takes a moment: so much later than the sweep bell is still in time.
const SLACK: Span = Span::from_ms(MINUTE_MS);

/// The phone's own timer, as its owner said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Timer {
    /// Nobody said that one is set, or it has rung.
    NotSet,
    /// It rings in time for the sweep.
    Set {
        /// When.
        rings_at: Instant,
    },
    /// It rings after the sweep bell, which has moved earlier since.
    TooLate {
        /// When.
        rings_at: Instant,
    },
}

/// How the timer of a session stands at `now`.
pub fn timer(session: &Session, times: Option<&Times>, now: Instant) -> Timer {
    match (session.timer.filter(|rings_at| *rings_at > now), times) {
        (Some(rings_at), Some(times)) if rings_at > times.sweep_from + SLACK => Timer::TooLate { rings_at },
        (Some(rings_at), _) => Timer::Set { rings_at },
        (None, _) => Timer::NotSet,
    }
}

/// For how many whole minutes a timer is to be set that rings by the sweep bell, and no later; nothing once that is
/// less than a minute away.
pub fn minutes_to_set(times: &Times, now: Instant) -> Option<i64> {
    let minutes = (times.sweep_from - now).ms() / MINUTE_MS;
    (minutes > 0).then_some(minutes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::testing::{World, at};
    use crate::view::bench::bench;

    /// Noor comes in at 0, out by 120; the timer is said to ring at `rings`; then out-by moves.
    fn check(rings: Option<i64>, out_by: Option<i64>, now: i64, expected: impl Fn(Instant) -> Timer) {
        let mut world = World::new();
        world.enter("noor", 0, 120).expect("she may");
        if let Some(rings) = rings {
            world.act("noor", 1, Command::SetTimer { rings_at: at(rings) }).expect("she is in");
        }
        if let Some(out_by) = out_by {
            world.act("noor", 2, Command::MoveOutBy { out_by: at(out_by) }).expect("there is time");
        }
        let me = "noor".into();
        let viewer = world.viewer(&me, at(now));
        let shown = bench(&viewer).expect("she is in");
        let session = viewer.open_session().expect("she is in");
        let times = shown.times.expect("there is a plan");
        assert_eq!(timer(session, Some(&times), at(now)), expected(at(rings.unwrap_or(0))), "{rings:?} {out_by:?}");
    }

    #[test]
    fn a_timer_is_its_owners_word_and_too_late_once_the_sweep_is_earlier() {
        check(None, None, 3, |_| Timer::NotSet);
        check(Some(90), None, 3, |rings_at| Timer::Set { rings_at });
        check(Some(90), Some(60), 3, |rings_at| Timer::TooLate { rings_at });
        check(Some(90), Some(200), 3, |rings_at| Timer::Set { rings_at });
        // It has rung.
        check(Some(30), None, 30, |_| Timer::NotSet);
    }

    #[test]
    fn a_timer_rings_by_the_sweep_bell_and_no_later() {
        let mut world = World::new();
        world.enter("noor", 0, 120).expect("she may");
        let me = "noor".into();
        let times = bench(&world.viewer(&me, at(1))).expect("she is in").times.expect("there is a plan");
        for (before_ms, minutes) in [(60_000, Some(1)), (59_999, None), (0, None), (-1, None), (6_719_999, Some(111))] {
            let now = times.sweep_from - Span::from_ms(before_ms);
            assert_eq!(minutes_to_set(&times, now), minutes, "{before_ms} ms before");
        }
    }
}
