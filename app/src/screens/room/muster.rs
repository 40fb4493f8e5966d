//! Muster: every name in large letters, room by room, and how old each line is. One touch from every screen.
//!
//! Nobody is left out for being stale; where nobody is known to be, that is said.

use leptos::prelude::*;

use super::field;
use super::people::{Covering, RoomPeople};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::sign::{SafetySign, Sign};
use crate::store::use_app_view;
use crate::words::{self, room as say};

/// The list to call out.
#[component]
pub fn Muster() -> impl IntoView {
    let view = use_app_view();
    let rooms = field(view, |room| room.rooms.clone());
    let count = kept(move || rooms.with(|rooms| rooms.iter().map(|room| room.people.len()).sum::<usize>()));
    view! {
        <div class="headline">
            <SafetySign sign=Sign::Muster />
            <h2>{say::muster()}</h2>
        </div>
        <p class="muster-count">{live(move || say::count(words::count(count.get())))}</p>
        <p>{say::muster_how()}</p>
        {live(move || rooms.get().into_iter().map(|room| view! { <RoomPeople room /> }.into_any()).collect_view())}
        <Covering />
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
