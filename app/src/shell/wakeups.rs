//! Everything that may follow a sleep, and a tick each second (out of sight each five): one call for all of them.
//!
//! A phone stops timers as it likes. So nothing is concluded from a tick but that time has passed: what is due is
//! reckoned anew from stored instants at each wake-up.

use wasm_bindgen::prelude::*;

const TICK_MS: u32 = 1_000;

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    #[wasm_bindgen(js_name = onWake)]
    fn on_wake(told: &Closure<dyn FnMut(String)>);
    fn every(ms: u32, told: &Closure<dyn FnMut()>);
    #[wasm_bindgen(js_name = onWorkerMessage)]
    fn on_worker_message(told: &Closure<dyn FnMut(String)>);
}

/// What woke the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wake {
    /// A second has passed, or more; five out of sight.
    Tick,
    /// The page is seen again, or the phone says that it was asleep.
    Seen,
    /// There is a network, as far as the browser can tell.
    Network,
}

/// Calls `woken` at each wake-up, for as long as the page lives.
pub fn listen(woken: impl Fn(Wake) + Clone + 'static) {
    let tell = woken.clone();
    let woke = Closure::new(move |kind: String| tell(if kind == "online" { Wake::Network } else { Wake::Seen }));
    on_wake(&woke);
    woke.forget();
    let tell = woken.clone();
    let tick = Closure::new(move || tell(Wake::Tick));
    every(TICK_MS, &tick);
    tick.forget();
    // The service worker passes on the browser's background sync.
    let told = Closure::new(move |kind: String| {
        if kind == "sync" {
            woken(Wake::Network);
        }
    });
    on_worker_message(&told);
    told.forget();
}
