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
use crate::parts::live::{once_drawn, whenever};
use leptos::html::Div;
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
    boxed(move |width_px, height_px| draw(&RuleSpec { marks: marks.get(), now: moment.get(), width_px, height_px }))
}

/// A box that the stylesheet sizes, with what is drawn for its width and height; nothing while it has none.
pub fn boxed(drawn: impl Fn(u32, u32) -> String + Send + 'static) -> AnyView {
    let place = NodeRef::<Div>::new();
    let size = RwSignal::new((0_u32, 0_u32));
    let measure = move || {
        // The picture that was waited for may come after the screen has been left: nothing is left to be measured then.
        if let Some(place) = place.try_get_untracked().flatten() {
            let px = |length: i32| u32::try_from(length).unwrap_or(0);
            let next = (px(place.client_width()), px(place.client_height()));
            if size.try_get_untracked().is_some_and(|size| next != size) {
                size.try_set(next);
            }
        }
    };
    whenever(move || {
        place.track();
        once_drawn(measure);
    });
    let resized = window_event_listener(leptos::ev::resize, move |_| measure());
    on_cleanup(move || resized.remove());
    let markup = move || match size.get() {
        (0, _) | (_, 0) => String::new(),
        (width_px, height_px) => drawn(width_px, height_px),
    };
    view! { <div class="rule" node_ref=place inner_html=markup></div> }.into_any()
}

#[cfg(test)]
mod tests;
