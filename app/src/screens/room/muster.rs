//! Muster: every name in large letters, the emergency number, and how old each line is. One touch from anywhere.

use leptos::prelude::*;

use super::field;
use super::people::PersonRow;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::parts::sign::{SafetySign, Sign};
use crate::store::use_app_view;
use crate::words::{self, frame, room as say};

/// The list to call out.
#[component]
pub fn MusterSheet(on_close: Callback<()>) -> impl IntoView {
    let view = use_app_view();
    let rooms = field(view, |room| room.rooms.clone());
    let emergency = field(view, |room| room.emergency.clone());
    let count = kept(move || rooms.with(|rooms| rooms.iter().map(|room| room.people.len()).sum::<usize>()));
    view! {
        <Sheet title=say::muster_title() close_label=frame::back() on_close>
            <div class="sheet-body muster">
                <div class="headline">
                    <SafetySign sign=Sign::Muster />
                    <p class="muster-count">{live(move || say::count(words::count(count.get())))}</p>
                </div>
                <p>{say::muster_how()}</p>
                {live(move || {
                    rooms
                        .get()
                        .into_iter()
                        .filter(|room| !room.people.is_empty())
                        .map(|room| {
                            view! {
                                <h2>{room.name}</h2>
                                <ul class="rows">
                                    {room.people.into_iter().map(|person| view! { <PersonRow person /> }).collect_view()}
                                </ul>
                            }
                        })
                        .collect_view()
                })}
            </div>
            <div class="acts">
                {live(move || call_act(emergency.get()))}
            </div>
        </Sheet>
    }
}

/// The call: the shop's number to touch, or what to do without one.
pub fn call_act(number: Option<String>) -> AnyView {
    match number {
        Some(number) => view! {
            <a class="quiet-button" href=format!("tel:{number}")>
                {say::call(&number)}
            </a>
        }
        .into_any(),
        None => view! { <p>{say::call_emergency()}</p> }.into_any(),
    }
}
