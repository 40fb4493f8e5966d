//! Small pictures of numbers, cut like a steel rule: a plate with bars in it, ticks along its edge, a scriber line.
//!
//! Told apart by length, pattern and place, never by colour alone; on paper black on white. Every picture stands beside a
//! table that says the same and is hidden from those who listen. Plain numbers in, markup out: no meaning is known here.

use std::fmt::Write as _;

/// The width of a column, in units of the drawing.
const COLUMN: usize = 10;
/// The height of a plate.
const HEIGHT: i64 = 40;
/// The length of a bar at its longest.
const LENGTH: i64 = 1_000;

/// A bar of `value`, where `most` is as long as there is room, with a tick at each `tick`. A second stretch, hatched, follows.
pub fn bar(value: i64, hatched: i64, most: i64, tick: i64) -> String {
    let (most, tick) = (most.max(1), tick.max(1));
    let place = |value: i64| value.saturating_mul(LENGTH) / most;
    let (plain, end) = (place(value), place(value.saturating_add(hatched)));
    let mut ticks = String::new();
    // More ticks than this would be one grey band.
    if most / tick <= 100 {
        let mut at = tick;
        while at < value.saturating_add(hatched) {
            let long = at % (5 * tick) == 0;
            let _ = write!(ticks, "M{} 0v{}", place(at), if long { 11 } else { 6 });
            at += tick;
        }
    }
    let mut hatch = String::new();
    let mut at = plain + 4;
    while at < end {
        let _ = write!(hatch, "M{at} 20L{} 0", (at + 12).min(end));
        at += 8;
    }
    let rest = end - plain;
    framed(
        &format!("0 0 {LENGTH} 20"),
        &format!(
            r#"<path class="plate" d="M0 0h{plain}v20h-{plain}z"/><path class="hatched" d="M{plain} 0h{rest}v20h-{rest}z"/><path class="hatch" d="{hatch}"/><path class="tick" d="{ticks}"/>"#
        ),
    )
}

/// A plate with a column for each value, `most` as high as there is room; a long tick at each `long` columns, and a
/// scriber line after so many of them.
pub fn columns(values: &[i64], most: i64, long: usize, scriber: Option<usize>) -> String {
    let (most, width) = (most.max(1), values.len() * COLUMN);
    let (mut bars, mut ticks) = (String::new(), String::new());
    for (index, value) in values.iter().enumerate() {
        let left = index * COLUMN;
        if *value > 0 {
            let high = (value * (HEIGHT - 8) / most).max(2);
            let _ = write!(bars, "M{} {}v-{high}h6v{high}z", left + 2, HEIGHT - 2);
        }
        if index > 0 {
            let _ = write!(ticks, "M{left} {HEIGHT}v-{}", if index % long.max(1) == 0 { 10 } else { 4 });
        }
    }
    let line = scriber
        .map_or_else(String::new, |after| format!(r#"<path class="scriber" d="M{} 0v{HEIGHT}"/>"#, after * COLUMN));
    framed(
        &format!("0 0 {width} {HEIGHT}"),
        &format!(
            r#"<path class="laid" d="M0 0h{width}v{HEIGHT}H0z"/><path class="scribed" d="{bars}"/><path class="edge" d="{ticks}"/>{line}"#
        ),
    )
}

fn framed(view_box: &str, content: &str) -> String {
    format!(r#"<svg viewBox="{view_box}" preserveAspectRatio="none" aria-hidden="true">{content}</svg>"#)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_is_as_long_as_its_value() {
        for (value, hatched, most, drawn) in
            [(0, 0, 10, "h0v20"), (5, 0, 10, "h500v20"), (10, 0, 10, "h1000v20"), (3, 2, 4, "h750v20")]
        {
            let svg = bar(value, hatched, most, 1);
            assert!(svg.contains(&format!(r#"class="plate" d="M0 0{drawn}"#)), "{value} of {most}: {svg}");
        }
        assert!(bar(3, 1, 4, 1).contains(r#"class="hatched" d="M750 0h250v20"#));
        assert!(bar(1, 0, 0, 0).contains("h1000"), "nothing is not divided by");
    }

    #[test]
    fn a_column_is_as_high_as_its_value_and_none_is_lost() {
        let svg = columns(&[0, 1, 320, 640], 640, 2, Some(2));
        for part in [
            "M12 38v-2h6",
            "M22 38v-16h6",
            "M32 38v-32h6",
            r#"class="scriber" d="M20 0v40""#,
            "M20 40v-10",
            "M30 40v-4",
        ] {
            assert!(svg.contains(part), "{part}: {svg}");
        }
        assert!(!svg.contains("M2 38"), "nothing is drawn of nothing");
    }
}
