//! A QR code (ISO/IEC 18004) as SVG, for another phone's camera to read across a bench.
//!
//! Always black on white with a quiet zone of four modules, whatever the theme; error correction level M; a whole
//! number of pixels per module, so that no edge is blurred. What is encoded is not known here.

use std::fmt::Write as _;

use leptos::prelude::*;

use crate::parts::live::boxed;
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// Modules left white on every side.
const QUIET_ZONE: i32 = 4;

/// Draws a code that is at most `room_px` wide and high; `None` where the text is too long for any code.
pub fn draw(text: &str, label: &str, room_px: u32) -> Option<String> {
    let code = code(text, QrCodeEcc::Medium)?;
    let modules = i64::from(code.size() + 2 * QUIET_ZONE);
    Some(markup(&code, label, modules * (i64::from(room_px) / modules).max(1)))
}

/// Draws a code for a wall: at level Q, which stands a quarter of it being gone, for as wide as the style says.
pub fn printed(text: &str, label: &str) -> Option<String> {
    let code = code(text, QrCodeEcc::Quartile)?;
    // So many pixels a module before the style has its say.
    Some(markup(&code, label, i64::from(code.size() + 2 * QUIET_ZONE) * 4))
}

fn code(text: &str, level: QrCodeEcc) -> Option<QrCode> {
    let segments = QrSegment::make_segments(text);
    QrCode::encode_segments_advanced(&segments, level, Version::MIN, Version::MAX, None, false).ok()
}

fn markup(code: &QrCode, label: &str, side_px: i64) -> String {
    let modules = code.size() + 2 * QUIET_ZONE;
    let mut dark = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let from = x;
            while x < code.size() && code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                let (left, top, run) = (from + QUIET_ZONE, y + QUIET_ZONE, x - from);
                let _ = write!(dark, "M{left} {top}h{run}v1h-{run}z");
            }
            x += 1;
        }
    }
    let label = label.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
    format!(
        r##"<svg class="qr-code" viewBox="0 0 {modules} {modules}" width="{side_px}" height="{side_px}" role="img" aria-label="{label}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h{modules}v{modules}H0z"/><path fill="#000" d="{dark}"/></svg>"##
    )
}

/// A code that fills the width it is given.
#[component]
pub fn Qr(
    /// What is encoded.
    #[prop(into)]
    text: Signal<String>,
    /// What a screen reader says of it.
    #[prop(into)]
    label: Signal<String>,
) -> impl IntoView {
    let drawn = move |width_px: u32, height_px: u32| {
        text.with(|text| label.with(|label| draw(text, label, width_px.min(height_px)))).unwrap_or_default()
    };
    boxed("qr", Box::new(drawn))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004: version 1 has 21 modules a side and holds 20 alphanumeric characters at level M (Table 7).
    #[test]
    fn a_short_code_is_a_version_1_with_its_quiet_zone() {
        for (text, modules) in [("ABCDEFGHIJKLMNOPQRST", 29), ("ABCDEFGHIJKLMNOPQRSTU", 33)] {
            let svg = draw(text, "code", 100).expect("fits");
            assert!(svg.contains(&format!(r#"viewBox="0 0 {modules} {modules}""#)), "{text}: {svg}");
        }
    }

    #[test]
    fn a_module_is_a_whole_number_of_pixels() {
        for (room_px, side_px) in [(28, 29), (29, 29), (57, 29), (58, 58), (300, 290)] {
            let svg = draw("SHORT", "code", room_px).expect("fits");
            assert!(svg.contains(&format!(r#"width="{side_px}" height="{side_px}""#)), "{room_px}");
        }
    }

    #[test]
    fn what_no_code_can_hold_is_not_drawn() {
        assert_eq!(draw(&"x".repeat(3000), "code", 300), None);
    }
}
