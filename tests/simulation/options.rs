//! What kind of run a seed is: who takes part, how time goes, what breaks and how often.
//!
//! Drawn from the seed too, so that runs differ in kind and not only in order. Chances are per mille of a tick or of a
//! message; a kind of fault is absent from about half of the runs, because constant faults hide what calm reveals.

use crate::chance::Chance;

#[derive(Clone, Debug)]
pub(crate) struct Options {
    /// How many members carry a phone.
    pub(crate) phones: usize,
    /// True time between two wake-ups of a page.
    pub(crate) tick_ms: i64,
    /// Ticks in which everything may go wrong.
    pub(crate) faulty_ticks: usize,
    /// Chance that a person does something in a tick.
    pub(crate) act: i64,
    /// Chance that what they do makes no sense.
    pub(crate) nonsense: i64,
    pub(crate) net: NetOptions,
    pub(crate) disk: DiskOptions,
    pub(crate) clock: ClockOptions,
    /// Chance of a page dying at each point where it matters.
    pub(crate) crash: i64,
    /// Chance of a page being put to sleep in a tick.
    pub(crate) sleep: i64,
    /// Chance of a hub dying around its transaction.
    pub(crate) hub_crash: i64,
    /// Whether somebody who has joined sends forgeries.
    pub(crate) malice: bool,
    /// Whether a copy of one member's key is used elsewhere.
    pub(crate) twin: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct NetOptions {
    /// Chance that a message is lost.
    pub(crate) loss: i64,
    /// Chance that it arrives twice.
    pub(crate) twice: i64,
    /// Chance that it arrives cut short.
    pub(crate) cut: i64,
    /// Longest way of a message, in ticks; ways differ, so messages overtake each other.
    pub(crate) way_ticks_max: i64,
    /// Chance in a tick that a phone loses the network, or finds it again.
    pub(crate) partition: i64,
    pub(crate) heal: i64,
    /// Whether a late answer may be taken for the answer to a newer question.
    pub(crate) stale_answers: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct DiskOptions {
    /// Longest time until a write is durable, in ticks.
    pub(crate) flush_ticks_max: i64,
    /// Chance in a tick that the storage fills up, or has room again.
    pub(crate) full: i64,
    pub(crate) emptied: i64,
    /// Chance that a line has rotted when a page opens.
    pub(crate) rot: i64,
}

#[derive(Clone, Debug)]
pub(crate) struct ClockOptions {
    /// How far wall clocks are off at the start, at most.
    pub(crate) skew_ms_max: i64,
    /// How much faster or slower clocks go, at most, in parts per million.
    pub(crate) drift_ppm_max: i64,
    /// Chance in a tick that somebody sets a wall clock.
    pub(crate) jump: i64,
    /// Whether the monotonic clock stands still while a page sleeps.
    pub(crate) mono_freezes: bool,
}

impl Options {
    pub(crate) fn draw(chance: &mut Chance) -> Self {
        let tick_ms = *chance.pick(&[1_000, 1_000, 1_000, 5_000, 20_000, 60_000]);
        Self {
            phones: chance.below(4) + 3,
            tick_ms,
            // Most evenings are short, so that there can be many of them.
            faulty_ticks: if tick_ms == 1_000 { 1_500 } else { 500 } / *chance.pick(&[1, 4, 4, 8, 8]),
            act: if tick_ms == 1_000 { chance.range(10, 80) } else { chance.range(60, 300) },
            nonsense: *chance.pick(&[20, 150, 400]),
            net: NetOptions {
                loss: often(chance, 300),
                twice: often(chance, 200),
                cut: often(chance, 150),
                way_ticks_max: chance.range(0, 6),
                partition: often(chance, 20),
                heal: chance.range(5, 60),
                stale_answers: chance.hit(200),
            },
            disk: DiskOptions {
                flush_ticks_max: chance.range(0, 3),
                full: often(chance, 10),
                emptied: chance.range(20, 200),
                rot: often(chance, 60),
            },
            clock: ClockOptions {
                skew_ms_max: *chance.pick(&[0, 2_000, 600_000]),
                drift_ppm_max: chance.range(0, 200),
                jump: often(chance, 3),
                mono_freezes: chance.hit(500),
            },
            crash: often(chance, 20),
            sleep: often(chance, 10),
            hub_crash: often(chance, 60),
            malice: chance.hit(400),
            twin: chance.hit(150),
        }
    }
}

/// A chance up to `most`, and none at all in every second run.
fn often(chance: &mut Chance, most: i64) -> i64 {
    if chance.hit(500) { chance.range(1, most) } else { 0 }
}
