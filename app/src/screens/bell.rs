//! A bell over everything: full screen, warning yellow, one sentence and one act.
//!
//! Bells that ask for an act are answered by one: sweeping, a later out-by, or having left. To put such a bell off without an
//! answer is not offered. It flashes at most once a second (WCAG 2.2, 2.3.1 allows three) and not at all under reduced motion. When it rings
//! and for how long is decided elsewhere; a bell that rang late says so.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::bell::Bell;
use shared_core::command::Command;
use shared_core::ids::MachineId;
use shared_core::view::bench::BenchView;

use super::later::{Spot, later};
use super::notice_bar::NoticeBar;
use super::sweep::leaves_clean;
use super::time::shop_clock;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::live::live;
use crate::parts::sign::{SafetySign, Sign};
use crate::route::Route;
use crate::shell::address::{Step, use_go};
use crate::shell::dialog::shown_dialog;
use crate::store::{AppView, Ringing, use_app_view};
use crate::words::{bell as say, frame};

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
    /// To Bench, where the machine is stopped.
    Bench,
    /// To say something more first.
    Say(Answer),
    /// Out, with nothing missing.
    Leave,
    /// To the muster list.
    Muster,
    /// Ask for a buddy at this machine.
    Ask(MachineId),
}

/// An answer of which more has to be said. What is asked then is of the later part (`screens::bell_answer`).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answer {
    /// More time: how much, and what it costs.
    MoreTime,
    /// Left already: why is the sweep not done?
    HaveLeft,
}

