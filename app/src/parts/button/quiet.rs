//! Every act that is not the main one: outlined, 64 px high or more.
//!
//! Two strengths, told by the outline and not by colour: a plain act, and a faint one that asks why something cannot
//! be done.

use leptos::prelude::*;

/// How much an act stands out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Strength {
    /// An ordinary act.
    #[default]
    Plain,
    /// Explains instead of doing: "Why not?"
    Faint,
}

impl Strength {
    fn class(self) -> &'static str {
        match self {
            Self::Plain => "quiet-button",
            Self::Faint => "quiet-button is-faint",
        }
    }
}

/// An act that is not the main one.
#[component]
pub fn QuietButton(
    /// What pressing it does.
    #[prop(into)]
    label: Signal<String>,
    /// Said to a screen reader instead of the label, where the label alone says too little: "Start the lathe".
    #[prop(optional, into)]
    spoken: Option<String>,
    /// How much it stands out.
    #[prop(optional, into)]
    strength: Signal<Strength>,
    /// Called for each press.
    #[prop(into)]
    on_press: Callback<()>,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class=move || strength.get().class()
            aria-label=spoken
            on:click=move |_| on_press.run(())
        >
            {label}
        </button>
    }
}
