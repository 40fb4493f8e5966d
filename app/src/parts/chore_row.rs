//! One chore as a row that is a single large target: a box to tick, the words, who and how long.
//!
//! Ticked is told by the mark in the box, by the word for screen readers and by weight. What is ticked stays ticked:
//! an entry in the log is not taken back.

use leptos::prelude::*;

/// One row.
#[component]
pub fn ChoreRow(
    /// What to do.
    #[prop(into)]
    text: Signal<String>,
    /// Where, with whom, what it waits for; may be empty.
    #[prop(optional, into)]
    detail: Signal<String>,
    /// How long it takes, with its unit.
    #[prop(into)]
    minutes: Signal<String>,
    /// Whether it is done.
    #[prop(into)]
    done: Signal<bool>,
    /// Whether it is the one to do now.
    #[prop(optional, into)]
    is_next: Signal<bool>,
    /// Called when it is ticked.
    #[prop(into)]
    on_done: Callback<()>,
) -> impl IntoView {
    let press = move |_| {
        if !done.get_untracked() {
            on_done.run(());
        }
    };
    view! {
        <button
            type="button"
            class="chore-row"
            class:is-done=done
            class:is-next=is_next
            role="checkbox"
            aria-checked=move || if done.get() { "true" } else { "false" }
            on:click=press
        >
            <svg class="chore-box" viewBox="0 0 48 48" aria-hidden="true">
                <rect x="3" y="3" width="42" height="42" rx="3" />
                <path d="M12 25l9 9 16-20" />
            </svg>
            <span class="chore-text">{text}</span>
            <span class="chore-detail">{detail}</span>
            <span class="chore-minutes">{minutes}</span>
        </button>
    }
}
