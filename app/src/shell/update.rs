//! New versions of the app, through the service worker.
//!
//! A version that waits takes over only when no session is open, or when the member asks for it; the page is loaded
//! anew once it has. Nothing is lost by that: what the screen has confirmed lies in the journal.

use wasm_bindgen::prelude::*;

const WORKER: &str = "/sw.js";

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    async fn register(path: &str, waiting: &Closure<dyn FnMut()>);
    #[wasm_bindgen(js_name = takeOver)]
    /// The waiting version takes over; the page is loaded anew.
    pub fn take_over();
    #[wasm_bindgen(js_name = askForBackgroundSync)]
    async fn ask_for_background_sync(tag: &str);
    #[wasm_bindgen(js_name = askToStay)]
    async fn ask_to_stay() -> JsValue;
}

/// Registers the worker; `waiting` is called when a new version stands ready.
pub async fn watch(waiting: impl FnMut() + 'static) {
    let waiting = Closure::new(waiting);
    register(WORKER, &waiting).await;
    waiting.forget();
}

/// Asks to be woken once there is a network, where the browser can.
pub async fn wake_for_sync() {
    ask_for_background_sync("log").await;
}

/// Asks the browser not to clear the log when space runs short; its answer.
pub async fn stay() -> bool {
    ask_to_stay().await.is_truthy()
}
