//! The page's address: where the app is, by the browser's own history.
//!
//! One signal of the path, one function that goes somewhere. Links of the app change the address without a load; back
//! and forward are the browser's. What a path means is [`crate::route`]'s to say.

use leptos::prelude::*;
use shared_core::ids::RoomId;
use wasm_bindgen::prelude::*;

use crate::parts::kept::{Kept, kept};
use crate::route::Route;

#[wasm_bindgen(module = "/js/address.js")]
extern "C" {
    fn path() -> String;
    #[wasm_bindgen(js_name = setPath)]
    fn set_path(path: &str, replace: bool);
    #[wasm_bindgen(js_name = onPath)]
    fn on_path(told: &Closure<dyn FnMut(String)>);
}

/// Where the app is.
#[derive(Clone, Copy)]
struct Here(RwSignal<String>);

/// Follows the address from now on, for as long as the page lives. Called once, by the root.
pub fn follow() {
    let here = RwSignal::new(path());
    let moved = Closure::new(move |path: String| here.set(path));
    on_path(&moved);
    moved.forget();
    provide_context(Here(here));
}

/// The place that the address means.
pub fn use_route() -> Kept<Route> {
    let Here(here) = expect_context::<Here>();
    kept(move || here.with(|path| Route::of_path(path)))
}

/// The room whose board the address asks for.
pub fn use_board_room() -> Kept<RoomId> {
    let Here(here) = expect_context::<Here>();
    kept(move || here.with(|path| Route::board_room(path)))
}

/// How to go somewhere: with a step that can be taken back, or in place of the address that is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Back leads here again.
    Onward,
    /// Back leads to what was before.
    InPlace,
}

/// Goes to a place.
pub fn use_go() -> impl Fn(Route, Step) + Copy + 'static {
    let Here(here) = expect_context::<Here>();
    move |route, step| {
        set_path(route.href(), step == Step::InPlace);
        here.set(route.href().to_owned());
    }
}
