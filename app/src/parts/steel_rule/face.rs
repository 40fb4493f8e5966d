//! The face of a rule: where an instant falls, and how to put strokes, areas and words there whichever way it lies.
//!
//! Two directions serve both ways of lying. `along` runs with time from the rule's beginning; `across` runs from the
//! back edge (0) to the graduated edge. Both are in tenths of a CSS pixel, integers, so that a drawing is the same
//! bytes everywhere. Knows no stretch of a session and no colour: a class names what a thing is.

use std::fmt::Write as _;

use shared_core::time::{Instant, MINUTE_MS};

use super::hatch::{Area, px};
use super::{Lie, RuleSpec};

/// Room for the end stop past the last instant, tenths.
const END: i64 = 80;
/// How far the scriber's point stands out past the graduated edge, tenths.
const POINT: i64 = 100;

/// Where text is anchored along its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    /// The point is its middle.
    Middle,
    /// The point is its end.
    End,
}

/// The face, and the markup drawn on it so far.
pub(super) struct Face {
    lie: Lie,
    from_ms: i64,
    span_ms: i64,
    offset_minutes: i32,
    /// Length along, without the end.
    pub(super) length: i64,
    /// The graduated edge.
    pub(super) edge: i64,
    /// Everything across, the scriber's point included.
    pub(super) depth: i64,
    markup: String,
}

impl Face {
    /// The empty face of a rule from one instant to another.
    pub(super) fn of(spec: &RuleSpec, from: Instant, to: Instant) -> Self {
        Self::sized((spec.width_px, spec.height_px), spec.marks.offset_minutes, from, to)
    }

    /// The same for a width and a height in pixels, and the shop's offset.
    pub(super) fn sized((width_px, height_px): (u32, u32), offset_minutes: i32, from: Instant, to: Instant) -> Self {
        let (w, h) = (i64::from(width_px) * 10, i64::from(height_px) * 10);
        let lie = Lie::of(width_px, height_px);
        let (length, depth) = match lie {
            Lie::Standing => (h, w),
            Lie::Lying => (w, h),
        };
        Self {
            lie,
            from_ms: from.ms(),
            span_ms: (to - from).ms().max(MINUTE_MS),
            offset_minutes,
            length: (length - END).max(1),
            edge: (depth - POINT).max(1),
            depth,
            markup: String::new(),
        }
    }

    /// Whether time runs down.
    pub(super) fn stands(&self) -> bool {
        self.lie == Lie::Standing
    }

    /// Where an instant falls; instants off the rule fall on its ends.
    pub(super) fn at(&self, instant: Instant) -> i64 {
        let since = (instant.ms() - self.from_ms).clamp(0, self.span_ms);
        since * self.length / self.span_ms
    }

    /// How long a number of minutes is.
    pub(super) fn minutes(&self, minutes: i64) -> i64 {
        minutes * MINUTE_MS * self.length / self.span_ms
    }

    /// Every whole `step` minutes of the shop's clock on the rule: where it falls, and the minute of the day.
    pub(super) fn graduations(&self, step: i64) -> impl Iterator<Item = (i64, i64)> + use<> {
        let local = |ms: i64, offset: i32| ms + i64::from(offset) * MINUTE_MS;
        let first = local(self.from_ms, self.offset_minutes).div_euclid(step * MINUTE_MS) * step;
        let (from_ms, span_ms, length, offset) =
            (self.from_ms, self.span_ms, self.length, i64::from(self.offset_minutes));
        (0..).map(move |count| first + count * step).map_while(move |minute| {
            let since = (minute - offset) * MINUTE_MS - from_ms;
            (since <= span_ms).then_some((since * length / span_ms, minute.rem_euclid(24 * 60)))
        })
    }

    /// The clock of the shop at an instant: `20:08`.
    pub(super) fn clock(&self, instant: Instant) -> String {
        crate::parts::figures::clock(instant, self.offset_minutes)
    }

