//! Mounts the app, and nothing else.
#![expect(unreachable_pub, reason = "one binary: `pub` means shared between its modules")]
#![expect(dead_code, reason = "the screens take the parts up next")]

mod parts;

use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <p>"Sweepbell"</p> });
}
