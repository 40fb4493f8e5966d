//! Whether the hub can ring this phone while it is locked or its app is closed: asked of the browser, and let.
//!
//! What is said to whom is the hub's (`shared_core::call`), how it is shown the service worker's (`public/later_calls.js`).
//! Nothing here says that a phone is reached: a push service promises nothing, and a phone may sleep through it.

use std::future::Future;

use js_sys::Promise;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen(module = "/js/push.js")]
extern "C" {
    #[wasm_bindgen(js_name = state)]
    async fn js_state(key: &str) -> JsValue;
    #[wasm_bindgen(js_name = arm)]
    fn js_arm(key: &str) -> Promise;
    /// The browser gives the address back; what is sent there is lost from then on.
    pub fn end();
}

/// How it stands in this browser.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Push {
    /// It cannot.
    Unsupported,
    /// It can, once the app stands on the home screen and is opened there.
    HomeScreen,
    /// Nobody has let it.
    Unasked,
    /// Somebody said no, and the phone's settings keep to that.
    Refused,
    /// It has an address to be rung at: this, as JSON.
    Armed(String),
    /// It gave no address.
    Failed,
}

/// How it stands, with the hub's key if that is known: an address that was given for another key is none.
pub async fn state(key: &str) -> Push {
    read(&js_state(key).await)
}

/// Lets the hub ring this phone. Must be called by a touch, after [`state`]; asks the member at once, before anything is
/// awaited.
pub fn arm(key: &str) -> impl Future<Output = Push> + use<> {
    let asked = JsFuture::from(js_arm(key));
    async move { asked.await.map_or(Push::Failed, |said| read(&said)) }
}

fn read(said: &JsValue) -> Push {
    match said.as_string().unwrap_or_default().as_str() {
        "unsupported" => Push::Unsupported,
        "home-screen" => Push::HomeScreen,
        "unasked" => Push::Unasked,
        "refused" => Push::Refused,
        json if json.starts_with('{') => Push::Armed(json.to_owned()),
        _ => Push::Failed,
    }
}
