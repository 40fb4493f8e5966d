//! The end stop of a steel rule, to be moved: by dragging it, by a touch on the rule, by the arrow keys.
//!
//! The browser's own range input lies over the drawn rule, so that keyboards and screen readers have it too. Knows no
//! rule of when one may leave: it says where the stop was put, and whoever placed it says where it then stands.

use leptos::attr::custom::custom_attribute;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::web_sys::HtmlInputElement;
use shared_core::time::{Instant, MINUTE_MS};

use crate::parts::steel_rule::{Marks, SteelRule};

/// The stop falls on whole quarters of an hour from where the rule begins.
const STEP_MINUTES: &str = "15";

/// A rule whose end stop can be moved along it, from its beginning to its end.
pub fn end_stop(
    marks: Signal<Marks>,
    now: Signal<Instant>,
    label: &'static str,
    text: Signal<String>,
    on_put: Callback<Instant>,
) -> AnyView {
    let minutes = |at: Instant| at.ms().div_euclid(MINUTE_MS).to_string();
    let spans = move || marks.with(|marks| marks.spans.unwrap_or((marks.from, marks.out_by)));
    let stands = move || marks.with(|marks| minutes(marks.out_by));
    let put = move |event: Event| {
        if let Ok(at) = event_target_value(&event).parse::<i64>() {
            on_put.run(Instant::from_ms(at * MINUTE_MS));
        }
        // It may stand elsewhere than where it was put: the thumb goes where the stop is.
        event_target::<HtmlInputElement>(&event).set_value(&untrack(stands));
    };
    view! {
        <div class="end-stop">
            <SteelRule marks now />
            <input
                type="range"
                {..custom_attribute("min", Signal::derive(move || minutes(spans().0)))}
                {..custom_attribute("max", Signal::derive(move || minutes(spans().1)))}
                {..custom_attribute("step", STEP_MINUTES)}
                {..custom_attribute("aria-valuetext", text)}
                prop:value=stands
                aria-label=label
                on:input=put
            />
        </div>
    }
    .into_any()
}
