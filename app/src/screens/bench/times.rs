//! The numbers of Bench: minutes until the sweep, last spark, fire watch, out-by. Each says why when it is pressed.
//!
//! Without a plan the reason stands where the number would.

use leptos::prelude::*;
use shared_core::plan::explain::Mark;
use shared_core::time::Instant;
use shared_core::view::bench::Times as Planned;

use super::{Over, asks, field};
use crate::parts::figures::{BigFigure, ClockAct, Key};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::screens::time::{minutes_until, shop_clock};
use crate::screens::why::refused;
use crate::store::{AppView, use_app_view};
use crate::words::{bench as say, why};
use crate::words::{chosen, moved::line};

/// The numbers.
#[component]
pub fn Times(
    /// What lies over the screen.
    over: RwSignal<Option<Over>>,
) -> impl IntoView {
    let view = use_app_view();
    let times = field(view, |bench| bench.times.clone());
    let out_by = field(view, |bench| bench.out_by);
    // When one would be free moves with every look; nothing here is drawn anew for that, least of all under a thumb.
    let planned = kept(move || times.get().and_then(Result::ok).map(|times| Planned { free_at: None, ..times }));
    let refusal = kept(move || times.get().and_then(Result::err));
    let clock = move |at: Option<Instant>| at.map(|at| shop_clock(view, at)).unwrap_or_default();
    view! {
        <section class="times">
            {live(move || refusal.get().map(|why| refused(&why, false)))}
            {live(move || planned.get().map(|times| view! { <PlannedTimes times over /> }.into_any()))}
            {live(move || moved_line(view).map(|line| view! { <p class="soft" role="status">{line}</p> }.into_any()))}
            <ClockAct
                label=say::out_by()
                act=say::move_it()
                value=Signal::derive(move || clock(out_by.get()))
                key=Key::Stop
                on_press=move |()| over.set(Some(Over::OutBy))
            />
        </section>
    }
}

/// What the last act moved, and why; until the next one.
fn moved_line(view: AppView) -> Option<String> {
    let moved = view.moved.get()?;
    line(&moved, &|at| shop_clock(view, at))
}

/// What is worth knowing: when one would be free, and until when the door's word holds.
#[component]
pub fn Facts(
    /// What lies over the screen.
    over: RwSignal<Option<Over>>,
) -> impl IntoView {
    let view = use_app_view();
    let free_at = field(view, |bench| bench.times.as_ref().ok().and_then(|times| times.free_at));
    let there = kept(move || free_at.get().flatten().is_some());
    let until = field(view, |bench| bench.attested_until);
    let clock = move || free_at.get().flatten().map(|at| shop_clock(view, at)).unwrap_or_default();
    view! {
        {live(move || {
            there
                .get()
                .then(|| {
                    view! {
                        <ClockAct
                            label=say::free_at()
                            act=why::act()
                            value=Signal::derive(clock)
                            on_press=asks(over, Some(Mark::FreeAt))
                        />
                    }.into_any()
                })
        })}
        <p class="soft">{live(move || until.get().map(|at| say::lapses(&shop_clock(view, at))))}</p>
    }
}

#[component]
fn PlannedTimes(times: Planned, over: RwSignal<Option<Over>>) -> impl IntoView {
    let view = use_app_view();
    let left = minutes_until(view, Signal::stored(times.sweep_from));
    let late = kept(move || left.get() < 0);
    let label = move || {
        let clock = shop_clock(view, times.sweep_from);
        if late.get() { say::sweep_since(&clock) } else { say::sweep_in(&clock) }
    };
    let line = move |mark: Mark, at: Option<Instant>, key: Key| {
        at.map(|at| {
            let value = Signal::derive(move || shop_clock(view, at));
            view! { <ClockAct label=mark.name(chosen()) act=why::act() value key on_press=asks(over, Some(mark)) /> }
                .into_any()
        })
    };
    let too_late = times.late_until.map(|until| {
        let reason = move || say::out_by_cannot_be_kept(&shop_clock(view, until));
        view! { <Notice tone=Tone::Trouble reason=reason() next_step=say::stay_and_move() /> }.into_any()
    });
    view! {
        {too_late}
        <BigFigure
            label=Signal::derive(label)
            value=Signal::derive(move || left.get().abs().to_string())
            unit=say::min()
            key=Key::Hatch
            act=(why::act(), asks(over, Some(Mark::SweepFrom)))
        />
        {line(Mark::LastSpark, times.last_spark, Key::Notch)}
        {line(Mark::WatchUntil, times.watch.map(|(_, until)| until), Key::Dots)}
        {(!times.optimal).then(|| view! { <p class="soft">{say::not_proven()}</p> }.into_any())}
    }
}
