//! A line or a few lines to type in, with its label above and a hint below.
//!
//! Typing is the last resort of gloved hands: a field never stands where a choice would do.

use leptos::attr::custom::custom_attribute;
use leptos::html::Textarea;
use leptos::prelude::*;

use super::live::whenever;

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
    /// A number, with a point or a comma: the keys of a number.
    Number,
    /// Figures that nobody else is to read.
    Hidden,
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
    /// Whether it is what one came for: sentences can be typed at once, without a touch.
    #[prop(optional)]
    ready: bool,
) -> impl IntoView {
    let hint_id = format!("{name}-hint");
    let described_by = (!hint.is_empty()).then(|| hint_id.clone());
    let entry = if typed == Typed::Sentences {
        sentences(name, value, described_by, ready)
    } else {
        let code = typed == Typed::Code;
        view! {
            <input
                class="field-entry"
                {..custom_attribute("autocomplete", "off")}
                {..custom_attribute("inputmode", matches!(typed, Typed::Number | Typed::Hidden).then_some("decimal"))}
                {..custom_attribute("autocapitalize", if code { "characters" } else { "sentences" })}
                {..custom_attribute("spellcheck", if code { "false" } else { "true" })}
                class:is-code=code
                id=name
                type=if typed == Typed::Hidden { "password" } else { "text" }
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

/// A few lines to type in; if `ready`, typing can begin at once.
fn sentences(name: &'static str, value: RwSignal<String>, described_by: Option<String>, ready: bool) -> AnyView {
    let entry = NodeRef::<Textarea>::new();
    whenever(move || {
        if let Some(entry) = entry.get().filter(|_| ready) {
            // Where it cannot take the focus, it is touched.
            let _ = entry.focus();
        }
    });
    view! {
        <textarea
            node_ref=entry
            class="field-entry"
            {..custom_attribute("rows", "3")}
            id=name
            aria-describedby=described_by
            prop:value=value
            on:input=move |event| value.set(event_target_value(&event))
        ></textarea>
    }
    .into_any()
}

/// The number that was typed, in thousandths and never negative: `25.4` and `25,4` are 25400. Finer digits are let go;
/// nothing else is a number.
pub fn thousandths(text: &str) -> Option<u32> {
    let (whole, part) = text.trim().split_once(['.', ',']).unwrap_or((text.trim(), ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.is_empty() || !digits(whole) || !digits(part) {
        return None;
    }
    let part: u32 = part.bytes().chain(*b"000").take(3).fold(0, |sum, digit| sum * 10 + u32::from(digit - b'0'));
    whole.parse::<u32>().ok()?.checked_mul(1000)?.checked_add(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_people_type_them() {
        for (text, read) in [
            ("25.4", Some(25_400)),
            (" 25,4 ", Some(25_400)),
            ("130", Some(130_000)),
            ("0.0509", Some(50)),
            ("7.", Some(7_000)),
            ("", None),
            (".", None),
            (".5", None),
            ("-3", None),
            ("1e3", None),
            ("1.2.3", None),
            ("12 g", None),
            ("4294967", Some(4_294_967_000)),
            ("4294968", None),
        ] {
            assert_eq!(thousandths(text), read, "{text:?}");
        }
    }
}
