//! A phone's two clocks, neither of them right: the wall clock is off, drifts and is set; the monotonic one drifts, starts
//! anew with each page and may stand still while the phone sleeps.
//!
//! Only the world knows true time, and only checkers may ask for it.

use shared_core::clock::Reading;
use shared_core::time::Instant;

use crate::chance::Chance;
use crate::options::ClockOptions;

#[derive(Clone, Debug)]
pub(crate) struct Clocks {
    /// How far the wall clock is ahead of true time, drift apart.
    wall_ahead_ms: i64,
    drift_ppm: i64,
    /// True milliseconds at the start of the page.
    page_began_ms: i64,
    /// How long the monotonic clock has stood still in this page's life.
    stood_ms: i64,
    asleep_since_ms: Option<i64>,
    mono_freezes: bool,
    /// Whether the page was out of view since the last reading.
    out_of_view: bool,
    /// Whether it ever was in its life.
    slept: bool,
    /// How often somebody set the wall clock.
    pub(crate) set: u32,
}

impl Clocks {
    pub(crate) fn new(options: &ClockOptions, chance: &mut Chance) -> Self {
        Self {
            wall_ahead_ms: chance.range(-options.skew_ms_max, options.skew_ms_max),
            drift_ppm: chance.range(-options.drift_ppm_max, options.drift_ppm_max),
            page_began_ms: 0,
            stood_ms: 0,
            asleep_since_ms: None,
            mono_freezes: options.mono_freezes,
            out_of_view: false,
            slept: false,
            set: 0,
        }
    }

    fn drifted(&self, ms: i64) -> i64 {
        ms + ms * self.drift_ppm / 1_000_000
    }

    pub(crate) fn begin_page(&mut self, true_ms: i64) {
        (self.page_began_ms, self.stood_ms, self.asleep_since_ms) = (true_ms, 0, None);
        (self.out_of_view, self.slept) = (false, false);
    }

    pub(crate) fn sleep(&mut self, true_ms: i64) {
        (self.asleep_since_ms, self.slept) = (Some(true_ms), true);
    }

    /// How long a page has been looked at without a break, if it has.
    pub(crate) fn awake_ms(&self, true_ms: i64) -> Option<i64> {
        (!self.slept).then_some(true_ms - self.page_began_ms)
    }

    pub(crate) fn is_asleep(&self) -> bool {
        self.asleep_since_ms.is_some()
    }

    pub(crate) fn wake(&mut self, true_ms: i64) {
        if let Some(since) = self.asleep_since_ms.take() {
            self.out_of_view = true;
            if self.mono_freezes {
                self.stood_ms += true_ms - since;
            }
        }
    }

    /// Somebody sets the wall clock.
    pub(crate) fn set_wall(&mut self, by_ms: i64) {
        self.wall_ahead_ms += by_ms;
        self.set += 1;
    }

    /// What the wall clock says.
    pub(crate) fn wall(&self, base: Instant, true_ms: i64) -> Instant {
        Instant::from_ms(base.ms() + self.drifted(true_ms) + self.wall_ahead_ms)
    }

    /// What both clocks say to a page that looks.
    pub(crate) fn read(&mut self, base: Instant, true_ms: i64) -> Reading {
        let mono_ms = self.drifted(true_ms - self.page_began_ms - self.stood_ms);
        let in_view = !std::mem::take(&mut self.out_of_view);
        Reading { wall: self.wall(base, true_ms), mono_ms, in_view }
    }
}
