//! One's own evenings, each as the steel rule that it was: how long, the sweep, the fire watch, the out-by.

use leptos::prelude::*;
use shared_core::view::history::Evening;

use crate::intent::Wanted;
use crate::parts::figures::date_and_clock;
use crate::parts::kept::kept;
use crate::parts::live::{live, rows};
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::screens::rule::marks;
use crate::screens::time::{offset_minutes, shop_clock};
use crate::screens::wants::wants;
use crate::store::use_app_view;
use crate::words::{book as say, count};

/// The evenings, or what will stand here.
#[component]
pub fn Evenings() -> impl IntoView {
    let view = use_app_view();
    wants(kept(|| Wanted::Evenings));
    let ids = kept(move || view.evenings.with(|all| all.iter().map(|one| one.id.to_string()).collect::<Vec<String>>()));
    let none = kept(move || ids.with(Vec::is_empty));
    let evening = move |id: String| {
        let found = kept(move || view.evenings.with(|all| all.iter().find(|one| one.id.as_str() == id).cloned()));
        live(move || found.get().map(evening))
    };
    view! {
        <section class="evenings">
            <h2>{say::evenings()}</h2>
            {live(move || none.get().then(|| view! { <p class="soft">{say::no_evenings()}</p> }.into_any()))}
            <ol class="rows">{rows(ids, evening)}</ol>
        </section>
    }
}

fn evening(evening: Evening) -> AnyView {
    let view = use_app_view();
    let Evening { room, from, out_by, left, sweep_from, watch, machines, chores, .. } = evening;
    let date = date_and_clock(from, offset_minutes(view, from));
    let times = say::evening(count(chores), &shop_clock(view, left), &shop_clock(view, out_by));
    let marks = Marks { sweep_from: sweep_from.or(Some(out_by)), watch, left: true, ..marks(view, from, out_by, None) };
    view! {
        <li class="row">
            <p class="row-name">{room} ", " {date}</p>
            <p class="row-detail">{times}</p>
            <p class="row-detail">{machines.join(", ")}</p>
            <SteelRule marks=Signal::stored(marks) now=Signal::stored(left) />
        </li>
    }
    .into_any()
}
