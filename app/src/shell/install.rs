//! Putting the app on the home screen: whether this browser asks by itself, and the way where it does not.

use wasm_bindgen::prelude::*;

#[wasm_bindgen(module = "/js/install.js")]
extern "C" {
    #[wasm_bindgen(js_name = way)]
    fn js_way() -> u8;
    /// Lets the browser ask, if it offered to. Must follow a touch.
    pub fn ask();
}

/// The way to the home screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// It is there already.
    There,
    /// The browser asks.
    Asks,
    /// By the share sheet of an iPhone or iPad.
    ShareSheet,
    /// By the menu of a browser on Android.
    Menu,
    /// By the browser of a computer.
    Computer,
}

/// The way in this browser.
pub fn way() -> Way {
    match js_way() {
        0 => Way::There,
        1 => Way::Asks,
        2 => Way::ShareSheet,
        3 => Way::Menu,
        _ => Way::Computer,
    }
}
