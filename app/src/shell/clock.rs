//! Reads the phone's two clocks. The one place that asks what time it is.
//!
//! What follows from a reading (steady time, a jump) is reckoned in `shared_core::clock`.

use shared_core::time::Instant;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    fn now() -> f64;
    fn steady() -> f64;
}

/// Both clocks at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The wall clock, which may be wrong or jump.
    pub wall: Instant,
    /// The monotonic clock, in milliseconds since the page was opened.
    pub mono_ms: i64,
}

/// Reads both clocks.
#[expect(clippy::cast_possible_truncation, reason = "milliseconds of any plausible date fit an i64")]
pub fn read() -> Reading {
    Reading { wall: Instant::from_ms(now() as i64), mono_ms: steady() as i64 }
}
