//! The pictograms inside the signs, on a grid of 64 by 64.
//!
//! Drawn for this app, front views of things as they hang on a shop's wall. `ink` draws in the sign's contrast colour;
//! `cut` draws in the colour of its ground, to cut lines out of what was inked.

use super::Sign;

/// The glyph of a sign, as markup; `sign-white` or `sign-black` above it gives `ink` and `cut` their colours.
pub(super) fn glyph(sign: Sign) -> &'static str {
    match sign {
        Sign::Eyes => EYES,
        Sign::Ears => EARS,
        Sign::Face => FACE,
        Sign::Toes => TOES,
        Sign::Sleeves => SLEEVES,
        Sign::Gloves | Sign::NoGloves => HAND,
        Sign::Mask => MASK,
        Sign::WeldShade => WELD_SHADE,
        Sign::TiedIn => TIED_IN,
        Sign::Must => MUST,
        Sign::NoLoose => LOOSE,
        Sign::NoRings => RING,
        Sign::Sober => GLASS,
        Sign::Never => "",
        Sign::Warning => WARNING,
        Sign::Exit | Sign::NoExit => EXIT,
        Sign::Muster => MUSTER,
        Sign::Extinguisher => EXTINGUISHER,
    }
}

/// Goggles from the front, side shields and all.
const EYES: &str = r#"<path class="ink" d="M6 24h7q1-4 5-4h28q4 0 5 4h7v7h-6v4q0 9-9 9h-3q-5 0-7-6-1-3-1-3t-1 3q-2 6-7 6h-3q-9 0-9-9v-4H6z"/><path class="cut" d="M18 26h11v6q0 7-6 7-5 0-5-6zM35 26h11v7q0 6-5 6-6 0-6-7z"/>"#;

/// A head between two cups, the band over it.
const EARS: &str = r#"<path class="ink-line" d="M14 34v-4a18 18 0 0 1 36 0v4"/><path class="ink" d="M32 17q11 0 11 14v6q0 6-3 10t-8 5q-5-1-8-5t-3-10v-6q0-14 11-14z"/><rect class="cut" x="18.5" y="29" width="4" height="19"/><rect class="cut" x="41.5" y="29" width="4" height="19"/><rect class="ink" x="10" y="29" width="10.5" height="18" rx="4.5"/><rect class="ink" x="43.5" y="29" width="10.5" height="18" rx="4.5"/>"#;

/// A visor hung from its brow band.
const FACE: &str = r#"<path class="ink" d="M13 24q0-14 19-14t19 14v3H13z"/><path class="ink" d="M14 30h36v9q0 8-6 13t-12 5-12-5-6-13z"/><path class="cut" d="M20 34h24v5q0 6-4 9.500t-8 3.500-8-3.500-4-9.500z"/><circle class="cut" cx="17" cy="24" r="2.200"/><circle class="cut" cx="47" cy="24" r="2.200"/>"#;

/// A boot, its cap marked off.
const TOES: &str = r#"<path class="ink" d="M17 12h17v17q4 5 12 6 9 2 9 11v3H12v-7q5-3 5-12z"/><path class="ink" d="M12 51h43v4H12z"/><path class="cut-line" d="M42 49q-2-9 3-15"/>"#;

/// A jacket with long arms, buttoned.
const SLEEVES: &str = r#"<path class="ink" d="M25 12l7 5 7-5 9 4 8 29-8 3-6-17v21H22V31l-6 17-8-3 8-29z"/><path class="cut-line" d="M32 20v32M9.500 40l8 3M54.500 40l-8 3"/>"#;

/// An open hand in a gauntlet.
const HAND: &str = r#"<path class="ink" d="M20 41V22q0-3 2.700-3t2.700 3v-7q0-3 2.800-3t2.800 3v-2q0-3 2.800-3t2.800 3v3q0-3 2.700-3t2.700 3v15l2.500-4q2-3 4.500-1.500t1 4.500L42 42v3H20z"/><path class="ink" d="M18 47h26v7H18z"/>"#;

