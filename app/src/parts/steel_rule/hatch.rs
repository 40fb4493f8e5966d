//! Engraving patterns as path data, clipped by arithmetic.
//!
//! A hatch is parallel strokes at 45 degrees; dots are strokes of no length with round ends. Both are plain `d`
//! attributes in whole pixels and tenths, so that a snapshot of them can be read.

use std::fmt::Write as _;

/// A rectangle in tenths of a CSS pixel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Area {
    /// Left edge.
    pub(super) x: i64,
    /// Top edge.
    pub(super) y: i64,
    /// Width.
    pub(super) w: i64,
    /// Height.
    pub(super) h: i64,
}

impl Area {
    /// Whether there is nothing to draw in.
    pub(super) fn is_empty(self) -> bool {
        self.w <= 0 || self.h <= 0
    }
}

/// Writes tenths of a pixel as a decimal, without a trailing zero.
pub(super) fn px(tenths: i64) -> String {
    let (sign, tenths) = if tenths < 0 { ("-", -tenths) } else { ("", tenths) };
    match tenths % 10 {
        0 => format!("{sign}{}", tenths / 10),
        rest => format!("{sign}{}.{rest}", tenths / 10),
    }
}

/// Strokes that rise to the right, `gap` apart along the edge.
pub(super) fn hatch(area: Area, gap: i64) -> String {
    let mut d = String::new();
    if area.is_empty() {
        return d;
    }
    let mut across = gap;
    while across < area.w + area.h {
        // The stroke runs from the left or bottom edge to the top or right edge.
        let low = if across <= area.h { (0, across) } else { (across - area.h, area.h) };
        let high = if across <= area.w { (across, 0) } else { (area.w, across - area.w) };
        let _ =
            write!(d, "M{} {}L{} {}", px(area.x + low.0), px(area.y + low.1), px(area.x + high.0), px(area.y + high.1));
        across += gap;
    }
    d
}

/// Dots in rows, `gap` apart, centred in the area.
pub(super) fn dots(area: Area, gap: i64) -> String {
    let mut d = String::new();
    if area.is_empty() {
        return d;
    }
    let first = |length: i64| (length % gap) / 2 + gap / 2;
    let mut y = first(area.h).min(area.h / 2);
    while y < area.h {
        let mut x = first(area.w).min(area.w / 2);
        while x < area.w {
            let _ = write!(d, "M{} {}h0", px(area.x + x), px(area.y + y));
            x += gap;
        }
        y += gap;
    }
    d
}
