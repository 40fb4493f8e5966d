//! One's own evenings, each as the steel rule that it was: how long, the sweep, the fire watch, the out-by.

use leptos::prelude::*;
use shared_core::view::history::Evening;

use crate::parts::figures::date_and_clock;
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::screens::rule::marks;
use crate::screens::time::{offset_minutes, shop_clock};
use crate::shell::desk::extra::Book;
use crate::store::use_app_view;
use crate::words::{book as say, count};

/// The evenings, or what will stand here.
#[component]
pub fn Evenings() -> impl IntoView {
    let view = use_app_view();
    view! {
        <section class="evenings">
            <h2>{say::evenings()}</h2>
            {live(move || {
                view.extra.with(|extra| match extra.seen::<Book>() {
                    Some(book) if book.evenings.is_empty() => said("soft", say::no_evenings().to_owned()),
                    Some(book) => drawn(&book.evenings),
                    None => ().into_any(),
                })
            })}
        </section>
    }
}

fn drawn(all: &[Evening]) -> AnyView {
    let mut rows = Vec::new();
    for one in all {
        rows.push(evening(one));
    }
    view! { <ol class="rows">{rows}</ol> }.into_any()
}

fn evening(evening: &Evening) -> AnyView {
    let view = use_app_view();
    let Evening { from, out_by, left, sweep_from, watch, .. } = *evening;
    let name = [&evening.room, ", ", &date_and_clock(from, offset_minutes(view, from))].concat();
    let times = say::evening(count(evening.chores), &shop_clock(view, left), &shop_clock(view, out_by));
    let mut marks =
        Marks { sweep_from: sweep_from.or(Some(out_by)), watch, left: true, ..marks(view, from, out_by, None) };
    marks.words.title.clone_from(&name);
    view! {
        <li class="row">
            <p class="row-name">{name}</p>
            <p class="row-detail">{times}</p>
            <p class="row-detail">{evening.machines.join(", ")}</p>
            <SteelRule marks=Signal::derive(move || marks.clone()) now=Signal::stored(left) />
        </li>
    }
    .into_any()
}
