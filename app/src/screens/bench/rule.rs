//! The session's steel rule: the instants of the plan, handed to the part that draws them.

use leptos::prelude::*;
use shared_core::view::bench::BenchView;

use super::{Over, asks};
use crate::parts::figures::pressed;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::steel_rule::{Marks, SteelRule, Words};
use crate::screens::time::{offset_minutes, shop_clock};
use crate::store::{AppView, use_app_view};
use crate::words::{rule as say, why};

/// The rule of the running session. Pressed anywhere, it says why its times are what they are.
#[component]
pub fn SessionRule(
    /// What lies over the screen.
    over: RwSignal<Option<Over>>,
) -> impl IntoView {
    let view = use_app_view();
    let marks = kept(move || view.bench.with(|bench| bench.as_ref().map(|bench| marks_of(view, bench))));
    let there = kept(move || marks.with(Option::is_some));
    live(move || {
        there.get().then(|| {
            let first = marks.get_untracked()?;
            let marks = Signal::derive(move || marks.get().unwrap_or_else(|| first.clone()));
            Some(view! {
                <SteelRule marks now=view.now />
                {pressed("rule-why", why::all().into_any(), asks(over, None))}
            })
        })
    })
}

fn marks_of(view: AppView, bench: &BenchView) -> Marks {
    let times = bench.times.as_ref().ok();
    let out_by = shop_clock(view, bench.out_by);
    let desc = times.map_or_else(
        || say::says_out_by(&out_by),
        |times| {
            let spark = times.last_spark.map(|at| shop_clock(view, at));
            say::says(
                &shop_clock(view, times.first_bell),
                &shop_clock(view, times.sweep_from),
                &out_by,
                spark.as_deref(),
            )
        },
    );
    Marks {
        from: bench.from,
        out_by: bench.out_by,
        sweep_from: times.map(|times| times.sweep_from),
        first_bell: times.map(|times| times.first_bell),
        last_spark: times.and_then(|times| times.last_spark),
        watch: times.and_then(|times| times.watch),
        offset_minutes: offset_minutes(view, bench.out_by),
        words: Words {
            title: say::title().into(),
            desc,
            past: say::past().into(),
            work: say::work().into(),
            sweep: say::sweep().into(),
            watch: say::watch().into(),
            last_spark: say::last_spark().into(),
            out_by: say::out_by().into(),
            over: say::over().into(),
        },
    }
}
