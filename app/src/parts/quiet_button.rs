//! Every act that is not the main one: outlined, 64 px high or more.
//!
//! Three strengths, told by the weight of the outline and not by colour: a plain act, a faint one that asks why
//! something cannot be done, and a bare one that only goes somewhere.

use leptos::prelude::*;

/// How much an act stands out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Strength {
    /// An ordinary act.
    #[default]
    Plain,
    /// Explains instead of doing: "Why not?"
    Faint,
    /// Goes somewhere, without an outline.
    Bare,
}

impl Strength {
    fn class(self) -> &'static str {
        match self {
            Self::Plain => "quiet-button",
            Self::Faint => "quiet-button is-faint",
            Self::Bare => "quiet-button is-bare",
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
