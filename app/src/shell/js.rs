//! What is thrown by JavaScript, as text.

use wasm_bindgen::JsValue;

/// A thrown string, or the message of a thrown error.
pub fn word(thrown: &JsValue) -> String {
    thrown.as_string().unwrap_or_else(|| {
        let message = js_sys::Reflect::get(thrown, &"message".into()).ok().and_then(|message| message.as_string());
        message.unwrap_or_else(|| "an unnamed fault".to_owned())
    })
}
