//! The browser's own modal dialog: how it comes up, and where the focus goes once it is gone (`js/dialog.js`).
//!
//! Whoever draws a dialog says so here and opens none itself.

use leptos::html::Dialog;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;

use crate::parts::live::whenever;

#[wasm_bindgen(module = "/js/dialog.js")]
extern "C" {
    #[wasm_bindgen(js_name = comesUp)]
    fn comes_up(dialog: &JsValue);
    fn goes(dialog: &JsValue);
}

/// What is to be the `node_ref` of a dialog: it is shown for as long as it is mounted.
pub fn shown_dialog() -> NodeRef<Dialog> {
    let dialog = NodeRef::<Dialog>::new();
    whenever(move || {
        if let Some(dialog) = dialog.get() {
            comes_up(&dialog);
        }
    });
    on_cleanup(move || {
        if let Some(dialog) = dialog.try_get_untracked().flatten() {
            goes(&dialog);
        }
    });
    dialog
}
