//! Random bytes, from the browser's own source and from nowhere else.

use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/keys.js")]
extern "C" {
    fn fill(bytes: &js_sys::Uint8Array) -> js_sys::Uint8Array;
}

/// `N` fresh random bytes.
pub fn bytes<const N: usize>() -> [u8; N] {
    let length = u32::try_from(N).expect("a handful of bytes");
    let mut out = [0; N];
    fill(&js_sys::Uint8Array::new_with_length(length)).copy_to(&mut out);
    out
}
