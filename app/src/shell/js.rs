//! Small readings of JavaScript: what was thrown, where the page came from, the words that came with it.

use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    /// Scheme, host, and port if any, of the page's address.
    pub fn origin() -> String;
    /// Loads the page anew. What the screen has confirmed lies in the journal.
    pub fn reload();
    /// The catalogue that the page's script has fetched: `public/start.js`.
    pub fn words() -> String;
}

/// A thrown string, or the message of a thrown error.
pub fn word(thrown: &JsValue) -> String {
    thrown.as_string().unwrap_or_else(|| {
        let message = js_sys::Reflect::get(thrown, &"message".into()).ok().and_then(|message| message.as_string());
        message.unwrap_or_else(|| "an unnamed fault".to_owned())
    })
}
