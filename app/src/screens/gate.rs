//! What stands before the app can be used: the log being read, a browser without storage, a phone that has not joined.
//!
//! A running session is shown from its copy while the log is read, so that the times are there at once; acts wait.

use super::later::{Spot, later};
use super::scan::scanner;
use super::time::shop_clock;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::figures::{BigFigure, Key};
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::shell::hub_link::LinkFault;
use crate::shell::prefs::Running;
use crate::store::{Gate, use_app_view};
use crate::words::{self, gate as say};
use leptos::prelude::*;

/// The screen in front of all screens.
#[component]
pub fn GateScreen() -> impl IntoView {
    let view = use_app_view();
    let typed = RwSignal::new(String::new());
    live(move || match view.gate.get() {
        Gate::Starting | Gate::Open => view! { <Waiting what=say::starting() /> }.into_any(),
        Gate::Resuming(running) => view! { <Resuming running /> }.into_any(),
        Gate::NoStorage(fault) => {
            let why = words::faults::storage(&fault);
            view! { <Stuck reason=say::no_storage().into() next=say::no_storage_next().into() detail=why /> }.into_any()
        }
        Gate::NoKey(fault) => {
            let (reason, next) = words::faults::key(&fault);
            view! { <Stuck reason next detail=String::new() /> }.into_any()
        }
        Gate::JoinCode { fault } => view! { <JoinCode fault typed /> }.into_any(),
        Gate::JoinChecking => view! { <Waiting what=say::checking() /> }.into_any(),
        Gate::JoinChoose { choices, fault } => {
            later(Spot::Screen, move |later| (later.choose)(choices.clone(), fault.clone()))
        }
        Gate::Fetching { fault } => view! { <Fetching fault /> }.into_any(),
    })
}

#[component]
fn Waiting(what: &'static str) -> impl IntoView {
    view! {
        <main class="screen is-plain">
            <div class="screen-body is-centred">
                <h1>{words::frame::app()}</h1>
                <p role="status">{what}</p>
            </div>
        </main>
    }
}

#[component]
fn Resuming(running: Running) -> impl IntoView {
    let view = use_app_view();
    view! {
        <main class="screen is-plain">
            <div class="screen-body">
                <h1>{say::resuming()}</h1>
                <BigFigure label=say::sweep_from() value=shop_clock(view, running.sweep_from) />
                <BigFigure label=say::out_by() value=shop_clock(view, running.out_by) key=Key::Stop />
                <p role="status">{say::starting()}</p>
            </div>
        </main>
    }
}

#[component]
fn Stuck(reason: String, next: String, detail: String) -> impl IntoView {
    view! {
        <main class="screen is-plain">
            <div class="screen-body is-centred">
                <h1>{words::frame::app()}</h1>
                <Notice tone=Tone::Trouble reason next_step=next />
                <p class="soft">{detail}</p>
            </div>
        </main>
    }
}

/// What went wrong, if anything did.
pub fn fault_notice(fault: Option<LinkFault>) -> impl IntoView {
    fault.map(|fault| {
        let (reason, next_step) = words::faults::link_at_gate(&fault);
        view! { <Notice tone=Tone::Trouble reason next_step /> }.into_any()
    })
}

#[component]
fn JoinCode(fault: Option<LinkFault>, typed: RwSignal<String>) -> impl IntoView {
    let dispatch = use_dispatch();
    let scanning = RwSignal::new(false);
    let join = move |()| {
        let code = typed.get_untracked().trim().to_owned();
        if !code.is_empty() {
            dispatch.ui(Ui::JoinWith(code));
        }
    };
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1>{say::join()}</h1>
                <p>{say::join_why()}</p>
                {fault_notice(fault)}
                <Field label=say::join_code() name="join-code" value=typed typed=Typed::Code hint=say::join_hint() />
            </div>
            <div class="acts">
                <QuietButton label=say::join_scan() on_press=move |()| scanning.set(true) />
                <BigButton label=say::join_act() on_press=join />
            </div>
        </main>
        {scanner(scanning)}
    }
}

#[component]
fn Fetching(fault: Option<LinkFault>) -> impl IntoView {
    let dispatch = use_dispatch();
    view! {
        <main class="screen">
            <div class="screen-body is-centred">
                <h1>{say::fetching()}</h1>
                {fault_notice(fault)}
            </div>
            <div class="acts">
                <QuietButton label=say::again() on_press=move |()| dispatch.ui(Ui::Sync) />
            </div>
        </main>
    }
}
