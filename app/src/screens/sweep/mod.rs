//! Sweep: the close-down, chore by chore in the planned order, and the way out.
//!
//! What is done stays done. What is missing is said before leaving, and leaving is never blocked.

mod chores;
mod leave;
mod watch;

use leptos::prelude::*;
use shared_core::plan::explain::Mark;
use shared_core::view::sweep::{SweepView, When};

use self::chores::Chores;
use self::leave::LeaveSheet;
use self::watch::FireWatch;
use super::bench::{NoSession, Over, Rule, asks, overlay};
use super::time::shop_clock;
use super::why::refused;
use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::figures::BigFigure;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::store::{AppView, use_app_view};
use crate::words::{bench, frame, sweep as say, why};
use shared_core::command::Command;

/// The screen.
#[component]
pub fn SweepScreen() -> impl IntoView {
    let view = use_app_view();
    let inside = kept(move || view.sweep.with(Option::is_some));
    live(move || {
        if inside.get() {
            view! { <InSession /> }.into_any()
        } else {
            view! { <NoSession teach=frame::no_session_sweep() /> }.into_any()
        }
    })
}

/// A field of Sweep, as a value that changes only when it does; `None` while there is no session.
fn field<T: Clone + PartialEq + Send + Sync + 'static>(
    view: AppView,
    of: impl Fn(&SweepView) -> T + Send + Sync + 'static,
) -> Kept<Option<T>> {
    kept(move || view.sweep.with(|sweep| sweep.as_ref().map(&of)))
}

/// Whether nothing is missing and no watch is short.
pub fn leaves_clean(sweep: &SweepView) -> bool {
    missing(sweep) == 0 && !watch::is_short(sweep)
}

/// How many chores are not done.
pub fn missing(sweep: &SweepView) -> usize {
    sweep.chores.iter().filter(|chore| !matches!(chore.when, When::Done(_))).count()
}

#[component]
fn InSession() -> impl IntoView {
    let view = use_app_view();
    let over = RwSignal::new(None::<Over>);
    let begun = field(view, |sweep| sweep.began.is_some());
    let title = field(view, |sweep| sweep.began.map_or(say::not_begun().to_owned(), |_| say::title(&sweep.room)));
    view! {
        <main class="screen is-ruled sweep-screen">
            <Rule over />
            <div class="screen-body">
                <div class="first-look">
                    <h1>{live(move || title.get())}</h1>
                    <DoneBy over />
                </div>
                <div class="further">
                    {live(move || (begun.get() == Some(false)).then(|| view! { <p>{say::preview()}</p> }.into_any()))}
                    <Company over />
                    <FireWatch over />
                    <Chores />
                </div>
            </div>
            {live(move || {
                if begun.get() == Some(true) {
                    view! { <LeaveActs /> }.into_any()
                } else {
                    view! { <BeginActs over /> }.into_any()
                }
            })}
        </main>
        {overlay(over)}
    }
}

/// When all would be done, or why that cannot be said.
#[component]
fn DoneBy(over: RwSignal<Option<Over>>) -> impl IntoView {
    let view = use_app_view();
    let free_at = field(view, |sweep| sweep.free_at.clone());
    let left = field(view, missing);
    let refusal = kept(move || free_at.get().and_then(Result::err));
    let clock = move || free_at.get().and_then(Result::ok).map(|at| shop_clock(view, at)).unwrap_or_default();
    let all_done = kept(move || left.get() == Some(0));
    // The figure stays while its value moves with every look: it can be pressed.
    live(move || {
        if let Some(why) = refusal.get() {
            return refused(&why, false);
        }
        if all_done.get() {
            return view! { <p class="fact">{say::all_done()}</p> }.into_any();
        }
        let act = (why::act(), asks(over, Some(Mark::FreeAt)));
        view! { <BigFigure label=say::done_by() value=Signal::derive(clock) act /> }.into_any()
    })
}

/// Who else is here, or that nobody is.
#[component]
fn Company(over: RwSignal<Option<Over>>) -> impl IntoView {
    let view = use_app_view();
    // Begun by one word at the bell, it is taken for one person's.
    let begun = field(view, |sweep| sweep.began.is_some() && !sweep.others.is_empty());
    let others = field(view, |sweep| sweep.others.clone());
    let running = field(view, |sweep| sweep.running.clone());
    let text = move || {
        let others = others.get().unwrap_or_default();
        if others.is_empty() { say::last_out().to_owned() } else { say::with(&others.join(", ")) }
    };
    view! {
        <p>{text}</p>
        {live(move || {
            let more = move |()| over.set(Some(Over::Crew));
            (begun.get() == Some(true)).then(|| view! { <QuietButton label=say::crew_again() on_press=more /> }.into_any())
        })}
        {live(move || {
            running
                .get()
                .filter(|running| !running.is_empty())
                .map(|running| {
                    let reason = say::running(&running.join(", "));
                    view! { <Notice tone=Tone::Trouble reason next_step=say::running_next() /> }.into_any()
                })
        })}
    }
}

#[component]
fn BeginActs(over: RwSignal<Option<Over>>) -> impl IntoView {
    view! {
        <div class="acts">
            <BigButton label=bench::start_sweep() on_press=move |()| over.set(Some(Over::Crew)) />
        </div>
    }
}

/// Leaves at once when all is done and no watch is short; asks once more otherwise.
#[component]
fn LeaveActs() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let open = RwSignal::new(false);
    let clean = field(view, leaves_clean);
    let label =
        Signal::derive(
            move || {
                if clean.get() == Some(true) { say::leave_clean().to_owned() } else { say::leave().to_owned() }
            },
        );
    let press = move |()| {
        if clean.get_untracked() == Some(true) {
            dispatch.act(Command::Leave);
        } else {
            open.set(true);
        }
    };
    view! {
        <div class="acts">
            <BigButton label on_press=press />
        </div>
        {live(move || open.get().then(|| view! { <LeaveSheet on_close=Callback::new(move |()| open.set(false)) /> }.into_any()))}
    }
}
