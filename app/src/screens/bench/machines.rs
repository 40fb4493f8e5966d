//! The machines of this room: start, stop, or "Why not?" where a dead button would stand.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::exposure::day::{Harm, Left};
use shared_core::ids::MachineId;
use shared_core::refusal::Refusal;
use shared_core::time::Span;
use shared_core::view::bench::{Cover, MachineRow, Standing, news_is_old};

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::{QuietButton, Strength};
use crate::parts::kept::{Kept, kept};
use crate::parts::live::{live, rows};
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{bench as say, chosen, look, time};

/// The list.
#[component]
pub fn Machines(
    /// Called to start one.
    #[prop(into)]
    on_start: Callback<MachineId>,
    /// Called to be told why one cannot be started.
    #[prop(into)]
    on_why_not: Callback<MachineId>,
) -> impl IntoView {
    let view = use_app_view();
    let machines = field(view, |bench| bench.machines.clone());
    let ids = kept(move || {
        machines.with(|rows| rows.iter().flatten().map(|row| row.id.as_str().to_owned()).collect::<Vec<String>>())
    });
    let line = move |id: String| {
        let row = kept(move || machines.with(|rows| rows.iter().flatten().find(|row| row.id.as_str() == id).cloned()));
        view! { <Line row on_start on_why_not /> }.into_any()
    };
    view! {
        <section class="machines">
            <h2>{say::machines()}</h2>
            {live(move || ids.with(Vec::is_empty).then(|| view! { <p>{say::no_machines()}</p> }.into_any()))}
            <ul class="rows">
                {rows(ids, line)}
            </ul>
            {old_news()}
            <p class="soft">{look::left_caution()}</p>
        </section>
    }
}

/// That this phone could not know of a tag, if it has not heard of the shop for long.
fn old_news() -> AnyView {
    let view = use_app_view();
    let heard = kept(move || view.shop.with(|shop| shop.as_ref()?.card.as_ref().map(|card| card.list_at)));
    let is_old = kept(move || heard.get().is_some_and(|heard| news_is_old(heard, view.now.get())));
    let says = |minutes: i64| say::news_old(&time::ago(minutes));
    live(move || {
        let heard = heard.get().filter(|_| is_old.get())?;
        Some(view! { <p class="soft"><Minutes at=Signal::stored(heard) since=true says /></p> }.into_any())
    })
}

#[component]
fn Line(
    row: Kept<Option<MachineRow>>,
    on_start: Callback<MachineId>,
    on_why_not: Callback<MachineId>,
) -> impl IntoView {
    view! {
        <li class="row with-act">
            {live(move || {
                row.get()
                    .map(|row| {
                        let detail = detail(&row);
                        let name = row.name.clone();
                        view! {
                            <div>
                                <p class="row-name">{name}</p>
                                <p class="row-detail">{detail}</p>
                            </div>
                            <Act row on_start on_why_not />
                        }.into_any()
                    })
            })}
        </li>
    }
}

/// What stands under a machine's name.
fn detail(row: &MachineRow) -> AnyView {
    match &row.standing {
        Standing::Running { since, covered_until } => {
            let cover = covered_until.map(|cover| match cover {
                Cover::Until(until) => view! {
                    ", "
                    <Minutes at=Signal::stored(until) says=say::covered />
                }
                .into_any(),
                Cover::GapSince(_) => view! {
                    <br />
                    <strong>{say::uncovered()}</strong>
                }
                .into_any(),
            });
            view! {
                <Minutes at=Signal::stored(*since) since=true says=say::running />
                {cover}
                {row.left_today.map(left_running)}
            }
            .into_any()
        }
        // What a machine always asks for needs no sentence here: "Why not?" has it.
        Standing::Refused(refusal) if !matches!(refusal, Refusal::NoBuddy { .. }) => {
            refusal.reason(chosen()).into_any()
        }
        Standing::Ready(_) | Standing::Refused(_) => {
            let asks = [(row.buddy, say::needs_buddy()), (row.hot_work, say::hot_work()), (row.pedal, say::pedal())];
            let asks: Vec<&str> = asks.into_iter().filter(|(asked, _)| *asked).map(|(_, words)| words).collect();
            let mut text = asks.join(", ");
            if let Some(left) = row.left_today {
                // On a line of its own: the stylesheet keeps the break.
                text.push_str(if text.is_empty() { "" } else { "\n" });
                text.push_str(&look::left(left.harm, left.minutes));
            }
            text.into_any()
        }
    }
}

/// What is left at a machine that runs, counted down by the leaf. Whole minutes that are left, never a part more: a leaf
/// rounds up, so it is given an instant that is all but a minute earlier.
fn left_running(left: Left) -> AnyView {
    let says = match left.harm {
        Harm::Noise => look::left_ears,
        Harm::Vibration => look::left_hands,
    };
    view! {
        <br />
        <Minutes at=Signal::stored(left.until - Span::from_ms(59_000)) says />
    }
    .into_any()
}

#[component]
fn Act(row: MachineRow, on_start: Callback<MachineId>, on_why_not: Callback<MachineId>) -> impl IntoView {
    let dispatch = use_dispatch();
    let (id, name) = (row.id, row.name);
    let (label, strength, press) = match row.standing {
        Standing::Ready(_) => (say::start(), Strength::Plain, Callback::new(move |()| on_start.run(id.clone()))),
        Standing::Running { .. } => {
            let stop = move |()| dispatch.act(Command::StopMachine { machine: id.clone() });
            (say::stop(), Strength::Plain, Callback::new(stop))
        }
        Standing::Refused(_) => (say::why_not(), Strength::Faint, Callback::new(move |()| on_why_not.run(id.clone()))),
    };
    view! { <QuietButton label strength spoken=say::act_on(label, &name) on_press=press /> }
}
