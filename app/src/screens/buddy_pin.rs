//! A buddy who has no phone with them: who it is, what their word means, and their figures, on the operator's phone.
//!
//! The figures are never shown and leave this screen only to be digested.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::ids::PersonId;

use super::notice_bar::NoticeBar;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::words::{buddy as say, frame};

/// Those who have figures of their own; then the one who was picked.
#[component]
pub fn ByPin(pins: Vec<(PersonId, String)>, minutes: u32) -> impl IntoView {
    let dispatch = use_dispatch();
    let picked = RwSignal::new(None::<(PersonId, String)>);
    let close = Callback::new(move |()| dispatch.ui(Ui::CloseBuddy));
    live(move || match picked.get() {
        None => view! { <Who pins=pins.clone() picked close /> }.into_any(),
        Some((who, name)) => view! { <Figures who name minutes close /> }.into_any(),
    })
}

#[component]
fn Who(
    pins: Vec<(PersonId, String)>,
    picked: RwSignal<Option<(PersonId, String)>>,
    close: Callback<()>,
) -> impl IntoView {
    let row = move |(who, name): (PersonId, String)| {
        let label = name.clone();
        view! {
            <li>
                <QuietButton label on_press=move |()| picked.set(Some((who.clone(), name.clone()))) />
            </li>
        }
        .into_any()
    };
    view! {
        <Sheet title=say::no_phone() close_label=frame::back() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <p>{say::who()}</p>
                <ul class="choices">{pins.into_iter().map(row).collect_view()}</ul>
            </div>
        </Sheet>
    }
}

#[component]
fn Figures(who: PersonId, name: String, minutes: u32, close: Callback<()>) -> impl IntoView {
    let dispatch = use_dispatch();
    let typed = RwSignal::new(String::new());
    let confirm = move |()| dispatch.ui(Ui::ConfirmByPin { who: who.clone(), figures: typed.get_untracked() });
    view! {
        <Sheet title=name.clone() close_label=frame::back() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                <p class="statement">{say::means(i64::from(minutes))}</p>
                <Field
                    label=say::figures(&name)
                    name="figures"
                    value=typed
                    typed=Typed::Hidden
                    hint=say::figures_hint(&name)
                />
            </div>
            <div class="acts">
                <BigButton label=say::here() on_press=confirm />
            </div>
        </Sheet>
    }
}
