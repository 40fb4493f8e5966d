//! Why: the rule, the numbers that went in and the source, of a time or of a refusal, in the words of shared-core.
//!
//! A time is asked by pressing it, and answers on a sheet; a refusal carries its answer folded under its next step.
//! Nothing is reckoned here: the reasons came with the view. A sheet shows them as they were when it was opened.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::plan::explain::Mark;
use shared_core::refusal::Refusal;

use super::time::{offset_minutes, shop_clock};
use crate::parts::figures::date_and_clock;
use crate::parts::lines::said;
use crate::parts::notice::{Notice, Tone};
use crate::parts::sheet::Sheet;
use crate::store::use_app_view;
use crate::words::{chosen, frame, why as say};

/// The sheet behind a time; without one, behind all of them.
pub fn sheet(mark: Option<Mark>, on_close: Callback<()>) -> AnyView {
    view! {
        <Sheet title=say::why() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                {reasons(mark)}
            </div>
        </Sheet>
    }
    .into_any()
}

/// The reasons of a time, the first bell's with the sweep's, of all times without one; and what they take for granted.
pub fn reasons(mark: Option<Mark>) -> AnyView {
    let view = use_app_view();
    let clock = |at| shop_clock(view, at);
    let texts =
        view.bench.with_untracked(|bench| bench.as_ref().map(|bench| bench.reasons.told(mark, chosen(), &clock)));
    let mut shown = Vec::new();
    for text in texts.unwrap_or_default() {
        shown.push(said("reasons", text));
    }
    shown.into_any()
}

/// A refusal: its reason, its next step, and why, folded or open.
pub fn refused(refusal: &Refusal, open: bool) -> AnyView {
    let notice =
        view! { <Notice tone=Tone::Refusal reason=refusal.reason(chosen()) next_step=refusal.next_step(chosen()) /> }
            .into_any();
    vec![notice.into_any(), because(refusal, open)].into_any()
}

/// Why a refusal is one, folded under one act, or open at once. Markup, which is smaller on a phone than a view: what
/// is said of a refusal here are sentences of shared-core's and numbers, never a name that somebody chose.
pub fn because(refusal: &Refusal, open: bool) -> AnyView {
    let start = if open { "<details open><summary>" } else { "<details><summary>" };
    let markup =
        [start, say::why(), "</summary><p class=row-detail>", &because_text(refusal), "</p></details>"].concat();
    view! { <div class="because" inner_html=markup></div> }.into_any()
}

/// The same as text, a line each.
pub fn because_text(refusal: &Refusal) -> String {
    let view = use_app_view();
    refusal.why(chosen(), &|at| date_and_clock(at, offset_minutes(view, at)))
}
