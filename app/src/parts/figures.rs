//! Numbers as the heroes of a screen: minutes, clock times, and how long ago.
//!
//! Digits are tabular and never below 48 px where they matter. A clock time is the shop's: the offset from UTC is
//! handed in, since phones keep no time-zone database.

use leptos::prelude::*;
use shared_core::time::{Instant, MINUTE_MS};

/// The shop's clock at an instant: `7:05`, `20:08`.
pub fn clock(instant: Instant, offset_minutes: i32) -> String {
    let minute = (instant.ms().div_euclid(MINUTE_MS) + i64::from(offset_minutes)).rem_euclid(24 * 60);
    format!("{}:{:02}", minute / 60, minute % 60)
}

/// The shop's date and clock at an instant: `2026-05-04 20:08`.
pub fn date_and_clock(instant: Instant, offset_minutes: i32) -> String {
    const MINUTE_CHARS: usize = 16;
    let mut text = Instant::from_ms(instant.ms() + i64::from(offset_minutes) * MINUTE_MS).to_string();
    text.truncate(MINUTE_CHARS);
    text.replace('T', " ")
}

/// The shop's date at an instant: `2026-05-04`.
pub fn date(instant: Instant, offset_minutes: i32) -> String {
    const DAY_CHARS: usize = 10;
    let mut text = date_and_clock(instant, offset_minutes);
    text.truncate(DAY_CHARS);
    text
}

/// Something shown that is an act as a whole. Aloud, the word of the act comes last, where its number is not cut in two by it.
pub fn pressed(class: &'static str, shown: AnyView, on_press: Callback<()>) -> AnyView {
    view! {
        <button type="button" class=class on:click=move |_| on_press.run(())>
            {shown}
        </button>
    }
    .into_any()
}

/// A big number with its unit under a short label.
#[component]
pub fn BigFigure(
    /// What is counted.
    #[prop(into)]
    label: Signal<String>,
    /// The number.
    #[prop(into)]
    value: Signal<String>,
    /// Its unit; may be empty.
    #[prop(optional, into)]
    unit: Signal<String>,
    /// Its mark on the rule.
    #[prop(optional)]
    key: Option<Key>,
    /// What pressing it does, in a word, and who is told; the whole figure is the target.
    #[prop(optional)]
    act: Option<(&'static str, Callback<()>)>,
) -> impl IntoView {
    let (word, on_press) = act.unzip();
    let figure = view! {
        <span class="figure-label">
            {key.map(Key::draw)}
            {label}
            " "
            <span class="clock-act" aria-hidden="true">{word.unwrap_or_default()}</span>
        </span>
        " "
        <span class="figure-value">{value}</span>
        " "
        <span class="figure-unit">{unit}</span>
        " "
        <span class="unseen">{word.unwrap_or_default()}</span>
    }
    .into_any();
    match on_press {
        None => view! { <p class="big-figure">{figure}</p> }.into_any(),
        Some(on_press) => pressed("big-figure is-act", figure, on_press),
    }
}

/// The key that ties a figure to its mark on the steel rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// The notch of the last spark.
    Notch,
    /// The hatch of the sweep.
    Hatch,
    /// The dots of the fire watch.
    Dots,
    /// The end stop of out-by.
    Stop,
}

impl Key {
    fn draw(self) -> impl IntoView {
        view! { <svg class="key" viewBox="0 0 24 24" aria-hidden="true" inner_html=self.markup()></svg> }.into_any()
    }

    /// The mark in small, 24 by 24.
    fn markup(self) -> &'static str {
        match self {
            Self::Notch => r#"<path class="key-line" d="M20 2v20"/><path class="key-fill" d="M20 5v14L8 12z"/>"#,
            Self::Hatch => r#"<path class="key-line" d="M3 3h18v18H3zM3 12l9-9M3 21L21 3M12 21l9-9"/>"#,
            Self::Dots => {
                r#"<path class="key-dots" d="M5 5h0M12 5h0M19 5h0M5 12h0M12 12h0M19 12h0M5 19h0M12 19h0M19 19h0"/>"#
            }
            Self::Stop => r#"<path class="key-line" d="M12 3v13"/><path class="key-fill" d="M2 16h20v5H2z"/>"#,
        }
    }
}

/// A labelled clock time on a line of its own, with the key of its mark on the rule. The whole line is an act, which stands
/// under its label in words.
#[component]
pub fn ClockAct(
    /// What happens then.
    label: &'static str,
    /// What pressing it does.
    act: &'static str,
    /// The clock time.
    #[prop(into)]
    value: Signal<String>,
    /// Its mark on the rule.
    #[prop(optional)]
    key: Option<Key>,
    /// Called for each press.
    #[prop(into)]
    on_press: Callback<()>,
) -> impl IntoView {
    let line = view! {
        {key.map(Key::draw)}
        <span class="clock-label">
            {label} " " <span class="clock-act" aria-hidden="true">{act}</span>
        </span>
        " "
        <span class="clock-value">{value}</span>
        " "
        <span class="unseen">{act}</span>
    }
    .into_any();
    pressed("clock-line is-act", line, on_press)
}

#[cfg(test)]
mod tests {
    use shared_core::sync::shop::{UtcOffset, offset_minutes};

    use super::*;

    #[test]
    fn a_clock_shows_the_shops_time() {
        for (instant, offset_minutes, shown) in [
            ("2026-05-04T18:08:59.999Z", 120, "20:08"),
            ("2026-05-04T22:30:00Z", 120, "0:30"),
            ("2026-05-04T00:15:00Z", -300, "19:15"),
            ("2026-05-04T07:05:00Z", 0, "7:05"),
        ] {
            let instant = Instant::parse(instant).expect("a literal instant");
            assert_eq!(clock(instant, offset_minutes), shown, "{instant} at {offset_minutes}");
        }
    }

    #[test]
    fn a_date_is_the_shops() {
        for (instant, offset_minutes, shown) in [
            ("2026-05-04T21:50:00.999Z", 120, "2026-05-04 23:50"),
            ("2026-05-04T22:10:00Z", 120, "2026-05-05 00:10"),
            ("2026-01-01T00:10:00Z", -300, "2025-12-31 19:10"),
        ] {
            let instant = Instant::parse(instant).expect("a literal instant");
            assert_eq!(date_and_clock(instant, offset_minutes), shown, "{instant} at {offset_minutes}");
        }
    }

    /// Python's zoneinfo; the tables say which, and are made by the script beside them.
    #[test]
    fn a_clock_shows_what_zoneinfo_shows() {
        let cells = |csv: &'static str| csv.lines().skip(2).map(|row| row.split(',').collect::<Vec<_>>());
        let at = |text: &str| Instant::parse(text).expect("an instant of the table");
        let offsets: Vec<_> = cells(include_str!("../../../tests/data/zone-offsets.csv")).collect();
        let mut shown = 0;
        for row in cells(include_str!("../../../tests/data/zone-clock.csv")) {
            let of_zone = offsets.iter().filter(|offset| offset[0] == row[0]);
            let minutes = |offset: &Vec<&str>| offset[2].parse().expect("whole minutes");
            let offsets: Vec<_> =
                of_zone.map(|offset| UtcOffset { from: at(offset[1]), minutes: minutes(offset) }).collect();
            let instant = at(row[1]);
            assert_eq!(clock(instant, offset_minutes(&offsets, instant)), row[2], "{row:?}");
            shown += 1;
        }
        assert!(shown > 500, "{shown} rows");
    }
}
