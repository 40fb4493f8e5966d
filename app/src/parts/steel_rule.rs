//! The steel rule: a session's time, drawn as an engraved rule.
//!
//! One pure function, [`draw`], turns a [`RuleSpec`] into SVG markup; it stands (time runs down) or lies (time runs
//! right). Every stretch is told by an engraving pattern and by a word, never by colour alone. Nothing here decides
//! when anything is: the instants are handed in, and `now` enters the app's views at [`SteelRule`] alone.
//!
//! Patterns are drawn as paths, not as `<pattern>` elements, so that several rules on one page share no ids.

mod draw;
pub mod end_stop;
mod face;
mod hatch;
pub mod windows;

use crate::parts::kept::kept;
use crate::parts::live::boxed;
use leptos::prelude::*;
use shared_core::time::Instant;

pub use draw::draw;
pub use face::escape;

/// How a rule lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lie {
    /// Upright, time running down.
    Standing,
    /// Level, time running right.
    Lying,
}

impl Lie {
    /// A rule lies where it is wider than high.
    fn of(width_px: u32, height_px: u32) -> Self {
        if width_px > height_px { Self::Lying } else { Self::Standing }
    }
}

/// What a rule marks; everything but `now` and the room there is to draw it in.
#[derive(Clone, Debug, PartialEq)]
pub struct Marks {
    /// When the session began.
    pub from: Instant,
    /// The end stop: when the member must be gone.
    pub out_by: Instant,
    /// When the sweep begins.
    pub sweep_from: Option<Instant>,
    /// When the first bell rings.
    pub first_bell: Option<Instant>,
    /// The latest moment for hot work.
    pub last_spark: Option<Instant>,
    /// The fire watch, kept or planned.
    pub watch: Option<(Instant, Instant)>,
    /// What the rule spans, where that is more than the session.
    pub spans: Option<(Instant, Instant)>,
    /// Whether the session is over: its end is marked instead of now.
    pub left: bool,
    /// The shop's offset from UTC, minutes east.
    pub offset_minutes: i32,
    /// The words engraved on it.
    pub words: Words,
}

/// The words engraved on a rule, short enough to fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Words {
    /// Accessible name.
    pub title: String,
    /// Accessible description, without the present time.
    pub desc: String,
    /// What is past.
    pub past: String,
    /// The stretch until the sweep.
    pub work: String,
    /// The stretch of the sweep.
    pub sweep: String,
    /// The fire watch.
    pub watch: String,
    /// The notch.
    pub last_spark: String,
    /// The end stop.
    pub out_by: String,
    /// Past the end stop.
    pub over: String,
}

/// Everything [`draw`] needs.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleSpec {
    /// What is marked.
    pub marks: Marks,
    /// Where the scriber line stands.
    pub now: Instant,
    /// Width of the drawing, CSS pixels.
    pub width_px: u32,
    /// Height of the drawing, CSS pixels.
    pub height_px: u32,
}

/// The rule at its leaf: it fills the box that the stylesheet gives it, and redraws when the scriber has moved by a
/// quarter of a minute, when the marks change or when the box does.
#[component]
pub fn SteelRule(
    /// What is marked.
    #[prop(into)]
    marks: Signal<Marks>,
    /// The present instant.
    #[prop(into)]
    now: Signal<Instant>,
) -> impl IntoView {
    const STEP_MS: i64 = 15_000;
    let moment = kept(move || Instant::from_ms(now.get().ms().div_euclid(STEP_MS) * STEP_MS));
    let drawn =
        move |width_px, height_px| draw(&RuleSpec { marks: marks.get(), now: moment.get(), width_px, height_px });
    boxed("rule", Box::new(drawn))
}

#[cfg(test)]
mod tests;
