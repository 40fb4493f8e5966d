//! What kind of run a seed is: who takes part, how time goes, what breaks and how often.
//!
//! Drawn from the seed too, so that runs differ in kind and not only in order. Chances are per mille of a tick or of a
//! message; a kind of fault is absent from about half of the runs, because constant faults hide what calm reveals.

use crate::chance::Chance;

const DAY_MS: i64 = 24 * 3_600_000;

#[derive(Clone, Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is there or not, whatever the others are")]
pub(crate) struct Options {
    /// How many phones there are.
    pub(crate) phones: usize,
    /// Whether some of them belong to one member.
    pub(crate) second_phones: bool,
    /// Whether one of them hangs on the wall and is only looked at.
    pub(crate) board: bool,
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
    pub(crate) hub: HubOptions,
    pub(crate) erasing: ErasingOptions,
    /// Chance in a tick that the steward changes the rules.
    pub(crate) new_rules: i64,
    /// Whether some phones, or the hub, are of an earlier or a later release.
    pub(crate) releases: bool,
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
    /// Chance in a tick that an old question arrives once more.
    pub(crate) replay: i64,
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
pub(crate) struct HubOptions {
    /// How many processes share the store.
    pub(crate) processes: usize,
    /// Longest time until a change is on the disk, in ticks.
    pub(crate) commit_ticks_max: i64,
    /// Chance of a process dying at each point where it matters.
    pub(crate) crash: i64,
    /// Chance in a tick that the store is copied, or that the last copy is put in its place.
    pub(crate) backup: i64,
    pub(crate) put_back: i64,
}

#[derive(Clone, Debug)]
pub(crate) struct ErasingOptions {
    /// Chance in a tick that a member has what is held about them erased.
    pub(crate) own: i64,
    /// Chance in a tick that a steward has it done for somebody.
    pub(crate) by_steward: i64,
    /// For how many days the log is kept; for ever, if none, as far as an evening can tell.
    pub(crate) retention_days: Option<u32>,
}

#[derive(Clone, Debug)]
pub(crate) struct ClockOptions {
    /// How far wall clocks are off at the start, at most.
    pub(crate) skew_ms_max: i64,
    /// How much faster or slower clocks go, at most, in parts per million.
    pub(crate) drift_ppm_max: i64,
    /// Chance in a tick that somebody sets a wall clock, and by how much at most.
    pub(crate) jump: i64,
    pub(crate) jump_ms_max: i64,
    /// Whether the monotonic clock stands still while a page sleeps.
    pub(crate) mono_freezes: bool,
}

impl Options {
    pub(crate) fn draw(chance: &mut Chance) -> Self {
        let tick_ms = *chance.pick(&[1_000, 1_000, 1_000, 5_000, 20_000, 60_000, 60_000, 600_000]);
        Self {
            phones: chance.below(4) + 3,
            second_phones: chance.hit(250),
            board: chance.hit(250),
            tick_ms,
            // Most evenings are short, so that there can be many of them.
            faulty_ticks: if tick_ms == 1_000 { 1_500 } else { 500 } / *chance.pick(&[1, 4, 4, 8, 8]),
            act: match tick_ms {
                1_000 => chance.range(10, 80),
                60_000.. => chance.range(200, 800),
                _ => chance.range(60, 300),
            },
            nonsense: *chance.pick(&[20, 150, 400]),
            net: NetOptions::draw(chance),
            disk: DiskOptions {
                flush_ticks_max: chance.range(0, 3),
                full: often(chance, 10),
                emptied: chance.range(20, 200),
                rot: often(chance, 60),
            },
            clock: ClockOptions {
                skew_ms_max: *chance.pick(&[0, 2_000, 600_000, 3 * DAY_MS]),
                drift_ppm_max: chance.range(0, 200),
                jump: often(chance, 3),
                jump_ms_max: *chance.pick(&[7_200_000, 7_200_000, 2 * DAY_MS]),
                mono_freezes: chance.hit(500),
            },
            crash: often(chance, 20),
            sleep: often(chance, 10),
            hub: HubOptions {
                processes: *chance.pick(&[1, 1, 2, 3]),
                commit_ticks_max: chance.range(0, 2),
                crash: often(chance, 60),
                backup: chance.range(5, 60),
                put_back: if chance.hit(300) { chance.range(2, 15) } else { 0 },
            },
            erasing: ErasingOptions { own: 0, by_steward: 0, retention_days: None },
            new_rules: if chance.hit(300) { chance.range(2, 20) } else { 0 },
            releases: chance.hit(300),
            malice: chance.hit(400),
            twin: chance.hit(150),
        }
        .with_erasing(chance)
    }

    fn with_erasing(mut self, chance: &mut Chance) -> Self {
        if chance.hit(300) {
            self.erasing.own = often(chance, 40);
            self.erasing.by_steward = often(chance, 20);
            // What an older copy brings back is worth more looks than chance gives it.
            if chance.hit(400) {
                self.hub.put_back = self.hub.put_back.max(chance.range(2, 15));
            }
        }
        if chance.hit(80) {
            // Days must pass for anything to be over.
            (self.tick_ms, self.faulty_ticks) = (30 * 60_000, 150);
            self.act = chance.range(200, 800);
            self.erasing.retention_days = Some(1);
        }
        self
    }

    /// A small evening in which nothing goes wrong by itself.
    pub(crate) fn calm(chance: &mut Chance) -> Self {
        let mut calm = Self::draw(chance);
        (calm.phones, calm.second_phones, calm.board) = (3, false, false);
        (calm.tick_ms, calm.faulty_ticks, calm.act, calm.nonsense) = (60_000, 45, 700, 50);
        (calm.net.loss, calm.net.twice, calm.net.cut, calm.net.partition, calm.net.replay) = (0, 0, 0, 0, 0);
        (calm.net.way_ticks_max, calm.net.stale_answers) = (0, false);
        (calm.disk.full, calm.disk.rot, calm.clock.jump) = (0, 0, 0);
        (calm.crash, calm.sleep, calm.hub.crash, calm.hub.put_back, calm.new_rules) = (0, 0, 0, 0, 0);
        calm.erasing = ErasingOptions { own: 40, by_steward: 0, retention_days: None };
        (calm.malice, calm.twin) = (false, false);
        calm
    }
}

impl NetOptions {
    fn draw(chance: &mut Chance) -> Self {
        Self {
            loss: often(chance, 300),
            twice: often(chance, 200),
            cut: often(chance, 150),
            way_ticks_max: chance.range(0, 6),
            partition: often(chance, 20),
            heal: chance.range(5, 60),
            replay: often(chance, 30),
            stale_answers: chance.hit(200),
        }
    }
}

/// A chance up to `most`, and none at all in every second run.
fn often(chance: &mut Chance, most: i64) -> i64 {
    if chance.hit(500) { chance.range(1, most) } else { 0 }
}
