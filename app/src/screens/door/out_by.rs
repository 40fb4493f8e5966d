//! When must you be out? One touch for a usual time, two for any other quarter of an hour.

use leptos::prelude::*;
use shared_core::time::{Instant, Span};

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::live::live;
use crate::screens::time::{Minutes, shop_clock};
use crate::store::use_app_view;
use crate::words::door as say;

/// The choice that stands ready: about two hours, where there is one.
const READY: usize = 1;
/// The step of the finer choice.
const STEP: Span = Span::from_minutes(15);

/// The last question before the session begins.
#[component]
pub fn OutBy(title: String, choices: Vec<Instant>, range: (Instant, Instant)) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let ready = choices.get(READY).or(choices.first()).copied().unwrap_or(range.1);
    let chosen = RwSignal::new(ready.clamp(range.0, range.1.max(range.0)));
    view! {
        <main class="screen">
            <div class="screen-body">
                <p class="soft">{title}</p>
                <h1>{say::out_by()}</h1>
                <div class="clock-choices" role="group" aria-label=say::out_by()>
                    {choices.into_iter().map(|at| view! { <Choice at chosen /> }.into_any()).collect_view()}
                </div>
                <Finer chosen range />
            </div>
            <div class="acts">
                <BigButton
                    label=Signal::derive(move || say::begin(&shop_clock(view, chosen.get())))
                    on_press=move |()| dispatch.ui(Ui::Begin { out_by: chosen.get_untracked() })
                />
            </div>
        </main>
    }
}

#[component]
fn Choice(at: Instant, chosen: RwSignal<Instant>) -> impl IntoView {
    let view = use_app_view();
    view! {
        <button
            type="button"
            class="quiet-button clock-choice"
            aria-pressed=move || if chosen.get() == at { "true" } else { "false" }
            on:click=move |_| chosen.set(at)
        >
            <span class="clock-value">{live(move || shop_clock(view, at))}</span>
            <span>
                <Minutes at=Signal::stored(at) says=say::in_hours />
            </span>
        </button>
    }
}

/// A quarter of an hour earlier or later, never out of the range.
#[component]
pub fn Finer(chosen: RwSignal<Instant>, range: (Instant, Instant)) -> impl IntoView {
    let put = move |at: Instant| chosen.set(at.clamp(range.0, range.1.max(range.0)));
    view! {
        <div class="pair">
            <QuietButton label=say::earlier() on_press=move |()| put(chosen.get_untracked() - STEP) />
            <QuietButton label=say::later() on_press=move |()| put(chosen.get_untracked() + STEP) />
        </div>
    }
}
