//! Mounts the app, and nothing else.
use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <p>"Sweepbell"</p> });
}
