//! A bell over everything: full screen, warning yellow, one sentence and one act.
//!
//! It flashes at most once a second (WCAG 2.2, 2.3.1 allows three) and not at all under reduced motion. When it rings
//! and for how long is decided elsewhere; a bell that rang late says so.

use leptos::attr::custom::custom_attribute;
use leptos::html::Dialog;
use leptos::prelude::*;
use shared_core::bell::Bell;
use shared_core::ids::MachineId;

use super::time::shop_clock;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::live::{live, whenever};
use crate::parts::sign::{SafetySign, Sign};
use crate::route::Route;
use crate::shell::address::{Step, use_go};
use crate::store::{AppView, Ringing, use_app_view};
use crate::words::bell as say;

/// The bell that rings, if one does.
#[component]
pub fn BellOverlay() -> impl IntoView {
    let view = use_app_view();
    live(move || view.bell.get().map(|ringing| view! { <RingingBell ringing /> }.into_any()))
}

/// What follows a bell, besides hearing it.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Then {
    /// Go on.
    Nothing,
    /// To the close-down.
    Sweep,
    /// To Bench, where out-by can be moved.
    Bench,
    /// To the muster list.
    Muster,
    /// Ask for a buddy at this machine.
    Ask(MachineId),
}

/// The words of a bell, and what its main and its other act do.
struct Said {
    name: String,
    heading: &'static str,
    next: &'static str,
    times: Option<String>,
    main: (&'static str, Then),
    other: (&'static str, Then),
}

#[component]
fn RingingBell(ringing: Ringing) -> impl IntoView {
    let (view, dispatch, go) = (use_app_view(), use_dispatch(), use_go());
    let dialog = NodeRef::<Dialog>::new();
    whenever(move || {
        if let Some(dialog) = dialog.get() {
            // Open already, or not in the page yet: it is then shown as it is.
            let _ = dialog.show_modal();
        }
    });
    let said = words_of(view, &ringing);
    let late_minutes = ringing.late.minutes_up();
    let act = Callback::new(move |then: Then| {
        dispatch.ui(Ui::Hush);
        match then {
            Then::Nothing => {}
            Then::Sweep => go(Route::Sweep, Step::Onward),
            Then::Bench => go(Route::Bench, Step::Onward),
            Then::Muster => go(Route::Room, Step::Onward),
            Then::Ask(machine) => dispatch.ui(Ui::AskBuddy { machine: Some(machine), to: None }),
        }
    });
    let ((main, main_then), (other, other_then)) = (said.main, said.other);
    view! {
        <dialog
            class="bell"
            role="alertdialog"
            aria-label=said.heading
            aria-describedby="bell-next"
            node_ref=dialog
            on:cancel=move |event: leptos::ev::Event| {
                event.prevent_default();
                act.run(Then::Nothing);
            }
        >
            <div class="bell-body" {..custom_attribute("tabindex", "0")}>
                <p class="bell-name">
                    <SafetySign sign=Sign::Warning />
                    {said.name}
                </p>
                <h1 class="bell-heading">{said.heading}</h1>
                {said.times.map(|times| view! { <p class="bell-next">{times}</p> }.into_any())}
                <p class="bell-next" id="bell-next">
                    {said.next}
                </p>
                {(late_minutes > 1).then(|| view! { <p>{say::late(late_minutes)}</p> }.into_any())}
            </div>
            <div class="acts">
                <QuietButton label=other on_press=move |()| act.run(other_then.clone()) />
                <button type="button" class="bell-main" {..custom_attribute("autofocus", "")} on:click=move |_| act.run(main_then.clone())>
                    {main}
                </button>
            </div>
        </dialog>
    }
}

/// How a bell reads as a notice of the phone's own: its sentence, and what to do.
pub fn as_notice(ringing: &Ringing) -> (String, String) {
    let next = next(&ringing.bell);
    let text = match &ringing.machine {
        Some(machine) => say::notice(machine, next),
        None => next.to_owned(),
    };
    (heading(&ringing.bell).to_owned(), text)
}

fn heading(bell: &Bell) -> &'static str {
    match bell {
        Bell::First => say::first(),
        Bell::Sweep => say::sweep(),
        Bell::Last => say::last(),
        Bell::LastSpark => say::last_spark(),
        Bell::Clear => say::clear(),
        Bell::BuddyLapsing(_) => say::lapsing(),
        Bell::BuddyLapsed(_) => say::lapsed(),
    }
}

fn next(bell: &Bell) -> &'static str {
    match bell {
        Bell::First => say::first_next(),
        Bell::Sweep => say::sweep_next(),
        Bell::Last => say::last_next(),
        Bell::LastSpark => say::last_spark_next(),
        Bell::Clear => say::clear_next(),
        Bell::BuddyLapsing(_) => say::lapsing_next(),
        Bell::BuddyLapsed(_) => say::lapsed_next(),
    }
}

fn words_of(view: AppView, ringing: &Ringing) -> Said {
    let clock = shop_clock(view, ringing.at);
    let machine = ringing.machine.clone().unwrap_or_default();
    let heard = (say::heard(), Then::Nothing);
    let more_time = (say::more_time(), Then::Bench);
    let sweeping = (say::sweeping_now(), Then::Sweep);
    let (name, main, other) = match &ringing.bell {
        Bell::First => (say::name_first(&clock), heard, more_time),
        Bell::Sweep => (say::name_sweep(&clock), sweeping, more_time),
        Bell::Last => (say::name_last(&clock), sweeping, more_time),
        Bell::LastSpark => (say::name_last_spark(&clock), heard, more_time),
        Bell::Clear => (say::name_clear(&clock), (say::muster(), Then::Muster), (say::heard(), Then::Nothing)),
        Bell::BuddyLapsing(id) => (say::name_buddy(&clock, &machine), (say::ask_again(), Then::Ask(id.clone())), heard),
        Bell::BuddyLapsed(id) => {
            let stop = (say::heard(), Then::Bench);
            (say::name_buddy(&clock, &machine), stop, (say::ask_again(), Then::Ask(id.clone())))
        }
    };
    let times = if ringing.bell == Bell::First { times_ahead(view) } else { None };
    Said { name, heading: heading(&ringing.bell), next: next(&ringing.bell), times, main, other }
}

/// When the sweep is and when the member must be out.
fn times_ahead(view: AppView) -> Option<String> {
    let (sweep, out_by) = view.bench.with(|bench| {
        let bench = bench.as_ref()?;
        Some((bench.times.as_ref().ok()?.sweep_from, bench.out_by))
    })?;
    Some(say::first_times(&shop_clock(view, out_by), &shop_clock(view, sweep)))
}