/// The words of a bell, and its acts, the main one last.
struct Said {
    name: String,
    heading: &'static str,
    next: &'static str,
    times: Option<String>,
    acts: Vec<(&'static str, Then)>,
}

#[component]
fn RingingBell(ringing: Ringing) -> impl IntoView {
    let view = use_app_view();
    let dialog = shown_dialog();
    let said = words_of(view, &ringing);
    let late_minutes = ringing.late.minutes_up();
    let more = RwSignal::new(None::<Answer>);
    let act = answering(view, more);
    let may_be_put_off = said.acts.iter().any(|(_, then)| *then == Then::Nothing);
    let acts = StoredValue::new(said.acts);
    view! {
        <dialog
            class="bell"
            class:is-answering=move || more.get().is_some()
            role="alertdialog"
            aria-label=said.heading
            aria-describedby="bell-next"
            node_ref=dialog
            on:cancel=move |event: leptos::ev::Event| {
                event.prevent_default();
                if more.get_untracked().is_some() {
                    more.set(None);
                } else if may_be_put_off {
                    act.run(Then::Nothing);
                }
            }
        >
            <div class="bell-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
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
                {live(move || more.get().map(|answer| later(Spot::Section, move |later| (later.bell_answer)(answer))))}
            </div>
            <div class="acts">
                {live(move || {
                    Some(
                        if more.get().is_some() {
                            view! { <QuietButton label=frame::back() on_press=move |()| more.set(None) /> }.into_any()
                        } else {
                            acts.with_value(|acts| buttons(acts, act))
                        },
                    )
                })}
            </div>
        </dialog>
    }
}

/// Does what follows an act of the bell. What is an answer hushes it by being done, and leaves it ringing if it cannot be; of
/// which more has to be said waits for that.
fn answering(view: AppView, more: RwSignal<Option<Answer>>) -> Callback<Then> {
    let (dispatch, go) = (use_dispatch(), use_go());
    Callback::new(move |then: Then| {
        match &then {
            Then::Say(answer) => return more.set(Some(*answer)),
            Then::Leave => return dispatch.act(Command::Leave),
            // Where a machine runs still, the screen says so first.
            Then::Sweep if begins_alone(view) => return dispatch.act(Command::StartSweep { crew: 1 }),
            _ => dispatch.ui(Ui::Hush),
        }
        match then {
            Then::Nothing | Then::Say(_) | Then::Leave => {}
            Then::Sweep => go(Route::Sweep, Step::Onward),
            Then::Bench => go(Route::Bench, Step::Onward),
            Then::Muster => go(Route::Room, Step::Onward),
            Then::Ask(machine) => dispatch.ui(Ui::AskBuddy { machine: Some(machine), to: None }),
        }
    })
}

/// The main act last, where a thumb is.
fn buttons(acts: &[(&'static str, Then)], act: Callback<Then>) -> AnyView {
    let mut buttons = Vec::with_capacity(acts.len());
    for (place, (label, then)) in acts.iter().enumerate() {
        let (label, then) = (*label, then.clone());
        buttons.push(if place + 1 < acts.len() {
            view! { <QuietButton label on_press=move |()| act.run(then.clone()) /> }.into_any()
        } else {
            view! {
                <button type="button" class="bell-main" {..custom_attribute("autofocus", "")} on:click=move |_| act.run(then.clone())>
                    {label}
                </button>
            }
            .into_any()
        });
    }
    buttons.into_any()
}

/// Whether the sweep can begin by one word: it has not begun, and nothing runs.
fn begins_alone(view: AppView) -> bool {
    view.sweep
        .with_untracked(|sweep| sweep.as_ref().is_some_and(|sweep| sweep.began.is_none() && sweep.running.is_empty()))
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
    let (name, acts) = match &ringing.bell {
        Bell::First => (say::name_first(&clock), vec![more_time(view), Some(heard)]),
        Bell::Sweep => (say::name_sweep(&clock), answers(view)),
        Bell::Last => (say::name_last(&clock), answers(view)),
        Bell::LastSpark => (say::name_last_spark(&clock), vec![more_time(view), Some(heard)]),
        Bell::Clear => (say::name_clear(&clock), vec![Some(heard), Some((say::muster(), Then::Muster))]),
        Bell::BuddyLapsing(id) => {
            let ask = (say::ask_again(), Then::Ask(id.clone()));
            (say::name_buddy(&clock, &machine), vec![Some(heard), Some(ask)])
        }
        Bell::BuddyLapsed(id) => {
            let (ask, stop) = ((say::ask_again(), Then::Ask(id.clone())), (say::heard(), Then::Bench));
            (say::name_buddy(&clock, &machine), vec![Some(ask), Some(stop)])
        }
    };
    let times = if ringing.bell == Bell::First { times_ahead(view) } else { None };
    let acts = acts.into_iter().flatten().collect();
    Said { name, heading: heading(&ringing.bell), next: next(&ringing.bell), times, acts }
}

/// The answers to a bell that asks for an act.
fn answers(view: AppView) -> Vec<Option<(&'static str, Then)>> {
    let (begun, clean) = view.sweep.with_untracked(|sweep| {
        let sweep = sweep.as_ref();
        (sweep.is_some_and(|sweep| sweep.began.is_some()), sweep.is_some_and(leaves_clean))
    });
    let main = if begun { say::go_on() } else { say::sweeping_now() };
    let left = if clean { Then::Leave } else { Then::Say(Answer::HaveLeft) };
    vec![Some((say::have_left(), left)), more_time(view), Some((main, Then::Sweep))]
}

/// More time, if out-by can move at all.
fn more_time(view: AppView) -> Option<(&'static str, Then)> {
    let movable = view.bench.with_untracked(|bench| bench.as_ref().is_some_and(BenchView::may_stay_longer));
    movable.then(|| (say::more_time(), Then::Say(Answer::MoreTime)))
}

/// When the sweep is and when the member must be out.
fn times_ahead(view: AppView) -> Option<String> {
    let (sweep, out_by) = view.bench.with(|bench| {
        let bench = bench.as_ref()?;
        Some((bench.times.as_ref().ok()?.sweep_from, bench.out_by))
    })?;
    Some(say::first_times(&shop_clock(view, out_by), &shop_clock(view, sweep)))
}
