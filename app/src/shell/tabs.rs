//! Several tabs of the app on one phone: they take turns at writing, and tell each other that they wrote.
//!
//! Where the browser has no locks, the journal's own check of the head is the guard; a lock only spares the second
//! try. A turn ends when its [`Lock`] is dropped.

use wasm_bindgen::prelude::*;

const LOG: &str = "sweepbell-log";
const SYNC: &str = "sweepbell-sync";

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn acquire(name: &str, at_once: bool) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(js_name = tellTabs)]
    fn tell_tabs();
    #[wasm_bindgen(js_name = onTold)]
    fn on_told(told: &Closure<dyn FnMut()>);
}

/// A turn, until it is dropped.
#[derive(Debug)]
pub struct Lock(Option<js_sys::Function>);

impl Drop for Lock {
    fn drop(&mut self) {
        if let Some(release) = self.0.take() {
            let _ = release.call0(&JsValue::UNDEFINED);
        }
    }
}

/// Waits for this tab's turn at the log. A browser that refuses a lock gives an empty one.
pub async fn lock_log() -> Lock {
    Lock(acquire(LOG, false).await.ok().and_then(|release| release.dyn_into().ok()))
}

/// This tab's turn at syncing, unless another tab has it.
pub async fn try_lock_sync() -> Option<Lock> {
    acquire(SYNC, true).await.ok().and_then(|release| release.dyn_into().ok()).map(|release| Lock(Some(release)))
}

/// Tells the other tabs that the log has grown.
pub fn tell_the_others() {
    tell_tabs();
}

/// Calls `told` whenever another tab wrote.
pub fn on_others(told: impl FnMut() + 'static) {
    let told = Closure::new(told);
    on_told(&told);
    told.forget();
}
