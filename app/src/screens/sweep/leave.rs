//! Before you go: what is missing, said plainly, with both ways open.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::fire_watch::WatchStage;
use shared_core::view::sweep::{SweepView, When};

use super::{field, missing};
use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{count, frame, sweep as say};

/// The sheet before leaving with something missing.
#[component]
pub fn LeaveSheet(on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let left = field(view, missing);
    let names = field(view, names_of_missing);
    let watch = field(view, |sweep| match sweep.watch.as_ref().map(|watch| watch.stage) {
        Some(WatchStage::Watching { until, .. }) => Some(until),
        _ => None,
    });
    let leave = move |()| {
        dispatch.act(Command::Leave);
        on_close.run(());
    };
    view! {
        <Sheet title=say::leave_title() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                {live(move || {
                    watch
                        .get()
                        .flatten()
                        .map(|until| {
                            view! {
                                <p class="row-name">
                                    <Minutes at=Signal::stored(until) says=say::watch_short />
                                </p>
                                <p>{say::watch_short_next()}</p>
                            }.into_any()
                        })
                })}
                {live(move || {
                    left.get()
                        .filter(|left| *left > 0)
                        .map(|left| view! { <Notice tone=Tone::Fact reason=say::missing(count(left)) next_step=say::missing_why() /> }.into_any())
                })}
                <ul class="rows">
                    {live(move || {
                        names
                            .get()
                            .unwrap_or_default()
                            .into_iter()
                            .map(|name| view! { <li class="row">{name}</li> }.into_any())
                            .collect_view()
                    })}
                </ul>
            </div>
            <div class="acts">
                <QuietButton label=say::stay() on_press=on_close />
                <BigButton label=say::leave_now() on_press=leave />
            </div>
        </Sheet>
    }
}

fn names_of_missing(sweep: &SweepView) -> Vec<String> {
    let left = sweep.chores.iter().filter(|chore| !matches!(chore.when, When::Done(_)));
    left.map(|chore| format!("{}: {}", chore.owner, chore.text)).collect()
}
