//! Tag a machine out: which, what is wrong in a sentence, done.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::view::room::MachineName;

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::store::use_app_view;
use crate::words::{frame, room as say};

/// The sheet that tags a machine out.
#[component]
pub fn TagOutSheet(on_close: Callback<()>) -> impl IntoView {
    let view = use_app_view();
    let chosen = RwSignal::new(None::<MachineName>);
    let machines = view.room.with_untracked(|room| room.as_ref().map(|room| room.machines.clone()).unwrap_or_default());
    view! {
        <Sheet title=say::tag_out() close_label=frame::back() on_close>
            {live(move || match chosen.get() {
                None => view! { <Which machines=machines.clone() chosen /> }.into_any(),
                Some(machine) => view! { <What machine on_close /> }.into_any(),
            })}
        </Sheet>
    }
}

#[component]
fn Which(machines: Vec<MachineName>, chosen: RwSignal<Option<MachineName>>) -> impl IntoView {
    let row = move |machine: MachineName| {
        let name = machine.name.clone();
        view! {
            <li>
                <QuietButton label=name on_press=move |()| chosen.set(Some(machine.clone())) />
            </li>
        }
        .into_any()
    };
    view! {
        <div class="sheet-body">
            <NoticeBar />
            <h2>{say::tag_which()}</h2>
            <ul class="choices">{machines.into_iter().map(row).collect_view()}</ul>
        </div>
    }
}

#[component]
fn What(machine: MachineName, on_close: Callback<()>) -> impl IntoView {
    let dispatch = use_dispatch();
    let problem = RwSignal::new(String::new());
    let label = say::tag(&machine.name);
    let tag = Callback::new(move |by: fn(Command) -> Ui| {
        let problem = problem.get_untracked();
        dispatch.ui(by(Command::TagOut { machine: machine.id.clone(), problem, photo: None }));
        on_close.run(());
    });
    view! {
        <div class="sheet-body">
            <Field label=say::tag_what() name="problem" value=problem typed=Typed::Sentences hint=say::tag_hint() ready=true />
        </div>
        <div class="acts">
            <QuietButton label=say::tag_photo() on_press=move |()| tag.run(Ui::Photograph) />
            <BigButton label on_press=move |()| tag.run(Ui::Do) />
        </div>
    }
}
