//! What happened, what is safe, what to do: one notice for every refusal, trouble and quiet fact.
//!
//! A refusal carries its reason and its next step; neither is made up here. Told apart by mark and by role, not by
//! colour alone: trouble and refusals interrupt (`alert`), facts wait their turn (`status`).

use leptos::prelude::*;

/// What kind of notice it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// A rule stopped something.
    Refusal,
    /// Something of the phone or the hub went wrong.
    Trouble,
    /// Worth knowing; nothing is wrong.
    Fact,
}

impl Tone {
    fn class(self) -> &'static str {
        match self {
            Self::Refusal => "notice is-refusal",
            Self::Trouble => "notice is-trouble",
            Self::Fact => "notice is-fact",
        }
    }

    fn role(self) -> &'static str {
        match self {
            Self::Refusal | Self::Trouble => "alert",
            Self::Fact => "status",
        }
    }

    /// A bar across, a broken line, a dot: drawn, 24 by 24.
    fn mark(self) -> &'static str {
        match self {
            Self::Refusal => r#"<circle cx="12" cy="12" r="10"/><path d="M6 12h12"/>"#,
            Self::Trouble => r#"<path d="M1 15h5l3-10 6 16 3-8h5"/>"#,
            Self::Fact => r#"<circle cx="12" cy="12" r="10"/><path d="M12 11v7M12 6v1"/>"#,
        }
    }
}

/// A reason and its next step.
#[component]
pub fn Notice(
    /// What kind it is.
    tone: Tone,
    /// What happened, or what stops the act.
    #[prop(into)]
    reason: Signal<String>,
    /// What to do now; may be empty for a fact.
    #[prop(optional, into)]
    next_step: Signal<String>,
) -> impl IntoView {
    view! {
        <div class=tone.class() role=tone.role()>
            <svg class="notice-mark" viewBox="0 0 24 24" aria-hidden="true" inner_html=tone.mark()></svg>
            <p class="notice-reason">{reason}</p>
            <p class="notice-next">{next_step}</p>
        </div>
    }
}
