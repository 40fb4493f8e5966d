//! What is tagged out, in whose words and since when; the way to its repair thread, where it is given back.

use leptos::prelude::*;
use shared_core::view::bench::TagRow;

use super::field;
use crate::parts::live::live;
use crate::route::Page;
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{bench, room as say};

/// The tags.
#[component]
pub fn Tagged() -> impl IntoView {
    let view = use_app_view();
    let rows = field(view, |room| room.tagged.clone());
    view! {
        <section>
            <h2>{say::tagged()}</h2>
            {live(move || rows.with(Vec::is_empty).then(|| view! { <p class="soft">{say::none_tagged()}</p> }.into_any()))}
            <ul class="rows">
                {live(move || {
                    rows.get()
                        .into_iter()
                        .map(|row| view! { <Row row /> }.into_any())
                        .collect_view()
                })}
            </ul>
        </section>
    }
}

#[component]
fn Row(row: TagRow) -> impl IntoView {
    let TagRow { name, tag, .. } = row;
    let spoken = bench::act_on(say::tag_thread(), &name);
    view! {
        <li class="row with-act">
            <div>
                <p class="row-name">{name}</p>
                <p class="row-detail">{tag.problem}</p>
                <p class="row-detail">
                    <Minutes at=Signal::stored(tag.since) since=true says=say::tagged_since />
                </p>
            </div>
            <a class="quiet-button" href=Page::Repairs.href() aria-label=spoken>
                {say::tag_thread()}
            </a>
        </li>
    }
}
