//! A steady clock over a wall clock that may be wrong or jump.
//!
//! Within a page's life durations come from the monotonic reading. A wall clock that runs away from it by more than
//! 30 s is a jump: told, entered in the log, and not followed. One case looks like a jump and is none: a phone that
//! slept, whose monotonic reading stood still meanwhile. Then the wall is right and is followed; following it too
//! readily can only make a bell early. See DESIGN.md section 4, "Time".
//!
//! Never reads a clock: readings are arguments.

use crate::time::{Instant, Span};

/// More than this apart, wall and steady time disagree.
pub const JUMP_MS: i64 = 30_000;
/// Two readings this far apart by either clock mean that the page did not run in between: it slept.
pub const ASLEEP_MS: i64 = 10_000;

/// What the two clocks of a device say at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The wall clock.
    pub wall: Instant,
    /// The monotonic clock, milliseconds since some start.
    pub mono_ms: i64,
    /// Whether the page was in view all the time since the last reading.
    pub in_view: bool,
}

/// A jump of the wall clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Jump {
    /// By how much; negative is backwards.
    pub by: Span,
}

/// Steady time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Steady {
    /// What was steady time at the last reading.
    now: Instant,
    /// The last reading.
    last: Reading,
    /// How far the wall is ahead of steady time, as last told.
    told: Span,
}

impl Steady {
    /// Steady time begins at the wall clock's word, but never before `floor`: the last entry of the log.
    pub fn begin(reading: Reading, floor: Option<Instant>) -> (Self, Option<Jump>) {
        let now = floor.map_or(reading.wall, |floor| reading.wall.max(floor));
        let by = reading.wall - now;
        let jump = (by.ms() < -JUMP_MS).then_some(Jump { by });
        (Self { now, last: reading, told: by }, jump)
    }

    /// Takes a reading; answers a jump once, when it happens.
    pub fn read(&mut self, reading: Reading) -> Option<Jump> {
        let mono = (reading.mono_ms - self.last.mono_ms).max(0);
        let mut steady = self.now + Span::from_ms(mono);
        // All that the wall gained since it was last told, not since the last reading: many short naps add up.
        let ahead = (reading.wall - steady) - self.told;
        let slept = !reading.in_view || mono > ASLEEP_MS;
        let mut jump = None;
        if ahead > Span::ZERO && slept {
            steady = steady + ahead;
        } else if ahead.ms().abs() > JUMP_MS {
            jump = Some(Jump { by: ahead });
            self.told = self.told + ahead;
        }
        self.now = steady;
        self.last = reading;
        jump
    }

    /// Steady time at the last reading.
    pub fn now(&self) -> Instant {
        self.now
    }

    /// How far the wall clock is ahead of steady time, jumps told so far.
    pub fn wall_ahead(&self) -> Span {
        self.told
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Readings as (wall seconds, monotonic seconds, in view); steady seconds and the jump, if any, after the last one.
    #[track_caller]
    fn check(readings: &[(i64, i64, bool)], steady_s: i64, jumps_s: &[i64]) {
        let reading = |&(wall, mono, in_view): &(i64, i64, bool)| Reading {
            wall: Instant::from_ms(wall * 1000),
            mono_ms: mono * 1000,
            in_view,
        };
        let (mut clock, first) = Steady::begin(reading(&readings[0]), None);
        assert_eq!(first, None);
        let jumps: Vec<i64> =
            readings[1..].iter().filter_map(|r| clock.read(reading(r))).map(|jump| jump.by.ms() / 1000).collect();
        assert_eq!((clock.now().ms() / 1000, jumps.as_slice()), (steady_s, jumps_s));
    }

    #[test]
    fn follows_the_monotonic_clock_and_tells_jumps_once() {
        check(&[(1000, 0, true), (1001, 1, true), (1002, 2, true)], 1002, &[]);
        // Set an hour forward in full view: told, not followed.
        check(&[(1000, 0, true), (4601, 1, true), (4602, 2, true)], 1002, &[3600]);
        // Set an hour back: told, not followed, asleep or not.
        check(&[(5000, 0, true), (1401, 1, true), (1402, 2, true)], 5002, &[-3600]);
        check(&[(5000, 0, true), (1460, 60, false), (1461, 61, true)], 5061, &[-3600]);
        // Small drift is neither.
        check(&[(1000, 0, true), (1021, 1, true)], 1001, &[]);
        // Twenty naps of 25 s with the monotonic clock standing still: none is a jump, and none is lost.
        let naps: Vec<(i64, i64, bool)> = (0..=20).map(|nap| (1000 + 26 * nap, nap, nap == 0)).collect();
        check(&naps, 1520, &[]);
        // Slept for an hour with the monotonic clock standing still, or running: the wall is right.
        check(&[(1000, 0, true), (4600, 2, false), (4601, 3, true)], 4601, &[]);
        check(&[(1000, 0, true), (4600, 3600, false)], 4600, &[]);
        // A monotonic clock that runs backwards counts as standing still.
        check(&[(1000, 10, true), (1001, 5, true)], 1000, &[]);
    }

    #[test]
    fn never_begins_before_the_last_entry() {
        let reading = Reading { wall: Instant::from_ms(0), mono_ms: 0, in_view: true };
        let floor = Instant::from_ms(100_000);
        let (clock, jump) = Steady::begin(reading, Some(floor));
        assert_eq!((clock.now(), jump), (floor, Some(Jump { by: Span::from_ms(-100_000) })));
    }
}
