//! Mounts the app, and nothing else.
#![expect(unreachable_pub, reason = "one binary: `pub` means shared between its modules")]
#![expect(dead_code, reason = "the screens take these up next")]

mod intent;
mod parts;
mod route;
mod screens;
mod shell;
mod store;
mod words;

use leptos::prelude::*;

fn main() {
    mount_to_body(|| {
        let (view, dispatch) = shell::start(|_| ("Sweepbell".to_owned(), String::new()));
        provide_context(dispatch);
        provide_context(view);
        view! { <pre>{move || format!("{:#?}", view.gate.get())}</pre> }
    });
}
