//! Today: who is in, and what needs the steward, each with its next step.

use leptos::prelude::*;
use shared_core::view::today::{Need, Today};

use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::route::Route;
use crate::screens::room::field;
use crate::screens::time::{Minutes, shop_clock};
use crate::store::use_app_view;
use crate::words::{self, room, today as say};

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let needs = kept(move || view.extra.with(|extra| extra.seen().map(|today: &Today| today.needs.clone())));
    let count = field(view, |room| room.rooms.iter().map(|room| room.people.len()).sum::<usize>());
    view! {
        <section>
            <h2>{say::needs()}</h2>
            {live(move || needs.with(|needs| needs.as_ref().is_some_and(Vec::is_empty)).then(|| view! { <p class="soft">{say::none()}</p> }.into_any()))}
            {live(move || needs.get().map(|needs| needs.into_iter().map(need).collect_view()))}
        </section>
        <section>
            <h2>{say::who_is_in()}</h2>
            <p>{live(move || room::count(words::count(count.get())))}</p>
            <a class="plain-link" href=Route::Room.href()>
                {room::muster()}
            </a>
        </section>
    }
    .into_any()
}

fn need(need: Need) -> AnyView {
    let view = use_app_view();
    match need {
        Need::PastOutBy { name, room, out_by, heard, .. } => {
            let reason = Signal::derive(move || say::past_out_by(&name, &room, &shop_clock(view, out_by)));
            view! {
                <Notice tone=Tone::Trouble reason next_step=say::past_out_by_next() />
                <p class="row-detail">
                    <Minutes at=Signal::stored(heard) since=true says=crate::words::room::heard />
                </p>
            }
            .into_any()
        }
    }
}
