//! An evening tried out under the text: a room, machines and their minutes, how many sweep; and its steel rule.

use leptos::prelude::*;
use shared_core::ids::{MachineId, RoomId};
use shared_core::sync::rules::{Evening, EveningPlanned, RulesRoom};
use shared_core::time::{Instant, MINUTE_MS, Span};
use shared_core::view::bench::Times;

use super::Desk;
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::steel_rule::SteelRule;
use crate::screens::rule::marks;
use crate::screens::time::shop_clock;
use crate::words::{rules as say, time};

/// An evening begins so long before its out-by unless it is changed.
const HOURS: i64 = 3;
/// Each press uses a machine so much longer.
const STEP_MINUTES: u32 = 30;

/// The choices, and the evening that they make.
pub(super) fn evening(desk: Desk) -> AnyView {
    let rooms =
        kept(move || desk.found.with(|found| found.as_ref().map(|found| found.rooms.clone()).unwrap_or_default()));
    let planned = kept(move || desk.found.with(|found| found.as_ref().and_then(|found| found.evening.clone())));
    let impossible = kept(move || desk.found.with(|found| found.as_ref().and_then(|found| found.impossible.clone())));
    view! {
        <h2>{say::evening()}</h2>
        <p class="soft">{say::evening_how()}</p>
        {live(move || Some(rooms.get().iter().map(|room| of_room(desk, room)).collect::<Vec<_>>().into_any()))}
        {live(move || desk.evening.with(Option::is_some).then(|| crew(desk)))}
        {live(move || {
            impossible.get().map(|reason| view! { <Notice tone=Tone::Trouble reason next_step=say::evening_change() /> }.into_any())
        })}
        {live(move || planned.get().map(|planned| drawn(desk, &planned)))}
    }
    .into_any()
}

/// A room's machines; each press is half an hour more at one.
fn of_room(desk: Desk, room: &RulesRoom) -> AnyView {
    let mut machines = Vec::new();
    for (machine, name) in &room.machines {
        machines.push(of_machine(desk, &room.id, machine.clone(), name));
    }
    view! {
        <h3>{desk.room(room)}</h3>
        <div class="looks">{machines}</div>
    }
    .into_any()
}

fn of_machine(desk: Desk, room: &RoomId, machine: MachineId, name: &str) -> AnyView {
    let dispatch = use_dispatch();
    let (room, name, own) = (room.clone(), desk.name(machine.as_str(), name), machine.clone());
    let minutes = kept(move || {
        desk.evening.with(|evening| {
            let uses = evening.as_ref().map(|evening| evening.uses.as_slice()).unwrap_or_default();
            uses.iter().find(|(used, _)| *used == own).map_or(0, |(_, minutes)| *minutes)
        })
    });
    let label = Signal::derive(move || match minutes.get() {
        0 => name.clone(),
        minutes => say::used(&time::short(i64::from(minutes)), &name),
    });
    let more = move |()| {
        desk.evening.update(|evening| {
            let evening = begun(evening, &room, desk.view.now.get_untracked());
            match evening.uses.iter_mut().find(|(used, _)| *used == machine) {
                Some((_, minutes)) => *minutes += STEP_MINUTES,
                None => evening.uses.push((machine.clone(), STEP_MINUTES)),
            }
        });
        desk.look(&dispatch);
    };
    view! { <QuietButton label on_press=more /> }.into_any()
}

/// The evening that is tried; another room begins another one.
fn begun<'a>(evening: &'a mut Option<Evening>, room: &RoomId, now: Instant) -> &'a mut Evening {
    let fresh = || {
        let hour = 60 * MINUTE_MS;
        let out_by = Instant::from_ms((now.ms().div_euclid(hour) + HOURS) * hour);
        Evening { room: room.clone(), out_by, crew: 1, last_out: true, uses: Vec::new() }
    };
    if evening.as_ref().is_none_or(|evening| evening.room != *room) {
        *evening = Some(fresh());
    }
    evening.get_or_insert_with(fresh)
}

fn crew(desk: Desk) -> AnyView {
    let (dispatch, again) = (use_dispatch(), use_dispatch());
    let count = kept(move || desk.evening.with(|evening| evening.as_ref().map_or(1, |evening| evening.crew)));
    let more = move |()| {
        desk.evening.update(|evening| {
            if let Some(evening) = evening {
                evening.crew = evening.crew % 4 + 1;
            }
        });
        desk.look(&dispatch);
    };
    let none = move |()| {
        desk.evening.set(None);
        desk.look(&again);
    };
    let label = Signal::derive(move || say::crew(i64::from(count.get())));
    view! {
        <div class="looks">
            <QuietButton label on_press=more />
            <QuietButton label=say::evening_none() on_press=none />
        </div>
    }
    .into_any()
}

fn drawn(desk: Desk, planned: &EveningPlanned) -> AnyView {
    let view = desk.view;
    let times = Times {
        first_bell: planned.first_bell,
        sweep_from: planned.sweep_from,
        last_spark: planned.last_spark,
        free_at: None,
        watch: planned.watch,
        reserve_minutes: planned.reserve_minutes,
        optimal: true,
        late_until: None,
    };
    let from = planned.out_by - Span::from_minutes(HOURS * 60);
    let marks = marks(view, from.min(planned.sweep_from), planned.out_by, Some(&times));
    let mut steps = Vec::new();
    for step in &planned.steps {
        let chore = desk.name(step.id.as_str(), step.id.as_str());
        let text = say::step(&shop_clock(view, step.start), &shop_clock(view, step.end), &chore);
        steps.push(view! { <li class="row">{text}</li> }.into_any());
    }
    view! {
        <SteelRule marks=Signal::derive(move || marks.clone()) now=Signal::stored(from) />
        {said("", say::reserve(planned.reserve_minutes))}
        <ul class="rows">{steps}</ul>
    }
    .into_any()
}
