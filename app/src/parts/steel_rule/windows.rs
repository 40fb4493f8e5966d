//! A stretch of days or hours on the steel rule, with windows engraved in it: when something was used since it was clean.
//!
//! Pure, like [`super::draw`]; lies always. Ticks are hours, days where hours would not fit, and are numbered as far as
//! there is room. A window too short to be seen is drawn as wide as a finger's breadth of ink.

use shared_core::time::{Instant, MINUTE_MS};

use super::face::{Anchor, Face, escape, text_width};
use super::hatch::hatch;

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Bracket {
    /// Where the rule begins.
    pub from: Instant,
    /// Where it ends.
    pub to: Instant,
    /// The windows, in order of time.
    pub windows: Vec<(Instant, Instant)>,
    /// The shop's offset from UTC, minutes east.
    pub offset_minutes: i32,
    /// The whole in words.
    pub says: String,
}

const DAY_MINUTES: i64 = 24 * 60;
/// No window is drawn narrower, tenths of a pixel.
const LEAST: i64 = 50;

/// Draws it as an `<svg>` element.
pub fn draw_windows(spec: &Bracket, width_px: u32, height_px: u32) -> String {
    let mut face = Face::sized((width_px, height_px), spec.offset_minutes, spec.from, spec.to);
    let (edge, end) = (face.edge, face.length);
    let tick = edge / 4;
    face.fill("sr-steel", face.area((0, end), (0, edge)));
    for (from, to) in &spec.windows {
        let from = face.at(*from).min(end - LEAST);
        let part = (from, face.at(*to).max(from + LEAST));
        face.fill("sr-past", face.area(part, (0, edge)));
        let hatched = hatch(face.area(part, (0, edge - tick)), 70);
        face.path("sr-hatch sr-scribed", &hatched);
    }
    let step = [5, 10, 30, 60, 180, 360, DAY_MINUTES].into_iter().find(|step| face.minutes(*step) >= 60);
    let mut ticks = String::new();
    for (along, minute) in face.graduations(step.unwrap_or(DAY_MINUTES)).filter(|(along, _)| *along >= 0) {
        let share = if minute == 0 { 100 } else { 60 };
        ticks.push_str(&face.stroke(along, (edge - tick * share / 100, edge)));
    }
    face.path("sr-tick", &ticks);
    numerals(&mut face, spec, edge - tick);
    let at_end = face.area((end, end + 70), (0, face.depth));
    face.fill("sr-stop", at_end);
    let (drawn, says) = (face.into_markup(), escape(&spec.says));
    format!(
        r#"<svg class="steel-rule" viewBox="0 0 {width_px} {height_px}" width="{width_px}" height="{height_px}" role="img" aria-label="{says}"><g aria-hidden="true">{drawn}</g></svg>"#
    )
}

/// Clock times, or dates where the rule is of days, on clear plates.
fn numerals(face: &mut Face, spec: &Bracket, across: i64) {
    let size = (face.edge * 22 / 100).clamp(180, 280);
    let middle = across - size * 7 / 10;
    let width = text_width("20:30", size) + 80;
    let step = [30, 60, 120, 180, 360, 720].into_iter().find(|step| face.minutes(*step) >= width);
    let days = (1..60).map(|days| days * DAY_MINUTES).find(|step| face.minutes(*step) >= width);
    let (step, is_days) = step.map_or((days.unwrap_or(DAY_MINUTES), true), |step| (step, false));
    let begins_ms = spec.from.ms() + i64::from(spec.offset_minutes) * MINUTE_MS;
    let span_ms = (spec.to - spec.from).ms().max(MINUTE_MS);
    let marks: Vec<(i64, i64)> = face.graduations(step).collect();
    for (along, minute) in marks {
        if along < width / 2 || along > face.length - width / 2 {
            continue;
        }
        let text = if is_days {
            // The middle of a day's first hour, so that no rounding puts it into the day before.
            let at = begins_ms + along * span_ms / face.length + 30 * MINUTE_MS;
            Instant::from_ms(at).to_string().get(5..10).unwrap_or_default().to_owned()
        } else {
            format!("{}:{:02}", minute / 60, minute % 60)
        };
        let half = text_width(&text, size) / 2 + 30;
        let plate = face.area((along - half, along + half), (middle - size * 6 / 10, middle + size * 6 / 10));
        face.fill("sr-steel", plate);
        face.text("sr-numeral", (along, middle), size, Anchor::Middle, &text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_window_is_seen_and_told() {
        let at = |hours: i64| Instant::from_ms(1_780_012_800_000 + hours * 60 * MINUTE_MS);
        let spec = Bracket {
            from: at(0),
            to: at(100),
            windows: vec![(at(10), at(12)), (at(50), at(50))],
            offset_minutes: 120,
            says: "Used <twice>".into(),
        };
        let drawn = draw_windows(&spec, 360, 90);
        assert_eq!(drawn.matches(r#"class="sr-past""#).count(), 2);
        assert!(drawn.contains(r#"aria-label="Used &lt;twice&gt;""#));
        // Dates of the shop's clock, each at its midnight: 29 May is 02:00 of the rule's first hours on.
        assert!(drawn.contains(">05-30<"), "{drawn}");
        assert_eq!(drawn, draw_windows(&spec, 360, 90));
    }
}
