//! Reading aloud, where the phone can: whoever reads slowly, or has their hands full, hears a stop's lines.
//!
//! Nothing depends on it. In the language of the page; whether there is a voice for that the browser does not tell.

use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/speech.js")]
extern "C" {
    /// Whether this browser reads aloud at all.
    #[wasm_bindgen(js_name = canSpeak)]
    pub fn can_speak() -> bool;
    /// Reads this aloud, and nothing else any more.
    pub fn speak(text: &str);
    /// Ends that.
    #[wasm_bindgen(js_name = stopSpeaking)]
    pub fn hush();
}
