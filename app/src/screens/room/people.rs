//! Who is known to be in each room, since when, and when their phone was last heard of.

use leptos::prelude::*;
use shared_core::view::room::{PersonHere, RoomNow};

use crate::parts::live::live;
use crate::screens::time::{Minutes, shop_clock};
use crate::store::use_app_view;
use crate::words::{buddy, room as say};

/// One room and its people.
#[component]
pub fn RoomPeople(room: RoomNow) -> impl IntoView {
    let nobody = room.people.is_empty();
    view! {
        <section class="muster">
            <h3>{room.name}</h3>
            {nobody.then(|| view! { <p class="soft">{say::nobody()}</p> }.into_any())}
            <ul class="rows">
                {room.people.into_iter().map(|person| view! { <PersonRow person /> }.into_any()).collect_view()}
            </ul>
        </section>
    }
}

/// One person, and how old the knowledge is.
#[component]
fn PersonRow(person: PersonHere) -> impl IntoView {
    let view = use_app_view();
    let (since, out_by) = (person.since, person.out_by);
    let name = if person.me { say::me(&person.name) } else { person.name };
    view! {
        <li class="row">
            <p class="row-name">{name}</p>
            <p class="row-detail">
                {live(move || say::since(&shop_clock(view, out_by), &shop_clock(view, since)))}
                {person.sweeping.then(|| view! { ", " {say::sweeping()} }.into_any())}
            </p>
            <p class="row-detail">
                <Minutes at=Signal::stored(person.heard) since=true says=say::heard />
            </p>
        </li>
    }
}

/// Whom this member covers.
#[component]
pub fn Covering() -> impl IntoView {
    let view = use_app_view();
    live(move || {
        view.covering.with(|rows| {
            rows.iter()
                .map(|row| {
                    let text = buddy::covers(&row.name, &shop_clock(view, row.until), row.given);
                    view! {
                        <div class="fact">
                            <p>
                                <strong>{text}</strong>
                            </p>
                            <p class="soft">{buddy::covering_how()}</p>
                        </div>
                    }
                    .into_any()
                })
                .collect_view()
        })
    })
}
