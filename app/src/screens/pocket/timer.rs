//! What rings in a pocket without a network: the phone's own timer, set by hand, and a calendar file as a backup.

use leptos::prelude::*;
use shared_core::calendar::Reminder;
use shared_core::command::Command;
use shared_core::ids::SessionId;
use shared_core::time::{Instant, Span};
use shared_core::view::bench::Times;
use shared_core::view::reach::minutes_to_set;

use super::own_timer;
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::figures::BigFigure;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::screens::time::shop_clock;
use crate::store::{AppView, use_app_view};
use crate::words::{bell, pocket as say, time};

/// Both.
#[component]
pub fn TimerAndCalendar() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let minutes = kept(move || times(view).and_then(|times| minutes_to_set(&times, view.now.get())));
    let set = Callback::new(move |()| {
        if let Some(minutes) = minutes.get_untracked() {
            let rings_at = view.now.get_untracked() + Span::from_minutes(minutes);
            dispatch.act(Command::SetTimer { rings_at });
        }
    });
    let there = kept(move || minutes.get().is_some());
    view! {
        <section class="pocket-way">
            <h2>{say::without_network()}</h2>
            <p role="status">{own_timer(view, None)}</p>
            {live(move || {
                there
                    .get()
                    .then(|| {
                        view! {
                            <BigFigure
                                label=Signal::stored(say::timer_for().to_owned())
                                value=Signal::derive(move || time::short(minutes.get().unwrap_or_default()))
                            />
                            <QuietButton label=say::timer_is_set() on_press=set />
                        }.into_any()
                    })
            })}
            {live(move || file(view).map(|file| link(&file)))}
        </section>
    }
}

fn times(view: AppView) -> Option<Times> {
    view.bench.with(|bench| bench.as_ref()?.times.as_ref().ok().cloned())
}

fn link(file: &str) -> AnyView {
    let href = format!("data:text/calendar;charset=utf-8,{}", String::from(js_sys::encode_uri_component(file)));
    view! {
        <a class="plain-link" href=href download="sweepbell.ics">
            {say::calendar()}
        </a>
        <p class="soft">{say::calendar_how()}</p>
    }
    .into_any()
}

/// The session's calendar file as it stands; made anew when the times move, under the same name and a higher number.
fn file(view: AppView) -> Option<String> {
    let times = times(view)?;
    let (from, out_by) = view.bench.with(|bench| bench.as_ref().map(|bench| (bench.from, bench.out_by)))?;
    let made = view.now.get_untracked();
    let session = SessionId::new(format!("{}", from.ms()));
    let description = bell::first_times(&shop_clock(view, out_by), &shop_clock(view, times.sweep_from));
    let reminder = Reminder {
        session: &session,
        sequence: seconds(made, from),
        made,
        first_bell: times.first_bell,
        sweep_from: times.sweep_from,
        out_by,
        title: bell::sweep(),
        description: &description,
    };
    Some(reminder.write())
}

/// Seconds since the session began: each later telling has a higher number.
fn seconds(made: Instant, from: Instant) -> u32 {
    u32::try_from((made - from).ms() / 1_000).unwrap_or_default()
}
