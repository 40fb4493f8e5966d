//! Keeps the screen lit while a session runs, so that the bells can be seen.
//!
//! The browser lets go whenever the page is hidden and may refuse; it is asked again each time the page is seen.

use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    /// From now on, or no longer.
    #[wasm_bindgen(js_name = keepLit)]
    pub fn keep_lit(on: bool);
    /// Whether the screen is being kept lit.
    #[wasm_bindgen(js_name = isLit)]
    pub fn is_lit() -> bool;
}
