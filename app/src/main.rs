//! Mounts the app, and nothing else.
#![expect(unreachable_pub, reason = "one binary: `pub` means shared between its modules")]
#![expect(dead_code, reason = "the loop and the screens take these up next")]

mod intent;
mod parts;
mod shell;
mod store;

use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <p>"Sweepbell"</p> });
}
