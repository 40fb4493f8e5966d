//! Fetching the later part: when the page has nothing else to do, or at once when something of it is opened.
//!
//! The page's script knows where it is and puts it in its place (`public/start.js`). A failure is kept, to be shown, and the
//! next asking tries again; nothing else of the app waits for it.

use leptos::prelude::*;
use shared_core::ids::DeviceId;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::intent::Dispatch;
use crate::later::parts;
use crate::parts::kept::{Kept, Setter, settable};

#[wasm_bindgen(module = "/js/device.js")]
extern "C" {
    #[wasm_bindgen(catch, js_name = fetchLater)]
    async fn fetch() -> Result<JsValue, JsValue>;
    /// Resolves once the page has nothing else to do.
    #[wasm_bindgen(js_name = whenIdle)]
    pub async fn when_idle();
}

/// How far it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Coming {
    /// Nobody has asked.
    #[default]
    Unasked,
    /// On its way.
    Underway,
    /// In its place.
    Here,
    /// It did not come.
    Failed,
}

/// How far it is, to be read, and to be set from here.
#[derive(Clone, Copy)]
pub struct Later {
    read: Kept<Coming>,
    set: Setter<Coming>,
}

impl Later {
    /// How far it is, followed.
    pub fn get(self) -> Coming {
        self.read.get()
    }
}

/// Before anybody has asked.
pub fn nobody_asked() -> Later {
    let (read, set) = settable(Coming::Unasked);
    Later { read, set }
}

/// Fetches it once the page is idle. Then what is kept is proved again.
pub fn fetch_when_idle(later: Later, dispatch: Dispatch, dev: DeviceId) {
    spawn_local(async move {
        if let Some(parts) = at_leisure(later).await {
            (parts.prove)(dispatch, dev);
        }
    });
}

/// The later part: at once if it is here, else once the page has nothing else to do; nothing where it does not come.
pub async fn at_leisure(later: Later) -> Option<&'static crate::later::Later> {
    while parts().is_none() {
        when_idle().await;
        hurry_into(later).await;
        if later.read.get_untracked() == Coming::Failed {
            break;
        }
    }
    parts()
}

/// How far it is, inside the app.
pub fn use_coming() -> Later {
    expect_context::<Later>()
}

/// Fetches it, unless it is here or on its way.
pub fn hurry(later: Later) {
    spawn_local(hurry_into(later));
}

/// The later part, once it has come; nothing where it cannot.
pub async fn come() -> Option<&'static crate::later::Later> {
    if parts().is_none() {
        // A failure shows where something of it is asked for.
        let _ = fetch().await;
    }
    parts()
}

async fn hurry_into(later: Later) {
    if matches!(later.read.get_untracked(), Coming::Underway | Coming::Here) {
        return;
    }
    later.set.set(&Coming::Underway);
    let came = come().await.is_some();
    later.set.set(if came { &Coming::Here } else { &Coming::Failed });
}
