//! A line or a few lines to type in, with its label above and a hint below.
//!
//! Typing is the last resort of gloved hands: a field never stands where a choice would do.

use leptos::prelude::*;

/// What is typed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Typed {
    /// A few words on one line.
    #[default]
    Line,
    /// Sentences.
    Sentences,
    /// A code: capitals, no spelling help.
    Code,
}

/// A labelled field.
#[component]
pub fn Field(
    /// Its label.
    #[prop(into)]
    label: String,
    /// Its name in the page, unique on the screen.
    name: &'static str,
    /// What is typed so far.
    value: RwSignal<String>,
    /// What is typed.
    #[prop(optional)]
    typed: Typed,
    /// What helps to fill it in; may be empty.
    #[prop(optional, into)]
    hint: String,
) -> impl IntoView {
    let hint_id = format!("{name}-hint");
    let described_by = (!hint.is_empty()).then(|| hint_id.clone());
    let entry = if typed == Typed::Sentences {
        view! {
            <textarea
                class="field-entry"
                id=name
                rows="3"
                aria-describedby=described_by
                prop:value=value
                on:input=move |event| value.set(event_target_value(&event))
            ></textarea>
        }
        .into_any()
    } else {
        let code = typed == Typed::Code;
        view! {
            <input
                class="field-entry"
                class:is-code=code
                id=name
                type="text"
                autocomplete="off"
                autocapitalize=if code { "characters" } else { "sentences" }
                spellcheck=if code { "false" } else { "true" }
                aria-describedby=described_by
                prop:value=value
                on:input=move |event| value.set(event_target_value(&event))
            />
        }
        .into_any()
    };
    view! {
        <div class="field">
            <label class="field-label" for=name>
                {label}
            </label>
            {entry}
            <p class="field-hint" id=hint_id>
                {hint}
            </p>
        </div>
    }
}
