//! Nobody is arriving: scan the code by the door, or pick the room without a camera.

use leptos::prelude::*;
use shared_core::view::door::{DoorView, RoomLine};

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::BigButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::route::Route;
use crate::screens::scan::scanner;
use crate::store::use_app_view;
use crate::words::{count, door as say, frame};

/// The way in.
#[component]
pub fn Outside() -> impl IntoView {
    let view = use_app_view();
    let rooms = kept(move || {
        view.door.with(|door| match door {
            Some(DoorView::Outside { rooms }) => rooms.clone(),
            _ => Vec::new(),
        })
    });
    let scanning = RwSignal::new(false);
    let demo =
        move || view.shop.with(|shop| shop.as_ref().filter(|shop| shop.demo).map(|shop| frame::demo(&shop.name)));
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1>{say::title()}</h1>
                <p>{say::teach()}</p>
                <h2>{say::pick()}</h2>
                <ul class="rows">{live(move || rooms.get().into_iter().map(|room| view! { <RoomRow room /> }.into_any()).collect_view())}</ul>
                <a class="plain-link" href=Route::Cautions.href()>
                    {say::cautions()}
                </a>
                <p class="soft">{demo}</p>
            </div>
            <div class="acts">
                <BigButton label=say::scan() on_press=move |()| scanning.set(true) />
            </div>
        </main>
        {scanner(scanning)}
    }
}

#[component]
fn RoomRow(room: RoomLine) -> impl IntoView {
    let dispatch = use_dispatch();
    let people = if room.people == 0 { say::empty().to_owned() } else { say::inside(count(room.people)) };
    let id = room.id;
    view! {
        <li class="row">
            <button type="button" class="row-act" on:click=move |_| dispatch.ui(Ui::ArriveAt(id.clone()))>
                <span class="row-name">{room.name}</span>
                <span class="row-detail">{people}</span>
            </button>
        </li>
    }
}
