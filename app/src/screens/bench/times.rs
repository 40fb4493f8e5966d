//! The numbers of Bench: minutes until the sweep, last spark, fire watch, out-by.
//!
//! Without a plan the reason stands where the number would.

use leptos::prelude::*;
use shared_core::time::Instant;
use shared_core::view::bench::Times as Planned;

use super::field;
use crate::parts::figures::{BigFigure, ClockAct, ClockLine, Key};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::screens::time::{minutes_until, shop_clock};
use crate::store::{AppView, use_app_view};
use crate::words::en::bench as say;
use crate::words::en::moved::line;

/// The numbers.
#[component]
pub fn Times(
    /// Called to move out-by.
    #[prop(into)]
    on_move: Callback<()>,
) -> impl IntoView {
    let view = use_app_view();
    let times = field(view, |bench| bench.times.clone());
    let out_by = field(view, |bench| bench.out_by);
    let planned = kept(move || times.get().and_then(Result::ok));
    let refused = kept(move || times.get().and_then(Result::err));
    let clock = move |at: Option<Instant>| at.map(|at| shop_clock(view, at)).unwrap_or_default();
    view! {
        <section class="times">
            {live(move || {
                refused
                    .get()
                    .map(|why| {
                        view! { <Notice tone=Tone::Refusal reason=why.reason() next_step=why.next_step() /> }
                    })
            })}
            {live(move || planned.get().map(|times| view! { <PlannedTimes times /> }))}
            {live(move || moved_line(view).map(|line| view! { <p class="soft" role="status">{line}</p> }))}
            <ClockAct
                label=say::OUT_BY
                act=say::MOVE_IT
                value=Signal::derive(move || clock(out_by.get()))
                key=Key::Stop
                on_press=on_move
            />
        </section>
    }
}

/// What the last act moved, and why; until the next one.
fn moved_line(view: AppView) -> Option<String> {
    let moved = view.moved.get()?;
    line(&moved, &|at| shop_clock(view, at))
}

/// What is worth knowing, and does not press: when one would be free, and until when the door's word holds.
#[component]
pub fn Facts() -> impl IntoView {
    let view = use_app_view();
    let free_at = field(view, |bench| bench.times.as_ref().ok().and_then(|times| times.free_at));
    let until = field(view, |bench| bench.attested_until);
    view! {
        <p class="soft">{live(move || free_at.get().flatten().map(|at| say::free_at(&shop_clock(view, at))))}</p>
        <p class="soft">{live(move || until.get().map(|at| say::lapses(&shop_clock(view, at))))}</p>
    }
}

#[component]
fn PlannedTimes(times: Planned) -> impl IntoView {
    let view = use_app_view();
    let left = minutes_until(view, Signal::stored(times.sweep_from));
    let late = kept(move || left.get() < 0);
    let label = move || {
        let clock = shop_clock(view, times.sweep_from);
        if late.get() { say::sweep_since(&clock) } else { say::sweep_in(&clock) }
    };
    let line = move |label: &'static str, at: Option<Instant>, key: Key| {
        at.map(|at| view! { <ClockLine label value=Signal::derive(move || shop_clock(view, at)) key /> })
    };
    let too_late = times.late_until.map(|until| {
        let reason = move || say::out_by_cannot_be_kept(&shop_clock(view, until));
        view! { <Notice tone=Tone::Trouble reason=reason() next_step=say::STAY_AND_MOVE /> }
    });
    view! {
        {too_late}
        <BigFigure
            label=Signal::derive(label)
            value=Signal::derive(move || left.get().abs().to_string())
            unit=say::MIN
            key=Key::Hatch
        />
        {line(say::LAST_SPARK, times.last_spark, Key::Notch)}
        {line(say::WATCH_UNTIL, times.watch.map(|(_, until)| until), Key::Dots)}
        {(!times.optimal).then(|| view! { <p class="soft">{say::NOT_PROVEN}</p> })}
    }
}
