//! Door: from outside to a session, one question at a time.
//!
//! Which question comes is the projection's say. Declining is one touch, kind, and written nowhere.

mod attest;
mod out_by;
mod outside;

use leptos::prelude::*;
use shared_core::refusal::Refusal;
use shared_core::view::door::DoorView;

use self::attest::Attest;
pub use self::out_by::Finer;
use self::out_by::OutBy;
use self::outside::Outside;
use super::scan::scanner;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::route::Route;
use crate::screens::why::refused;
use crate::shell::address::{Step, use_go};
use crate::store::{AppView, use_app_view};
use crate::words::{count, door as say, frame};

/// The screen.
#[component]
pub fn DoorScreen() -> impl IntoView {
    let view = use_app_view();
    // Who comes and goes meanwhile must not take the camera away from whoever stands here.
    let outside = kept(move || view.door.with(|door| matches!(door, Some(DoorView::Outside { .. }))));
    live(move || if outside.get() { view! { <Outside /> }.into_any() } else { question(view) })
}

/// What is asked of whoever is past the code.
fn question(view: AppView) -> AnyView {
    match view.door.get() {
        None | Some(DoorView::Outside { .. }) => ().into_any(),
        Some(DoorView::Barred(refusal)) => view! { <Barred refusal /> }.into_any(),
        Some(DoorView::Attest { room, step, of, statement }) => {
            view! { <Attest title=say::step(count(of), &room, count(step)) statement /> }.into_any()
        }
        Some(DoorView::OutBy { room, choices, earliest, latest }) => {
            view! { <OutBy title=say::room(&room) choices range=(earliest, latest) /> }.into_any()
        }
        Some(DoorView::Inside { room }) => view! { <Inside room /> }.into_any(),
    }
}

#[component]
fn Barred(refusal: Refusal) -> impl IntoView {
    let dispatch = use_dispatch();
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1>{say::barred()}</h1>
                {refused(&refusal, false)}
            </div>
            <div class="acts">
                <QuietButton label=frame::back() on_press=move |()| dispatch.ui(Ui::Decline) />
            </div>
        </main>
    }
}

#[component]
fn Inside(room: String) -> impl IntoView {
    let go = use_go();
    let scanning = RwSignal::new(false);
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1>{say::in_room(&room)}</h1>
                <p>{say::in_teach()}</p>
                <a class="plain-link" href=Route::Cautions.href()>
                    {say::cautions()}
                </a>
            </div>
            <div class="acts">
                <QuietButton label=say::be_buddy() on_press=move |()| scanning.set(true) />
                <BigButton label=say::to_bench() on_press=move |()| go(Route::Bench, Step::Onward) />
            </div>
        </main>
        {scanner(scanning)}
    }
}
