//! Lines under a heading: a sign where there is one, a name in large letters, and what is known of it.
//!
//! Plain texts in; one function, because every sheet that is read in a hurry is made of these.

use leptos::prelude::*;

use super::sign::{SafetySign, Sign};

/// One line.
pub struct Line {
    /// The sign before it.
    pub sign: Option<Sign>,
    /// What is read first.
    pub name: String,
    /// What is read next.
    pub detail: String,
}

/// A heading and its lines; nothing without a line.
pub fn lines(heading: String, lines: Vec<Line>) -> AnyView {
    if lines.is_empty() {
        return ().into_any();
    }
    let line = |line: Line| {
        view! {
            <li class="row signed">
                {line.sign.map(|sign| view! { <SafetySign sign /> }.into_any())}
                <div>
                    <p class="row-name">{line.name}</p>
                    <p class="row-detail">{line.detail}</p>
                </div>
            </li>
        }
        .into_any()
    };
    view! {
        <h2>{heading}</h2>
        <ul class="rows">{lines.into_iter().map(line).collect::<Vec<_>>()}</ul>
    }
    .into_any()
}

/// Something to know, beside lines.
pub fn beside(text: String) -> AnyView {
    said("fact", text)
}

/// A paragraph of a class.
pub fn said(class: &'static str, text: String) -> AnyView {
    view! { <p class=class>{text}</p> }.into_any()
}
