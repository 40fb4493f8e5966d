//! Reads the phone's two clocks. The one place that asks what time it is.
//!
//! What follows from a reading (steady time, a jump, a sleep) is reckoned in `shared_core::clock`.

use shared_core::clock::Reading;
use shared_core::time::Instant;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    fn now() -> f64;
    fn steady() -> f64;
    #[wasm_bindgen(js_name = seenSince)]
    fn seen_since() -> bool;
}

/// Reads both clocks, and whether the page was in view since the last reading.
#[expect(clippy::cast_possible_truncation, reason = "milliseconds of any plausible date fit an i64")]
pub fn read() -> Reading {
    Reading { wall: Instant::from_ms(now() as i64), mono_ms: steady() as i64, in_view: seen_since() }
}
