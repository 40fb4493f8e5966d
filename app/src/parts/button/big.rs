//! The one main act of a screen: full width, 96 px high, brass, knurled at its lower edge.
//!
//! There is never more than one on a screen. While an act is being stored it says so and takes no second press.

use leptos::prelude::*;

/// The main act.
#[component]
pub fn BigButton(
    /// What pressing it does, as a verb.
    #[prop(into)]
    label: Signal<String>,
    /// Whether the last press is still being stored.
    #[prop(optional, into)]
    waiting: Signal<bool>,
    /// Called once for each press that counts.
    #[prop(into)]
    on_press: Callback<()>,
) -> impl IntoView {
    let press = move |_| {
        if !waiting.get_untracked() {
            on_press.run(());
        }
    };
    view! {
        <button type="button" class="big-button" aria-disabled=move || waiting.get().then_some("true") on:click=press>
            <span class="big-button-label">{label}</span>
        </button>
    }
}