    /// The rectangle between two places along and two across.
    pub(super) fn area(&self, along: (i64, i64), across: (i64, i64)) -> Area {
        let (a, c) = ((along.0, along.1 - along.0), (across.0, across.1 - across.0));
        match self.lie {
            Lie::Standing => Area { x: c.0, y: a.0, w: c.1, h: a.1 },
            Lie::Lying => Area { x: a.0, y: c.0, w: a.1, h: c.1 },
        }
    }

    /// Path data of one stroke across.
    pub(super) fn stroke(&self, along: i64, across: (i64, i64)) -> String {
        let (from, run) = (across.0, across.1 - across.0);
        match self.lie {
            Lie::Standing => format!("M{} {}h{}", px(from), px(along), px(run)),
            Lie::Lying => format!("M{} {}v{}", px(along), px(from), px(run)),
        }
    }

    /// A triangle whose tip is at `tip` across and whose base, `half` to either side, is at `base`.
    pub(super) fn wedge(&mut self, class: &str, along: i64, tip: i64, base: i64, half: i64) {
        let point = |a: i64, c: i64| match self.lie {
            Lie::Standing => format!("{} {}", px(c), px(a)),
            Lie::Lying => format!("{} {}", px(a), px(c)),
        };
        let (tip, one, other) = (point(along, tip), point(along - half, base), point(along + half, base));
        let _ = write!(self.markup, r#"<path class="{class}" d="M{tip}L{one}L{other}z"/>"#);
    }

    /// A filled area.
    pub(super) fn fill(&mut self, class: &str, area: Area) {
        if !area.is_empty() {
            let Area { x, y, w, h } = area;
            let (x, y, w, h) = (px(x), px(y), px(w), px(h));
            let _ = write!(self.markup, r#"<rect class="{class}" x="{x}" y="{y}" width="{w}" height="{h}"/>"#);
        }
    }

    /// A path of ready data; nothing where there is no data.
    pub(super) fn path(&mut self, class: &str, d: &str) {
        if !d.is_empty() {
            let _ = write!(self.markup, r#"<path class="{class}" d="{d}"/>"#);
        }
    }

    /// A drilled hole.
    pub(super) fn hole(&mut self, class: &str, along: i64, across: i64, radius: i64) {
        let (x, y) = if self.stands() { (across, along) } else { (along, across) };
        let (x, y, r) = (px(x), px(y), px(radius));
        let _ = write!(self.markup, r#"<circle class="{class}" cx="{x}" cy="{y}" r="{r}"/>"#);
    }

    /// Upright text, its optical middle at (`x`, `y`), `size` tenths high.
    pub(super) fn text(&mut self, class: &str, (x, y): (i64, i64), size: i64, anchor: Anchor, text: &str) {
        let anchor = match anchor {
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        // Digits and capitals stand about 0.7 em high: half of that below the middle is the baseline.
        let (x, y, size) = (px(x), px(y + size * 35 / 100), px(size));
        let text = escape(text);
        let _ = write!(
            self.markup,
            r#"<text class="{class}" x="{x}" y="{y}" font-size="{size}" text-anchor="{anchor}">{text}</text>"#
        );
    }

    /// A word that runs along the rule: upright where it lies, turned to read upwards where it stands.
    pub(super) fn word_along(&mut self, class: &str, along: i64, across: i64, size: i64, word: &str) {
        if !self.stands() {
            self.text(class, (along, across), size, Anchor::Middle, word);
            return;
        }
        let (x, y, size) = (px(across + size * 35 / 100), px(along), px(size));
        let word = escape(word);
        let _ = write!(
            self.markup,
            r#"<text class="{class}" font-size="{size}" text-anchor="middle" transform="translate({x} {y}) rotate(-90)">{word}</text>"#
        );
    }

    /// The markup so far.
    pub(super) fn into_markup(self) -> String {
        self.markup
    }
}

/// About how wide bold text comes out, tenths; a little generous, so that what is said to fit does.
pub(super) fn text_width(text: &str, size: i64) -> i64 {
    text.chars()
        .map(|c| if matches!(c, ' ' | ':' | '.' | ',' | 'i' | 'l' | 't' | 'f' | 'r') { 36 } else { 62 })
        .sum::<i64>()
        * size
        / 100
}

/// Text as it may stand in markup.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
