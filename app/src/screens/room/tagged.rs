//! What is tagged out, in whose words and since when. A steward takes a tag off here.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::ids::MachineId;
use shared_core::view::bench::TagRow;

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::live::live;
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{bench, room as say};

/// The tags.
#[component]
pub fn Tagged() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let rows = field(view, |room| room.tagged.clone());
    let steward = field(view, |room| room.steward);
    let clear = Callback::new(move |machine: MachineId| dispatch.act(Command::ClearTag { machine }));
    view! {
        <section>
            <h2>{say::tagged()}</h2>
            {live(move || rows.with(Vec::is_empty).then(|| view! { <p class="soft">{say::none_tagged()}</p> }.into_any()))}
            <ul class="rows">
                {live(move || {
                    rows.get()
                        .into_iter()
                        .map(|row| view! { <Row row steward=steward.get() clear /> }.into_any())
                        .collect_view()
                })}
            </ul>
        </section>
    }
}

#[component]
fn Row(row: TagRow, steward: bool, clear: Callback<MachineId>) -> impl IntoView {
    let TagRow { machine, name, tag } = row;
    let spoken = bench::act_on(say::clear_tag(), &name);
    view! {
        <li class="row with-act">
            <div>
                <p class="row-name">{name}</p>
                <p class="row-detail">{tag.problem}</p>
                <p class="row-detail">
                    <Minutes at=Signal::stored(tag.since) since=true says=say::tagged_since />
                </p>
            </div>
            {steward
                .then(|| {
                    view! { <QuietButton label=say::clear_tag() spoken on_press=move |()| clear.run(machine.clone()) /> }.into_any()
                })}
        </li>
    }
}
