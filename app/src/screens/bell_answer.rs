//! What is asked of an answer to a bell: how much more time, and what that costs; why the sweep is not done.
//!
//! More time is another out-by, weighed by the plan before it is said; whatever hangs on out-by, the last spark too, moves with
//! it and is told so. Why a sweep is not done is asked once, and leaving is never blocked by it. Of the later part.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::Undone;
use shared_core::fire_watch::WatchStage;
use shared_core::time::{Instant, Span};
use shared_core::view::bench::MORE_MINUTES_MIN;

use super::bell::Answer;
use super::sweep::missing;
use super::time::{Minutes, shop_clock};
use super::wants::wants;
use crate::intent::{Wanted, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::shell::desk::extra::Weighed;
use crate::store::{AppView, use_app_view};
use crate::words::{bell as say, count, facts, sweep, time};

/// How many minutes more are offered.
const OFFERED: [i64; 5] = [MORE_MINUTES_MIN, 10, 15, 30, 60];

/// What is asked.
pub fn asked(answer: Answer) -> AnyView {
    match answer {
        Answer::MoreTime => how_long(),
        Answer::HaveLeft => why(),
    }
}

/// Out-by with so many minutes more.
fn later_by(view: AppView, minutes: i64) -> Instant {
    let from =
        view.bench.with_untracked(|bench| bench.as_ref().map(|bench| bench.longer_from(view.now.get_untracked())));
    from.unwrap_or_else(|| view.now.get_untracked()) + Span::from_minutes(minutes)
}

fn how_long() -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let latest = view.bench.with_untracked(|bench| bench.as_ref().map(|bench| bench.out_by_range.1));
    let offered = OFFERED.into_iter().filter(|minutes| latest.is_some_and(|latest| later_by(view, *minutes) <= latest));
    // Rounded to the minute that is shown, once, so that what is weighed is what is said.
    let offered: Vec<(i64, Instant)> = offered.map(|minutes| (minutes, later_by(view, minutes))).collect();
    let Some(first) = offered.first().copied() else { return said("bell-next", say::more_not().to_owned()) };
    let chosen = RwSignal::new(first);
    wants(Box::new(move || Wanted::OutBy(chosen.get().1)));
    let choice = move |(minutes, out_by): (i64, Instant)| {
        let pressed = move || if chosen.get().0 == minutes { "true" } else { "false" };
        view! {
            <button type="button" class="quiet-button" aria-pressed=pressed on:click=move |_| chosen.set((minutes, out_by))>
                {time::short(minutes)}
            </button>
        }
        .into_any()
    };
    let mut choices = Vec::new();
    for one in offered {
        choices.push(choice(one));
    }
    let act = move |_| dispatch.act(Command::MoveOutBy { out_by: chosen.get_untracked().1 });
    view! {
        <section class="bell-answer">
            <h2>{say::more_how()}</h2>
            <div class="looks" role="group" aria-label=say::more_how()>
                {choices}
            </div>
            <div role="status">{live(move || Some(costs(view, chosen.get())))}</div>
            <button type="button" class="bell-main" on:click=act>
                {live(move || say::more_act(&shop_clock(view, chosen.get().1)))}
            </button>
        </section>
    }
    .into_any()
}

/// What that much more time costs, as the plan has it.
fn costs(view: AppView, (minutes, out_by): (i64, Instant)) -> AnyView {
    let times = view.extra.with(|extra| extra.seen().and_then(|weighed: &Weighed| weighed.times.clone()));
    let clock = |at| shop_clock(view, at);
    let mut lines = Vec::new();
    if let Some(times) = times {
        lines.push(said("bell-next", say::more_then(&clock(out_by), &clock(times.sweep_from))));
        if let Some(at) = times.last_spark {
            lines.push(said("bell-next", say::more_spark(&clock(at))));
        }
    }
    lines.push(said("", say::more_costs(minutes)));
    let until = view.bench.with(|bench| bench.as_ref().map(|bench| bench.out_by_range.1));
    lines.extend(until.map(|until| said("", say::more_until(&clock(until)))));
    lines.into_any()
}

fn why() -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let left = kept(move || view.sweep.with(|sweep| sweep.as_ref().map(missing).unwrap_or_default()));
    let watch = kept(move || {
        view.sweep.with(|sweep| match sweep.as_ref()?.watch.as_ref()?.stage {
            WatchStage::Watching { until, .. } => Some(until),
            _ => None,
        })
    });
    let mut reasons = Vec::new();
    for why in Undone::ALL {
        let dispatch = dispatch.clone();
        let leave = move |()| dispatch.act(Command::LeaveUndone { why });
        reasons.push(view! { <QuietButton label=facts::why_left(why) on_press=leave /> }.into_any());
    }
    view! {
        <section class="bell-answer">
            <h2>{say::left_why()}</h2>
            <p class="bell-next">{live(move || sweep::missing(count(left.get())))}</p>
            {live(move || {
                watch
                    .get()
                    .map(|until| {
                        view! { <p class="bell-next"><Minutes at=Signal::stored(until) says=sweep::watch_short /></p> }.into_any()
                    })
            })}
            <p>{say::left_how()}</p>
            {reasons}
        </section>
    }
    .into_any()
}