/// A half mask with its two filters.
const MASK: &str = r#"<path class="ink-line" d="M9 25l13 6M55 25l-13 6"/><path class="ink" d="M32 19q5 0 7 6l5 11q2 9-5 14-3 2-7 2t-7-2q-7-5-5-14l5-11q2-6 7-6z"/><circle class="ink" cx="19" cy="42" r="8"/><circle class="ink" cx="45" cy="42" r="8"/><circle class="cut-line" cx="19" cy="42" r="8.800"/><circle class="cut-line" cx="45" cy="42" r="8.800"/><path class="cut-line" d="M28 40h8M28 45h8"/>"#;

/// A hood with its narrow window.
const WELD_SHADE: &str = r#"<path class="ink" d="M14 26Q14 8 32 8t18 18l2 12q0 12-9 19H21q-9-7-9-19z"/><path class="cut" d="M18 23h28v13H18z"/><path class="ink-line" d="M22 33l6-7M29 33l6-7"/>"#;

/// A head with its hair tied in a knot behind.
const TIED_IN: &str = r#"<path class="ink" d="M27 18q13-3 16 9l3 9-4 2v6q0 3-4 3h-5v8H19V42q-4-5-4-11 0-10 12-13z"/><circle class="ink" cx="14" cy="19" r="7"/><path class="cut-line" d="M17 29q9 3 17-9M15 26l7-5"/>"#;

/// Something to do, said in words.
const MUST: &str = r#"<path class="ink" d="M27 12h10l-2 26h-6z"/><circle class="ink" cx="32" cy="48" r="5"/>"#;

/// A cord drawn into a turning shaft.
const LOOSE: &str = r#"<circle class="ink-line" cx="22" cy="42" r="9"/><circle class="ink" cx="22" cy="42" r="3"/><path class="ink-line" d="M22 33q12-1 13 5M41 11q-7 8 0 15t-5 11M47 13q-6 8 0 14t-2 16"/>"#;

/// A finger with a ring.
const RING: &str = r#"<path class="ink" d="M25 54V17q0-6 7-6t7 6v37z"/><path class="cut" d="M23 32h18v8H23z"/><rect class="ink-line" x="21" y="32" width="22" height="8" rx="4"/>"#;

/// A bottle and a glass.
const GLASS: &str = r#"<path class="ink" d="M22 11h7v11l4 6v25H18V28l4-6z"/><path class="ink" d="M37 31h13l-1.500 9q-.5 4-3.500 5v5h4v3H38v-3h4v-5q-3-1-3.500-5z"/><path class="cut" d="M21 33h9v9h-9z"/>"#;

/// An exclamation mark.
const WARNING: &str =
    r#"<path class="ink" d="M28.500 23h7L34 41h-4z"/><circle class="ink" cx="32" cy="47" r="3.400"/>"#;

/// A doorway and the way through it.
const EXIT: &str = r#"<path class="ink" d="M36 8h20v48H36v-8h5v3h10V13H41v7h-5z"/><path class="ink" d="M8 28h19V18l17 16-17 16V40H8z"/>"#;

/// Four ways to one place.
const MUSTER: &str = r#"<circle class="ink" cx="32" cy="26" r="4.500"/><path class="ink" d="M26 33h12v11H26z"/><path class="ink" d="M7 7h13l-4 4 7 7-5 5-7-7-4 4zM57 7v13l-4-4-7 7-5-5 7-7-4-4zM7 57V44l4 4 7-7 5 5-7 7 4 4zM57 57H44l4-4-7-7 5-5 7 7 4-4z"/>"#;

/// An extinguisher with its hose.
const EXTINGUISHER: &str = r#"<path class="ink" d="M24 25q0-6 8-6t8 6v31H24z"/><path class="ink" d="M29 12h12v4h-6v4h-6z"/><path class="ink-line" d="M29 15q-13 0-13 16v9"/><path class="ink" d="M12 40h8l1 7H11z"/><path class="cut" d="M27 31h10v10H27z"/>"#;
