//! Before a machine starts: what to wear, what to take off, what to check, what is worked. Then one act starts it.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::ids::MachineId;
use shared_core::view::bench::{Standing, StartSheet};

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::BigButton;
use crate::parts::lines::beside;
use crate::parts::sheet::Sheet;
use crate::parts::sign::{SafetySign, Sign};
use crate::screens::notice_bar::NoticeBar;
use crate::store::use_app_view;
use crate::words::{bench as say, frame, look, signs};

/// The sheet of a machine that may be started.
#[component]
pub fn StartMachineSheet(machine: MachineId, on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let id = machine.clone();
    let row = field(view, move |bench| bench.machines.iter().find(|row| row.id == id).cloned());
    let Some(row) = row.get_untracked().flatten() else { return ().into_any() };
    let Standing::Ready(asks) = row.standing else { return ().into_any() };
    let material = RwSignal::new(String::new());
    let start = move |()| {
        let material = Some(material.get_untracked()).filter(|material| !material.is_empty());
        dispatch.act(Command::StartMachine { machine: machine.clone(), material });
        on_close.run(());
    };
    view! {
        <Sheet title=row.name close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                <Asks asks material />
                {row.left_today.map(|left| beside(look::left_of_day(left.harm, left.minutes)))}
            </div>
            <div class="acts">
                <BigButton label=say::all_so() on_press=start />
            </div>
        </Sheet>
    }
    .into_any()
}

#[component]
fn Asks(asks: StartSheet, material: RwSignal<String>) -> impl IntoView {
    let StartSheet { wear, never_wear, start_checks, refuses } = asks;
    let nothing = wear.is_empty() && never_wear.is_empty() && start_checks.is_empty();
    view! {
        {nothing.then(|| view! { <p>{say::nothing_to_check()}</p> }.into_any())}
        <Signs heading=say::wear() words=wear sign=Sign::wear name=signs::wear />
        <Signs heading=say::never() words=never_wear sign=Sign::never name=signs::never />
        <Checks checks=start_checks />
        <Material refuses material />
    }
}

/// A row of signs, each with its word.
#[component]
fn Signs(heading: &'static str, words: Vec<String>, sign: fn(&str) -> Sign, name: fn(&str) -> String) -> impl IntoView {
    (!words.is_empty()).then(|| {
        let one = move |word: &String| {
            view! {
                <li class="signed">
                    <SafetySign sign=sign(word) />
                    <span>{name(word)}</span>
                </li>
            }
            .into_any()
        };
        view! {
            <h2>{heading}</h2>
            <ul class="signs">{words.iter().map(one).collect_view()}</ul>
        }
        .into_any()
    })
}

#[component]
fn Checks(checks: Vec<String>) -> impl IntoView {
    (!checks.is_empty()).then(|| {
        view! {
            <h2>{say::check()}</h2>
            <ol class="checks">{checks.into_iter().map(|check| view! { <li>{check}</li> }.into_any()).collect_view()}</ol>
        }.into_any()
    })
}

/// What is worked: asked only where the machine refuses something.
#[component]
fn Material(refuses: Vec<String>, material: RwSignal<String>) -> impl IntoView {
    let option = |word: String| {
        let shown = look::metal_named(&word).to_owned();
        view! { <option value=word>{shown}</option> }.into_any()
    };
    (!refuses.is_empty()).then(|| {
        let listed = say::refuses(&look::metals_named(&refuses));
        view! {
            <div class="field">
                <label class="field-label" for="material">
                    {say::material()}
                </label>
                <select
                    class="field-entry"
                    id="material"
                    on:change=move |event| material.set(event_target_value(&event))
                >
                    <option value="">{say::material_other()}</option>
                    {refuses.into_iter().map(option).collect_view()}
                </select>
                <p class="field-hint">{listed}</p>
            </div>
        }
        .into_any()
    })
}
