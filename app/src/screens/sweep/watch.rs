//! The fire watch: a running countdown, and when the place was last walked.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::fire_watch::WatchStage;
use shared_core::plan::explain::Mark;
use shared_core::time::Instant;
use shared_core::view::sweep::SweepView;

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::{QuietButton, Strength};
use crate::parts::live::live;
use crate::screens::bench::{Over, asks};
use crate::screens::time::{Countdown, Minutes, shop_clock};
use crate::store::use_app_view;
use crate::words::{sweep as say, time};

/// Whether a watch is needed and not over.
pub fn is_short(sweep: &SweepView) -> bool {
    sweep.watch.as_ref().is_some_and(|watch| !matches!(watch.stage, WatchStage::Over { .. }))
}

/// The watch, where hot work was done.
#[component]
pub fn FireWatch(
    /// What lies over the screen.
    over: RwSignal<Option<Over>>,
) -> impl IntoView {
    let view = use_app_view();
    let stage = field(view, |sweep| sweep.watch.as_ref().map(|watch| watch.stage));
    live(move || {
        stage.get().flatten().map(|stage| match stage {
            WatchStage::Sparking => view! { <p class="fact">{say::sparking()}</p> }.into_any(),
            WatchStage::Watching { until, .. } => view! { <Watching until over /> }.into_any(),
            WatchStage::Over { at } => {
                view! { <p class="fact">{live(move || say::watch_over(&shop_clock(view, at)))}</p> }.into_any()
            }
        })
    })
}

#[component]
fn Watching(until: Instant, over: RwSignal<Option<Over>>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let walked = field(view, |sweep| sweep.watch.as_ref().and_then(|watch| watch.rounds.last().copied()));
    view! {
        <section class="watch">
            <h2>{live(move || say::watch_until(&shop_clock(view, until)))}</h2>
            <p>
                <Countdown until=Signal::stored(until) />
            </p>
            <p>{say::watch_how()}</p>
            {live(move || {
                walked
                    .get()
                    .flatten()
                    .map(|at| {
                        view! {
                            <p class="soft">
                                <Minutes
                                    at=Signal::stored(at)
                                    since=true
                                    says=|minutes| say::walked_ago(&time::ago(minutes))
                                />
                            </p>
                        }.into_any()
                    })
            })}
            <QuietButton
                label=say::watch_why()
                strength=Strength::Faint
                on_press=asks(over, Some(Mark::WatchUntil))
            />
            <QuietButton label=say::walked() on_press=move |()| dispatch.act(Command::WalkWatch) />
        </section>
    }
}
