//! The bell's voice: sound, a shake, its words aloud, and a notice of the phone's own.
//!
//! When a bell rings is `shared_core::bell`'s to say, from stored instants; this file only makes it heard. The flash is
//! the screen's (at most three a second, none under reduced motion). Sound needs one touch of the page beforehand.

use wasm_bindgen::prelude::*;

const TAG: &str = "bell";

#[wasm_bindgen(module = "/js/bell.js")]
extern "C" {
    /// From the first touch on, sound may be made.
    #[wasm_bindgen(js_name = unlockOnTouch)]
    pub fn unlock_on_touch();
    /// Whether a ring would be heard, as far as the browser tells.
    pub fn audible() -> bool;
    /// How bells come on this phone, as its owner chose: words of `bell.js`.
    pub fn manner() -> String;
    /// Keeps that.
    #[wasm_bindgen(js_name = setManner)]
    pub fn set_manner(words: &str);
    /// Whether this browser can say a bell's words aloud.
    pub fn speaks() -> bool;
    #[wasm_bindgen(js_name = ring)]
    fn js_ring(low_hz: f64, high_hz: f64, rounds: u32);
    fn shake(pattern_ms: &[u32]);
    #[wasm_bindgen(js_name = noticesAllowed)]
    fn notices_allowed() -> String;
    #[wasm_bindgen(js_name = askForNotices)]
    async fn ask_for_notices() -> JsValue;
    async fn notice(title: &str, body: &str, tag: &str) -> JsValue;
    #[wasm_bindgen(js_name = closeNotices)]
    async fn close_notices(tag: &str);
}

/// How loud a bell means to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strength {
    /// Finish the pass you are on.
    Gentle,
    /// Start now, or you are past it.
    Full,
}

/// Whether the phone may show notices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Notices {
    /// It may.
    Granted,
    /// Nobody has been asked.
    Unasked,
    /// It may not, or cannot.
    None,
}

/// Two rising tones and a shake.
pub fn ring(strength: Strength) {
    // A fifth apart, where speech and most machines are weak and small loudspeakers are strong.
    let (rounds, pattern_ms): (_, &[u32]) = match strength {
        Strength::Gentle => (2, &[200, 100, 400]),
        Strength::Full => (5, &[400, 150, 400, 150, 400, 150, 800]),
    };
    js_ring(880.0, 1320.0, rounds);
    shake(pattern_ms);
}

/// Shows a bell as a notice that a later one replaces; true if it was shown.
pub async fn show_notice(title: &str, body: &str) -> bool {
    notice(title, body, TAG).await.is_truthy()
}

/// Takes the bell's notice away.
pub async fn close_notice() {
    close_notices(TAG).await;
}

/// Whether notices may be shown.
pub fn notices() -> Notices {
    meaning(&notices_allowed())
}

/// Asks the member for notices. Must follow a touch.
pub async fn ask() -> Notices {
    meaning(&ask_for_notices().await.as_string().unwrap_or_default())
}

fn meaning(word: &str) -> Notices {
    match word {
        "granted" => Notices::Granted,
        "default" => Notices::Unasked,
        _ => Notices::None,
    }
}
