//! The session's steel rule: the instants of the plan, handed to the part that draws them.

use leptos::prelude::*;
use shared_core::view::bench::BenchView;

use super::{Over, asks};
use crate::parts::figures::pressed;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::screens::rule::marks;
use crate::store::use_app_view;
use crate::words::why;

/// The rule of the running session. Pressed anywhere, it says why its times are what they are.
#[component]
pub fn SessionRule(
    /// What lies over the screen.
    over: RwSignal<Option<Over>>,
) -> impl IntoView {
    let view = use_app_view();
    // What was planned is past once the sweep has begun.
    let began = kept(move || view.sweep.with(|sweep| sweep.as_ref().and_then(|sweep| sweep.began)));
    let marks_of = move |bench: &BenchView| {
        let planned = marks(view, bench.from, bench.out_by, bench.times.as_ref().ok());
        Marks { sweep_from: began.get().or(planned.sweep_from), ..planned }
    };
    let marks = kept(move || view.bench.with(|bench| bench.as_ref().map(marks_of)));
    let there = kept(move || marks.with(Option::is_some));
    live(move || {
        there.get().then(|| {
            let first = marks.get_untracked()?;
            let marks = Signal::derive(move || marks.get().unwrap_or_else(|| first.clone()));
            Some(
                view! {
                    <SteelRule marks now=view.now />
                    {pressed("rule-why", why::all().into_any(), asks(over, None))}
                }
                .into_any(),
            )
        })
    })
}
