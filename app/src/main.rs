//! Mounts the app, and nothing else.
#![expect(unreachable_pub, reason = "one binary: `pub` means shared between its modules")]

mod intent;
mod later;
mod parts;
mod route;
mod screens;
mod shell;
mod store;
mod words;

use leptos::prelude::*;
use shared_core::words::Words;

use crate::screens::bell::as_notice;
use crate::screens::frame::Screens;

fn main() {
    let words = Words::read(Box::leak(shell::words().into_boxed_str()));
    words::choose(words.expect("the page's script fetched the catalogue of this build"));
    mount_to_body(|| {
        let (view, dispatch, later) = shell::start(as_notice);
        provide_context(dispatch);
        provide_context(view);
        provide_context(later);
        shell::address::follow();
        // What the page showed while this program was on its way.
        if let Some(shell) = document().get_element_by_id("shell") {
            shell.remove();
        }
        view! { <Screens /> }
    });
}
