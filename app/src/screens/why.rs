//! Why: the rule, the numbers that went in and the source, of a time or of a refusal, in the words of shared-core.
//!
//! A time is asked by pressing it, and answers on a sheet; a refusal carries its answer folded under its next step.
//! Nothing is reckoned here: the reasons are asked of the loop. A sheet shows them as they were when it was opened.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::plan::explain::Mark;
use shared_core::refusal::Refusal;
use shared_core::view::why::Reasons;

use super::later::{Spot, later};
use super::time::{offset_minutes, shop_clock};
use super::wants::wants;
use crate::intent::Wanted;
use crate::parts::figures::date_and_clock;
use crate::parts::lines::said;
use crate::parts::live::{live, whenever};
use crate::parts::notice::{Notice, Tone};
use crate::parts::sheet::Sheet;
use crate::store::{Extra, use_app_view};
use crate::words::{chosen, frame, why as say};

/// The sheet behind a time; without one, behind all of them.
pub fn sheet(mark: Option<Mark>, on_close: Callback<()>) -> AnyView {
    wants(Box::new(|| Wanted::Why));
    view! {
        <Sheet title=say::why() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                {reasons(mark, Extra::seen)}
            </div>
        </Sheet>
    }
    .into_any()
}

/// The reasons of a time, the first bell's with the sweep's, of all times without one; and what they take for granted.
/// `of` finds them in what was asked of the loop.
pub fn reasons(mark: Option<Mark>, of: fn(&Extra) -> Option<&Reasons>) -> AnyView {
    let view = use_app_view();
    let told = RwSignal::new(Vec::new());
    whenever(move || {
        let clock = |at| shop_clock(view, at);
        let texts = view.extra.with(|extra| of(extra).map(|reasons| reasons.told(mark, chosen(), &clock)));
        if let Some(texts) = texts.filter(|_| told.with_untracked(Vec::is_empty)) {
            told.set(texts);
        }
    });
    live(move || told.get().into_iter().map(|text| said("reasons", text)).collect::<Vec<AnyView>>())
}

/// A refusal: its reason, its next step, and why, folded or open.
pub fn refused(refusal: &Refusal, open: bool) -> AnyView {
    let notice =
        view! { <Notice tone=Tone::Refusal reason=refusal.reason(chosen()) next_step=refusal.next_step(chosen()) /> }
            .into_any();
    vec![notice.into_any(), because(refusal, open)].into_any()
}

/// Why a refusal is one, folded under one act, or open at once; nothing until the later part is here.
pub fn because(refusal: &Refusal, open: bool) -> AnyView {
    let refusal = refusal.clone();
    later(Spot::Unasked, move |later| (later.because)(&refusal, open))
}

/// The same, of the later part. Markup, which is smaller on a phone than a view: what
/// is said of a refusal here are sentences of shared-core's and numbers, never a name that somebody chose.
pub fn because_markup(refusal: &Refusal, open: bool) -> AnyView {
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
