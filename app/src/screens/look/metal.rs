//! What metal is this: a magnet, a scratch, weight and size; the answer stands below and follows each of them.
//!
//! Several metals fit more often than one, and then all of them stand there.

use leptos::prelude::*;
use shared_core::material::density::{Density, Size, Tool, density, weighed};
use shared_core::material::identify::{Candidate, Seen, caveats, identify};
use shared_core::material::metals::{Colour, Magnet};
use shared_core::view::look::LookView;

use crate::parts::choice::choice;
use crate::parts::field::{Field, Typed, thousandths};
use crate::parts::lines::{Line, beside, lines};
use crate::parts::live::live;
use crate::store::use_app_view;
use crate::words::look as say;
use crate::words::time::decimal;

/// What has been told so far; a choice is 0 until it is made.
#[derive(Clone, Copy)]
struct Told {
    magnet: RwSignal<usize>,
    colour: RwSignal<usize>,
    shape: RwSignal<usize>,
    tool: RwSignal<usize>,
    grams: RwSignal<String>,
    sizes: [RwSignal<String>; 3],
}

/// The sheet's body.
pub(super) fn body() -> AnyView {
    let view = use_app_view();
    let number = || RwSignal::new(0);
    let text = || RwSignal::new(String::new());
    let told = Told {
        magnet: number(),
        colour: number(),
        shape: RwSignal::new(1),
        tool: RwSignal::new(1),
        grams: text(),
        sizes: [text(), text(), text()],
    };
    let sizes = move || {
        let labels = say::sizes(told.shape.get());
        let names = ["size-1", "size-2", "size-3"];
        let fields = labels
            .into_iter()
            .zip(names)
            .zip(told.sizes)
            .map(|((label, name), value)| view! { <Field label name value typed=Typed::Number /> }.into_any());
        fields.collect::<Vec<_>>()
    };
    view! {
        <p>{say::metal_how()}</p>
        {choice(say::magnet(), say::magnets(), told.magnet)}
        {choice(say::scratch(), say::colours(), told.colour)}
        <Field label=say::grams() name="grams" value=told.grams typed=Typed::Number />
        {choice(say::shape(), say::shapes(), told.shape)}
        {live(sizes)}
        {choice(say::tool(), say::tools(), told.tool)}
        <div class="choices" role="status">
            {live(move || view.room.with(|room| room.as_ref().map(|room| answer(&room.look, told))))}
        </div>
    }
    .into_any()
}

/// What was told, as what was seen.
fn seen(told: Told) -> Seen {
    let magnets = [Magnet::Holds, Magnet::Lets];
    let colours = [Colour::Grey, Colour::Yellow, Colour::Red];
    Seen {
        magnet: magnets.get(told.magnet.get().wrapping_sub(1)).copied(),
        colour: colours.get(told.colour.get().wrapping_sub(1)).copied(),
        density: measured(told),
    }
}

fn measured(told: Told) -> Option<Density> {
    let number =
        |text: RwSignal<String>| text.with(|text| thousandths(text)).map_or(0.0, |milli| f64::from(milli) / 1000.0);
    let tool = if told.tool.get() == 2 { Tool::CalliperOrCylinder } else { Tool::RuleOrJug };
    let [a, b, c] = told.sizes.map(number);
    let size = match told.shape.get() {
        1 => Size::Block(tool.length(a), tool.length(b), tool.length(c)),
        2 => Size::Round(tool.length(a), tool.length(b)),
        3 => Size::Water(tool.water(a)),
        _ => return None,
    };
    density(weighed(number(told.grams)), size).ok()
}

fn answer(look: &LookView, told: Told) -> AnyView {
    let seen = seen(told);
    if seen == Seen::default() {
        return ().into_any();
    }
    let left = identify(&seen);
    if left.is_empty() {
        return beside(say::no_metal().to_owned());
    }
    let mut parts = vec![lines(say::may_be().into(), left.iter().map(|one| line(look, one)).collect())];
    if let Some(density) = seen.density {
        let (least, most) = density.interval();
        parts.push(beside(say::dense(&hundredths(least), &hundredths(most))));
    }
    for caveat in caveats(&seen, &left) {
        parts.push(beside(say::caveat(caveat).to_owned()));
    }
    let refused = look.refuse_one_of(&left).join(", ");
    if left.len() > 1 && !refused.is_empty() {
        parts.push(beside(say::until_sure(&refused)));
    }
    parts.into_any()
}

fn line(look: &LookView, one: &Candidate) -> Line {
    let (least, most) = one.metal.range();
    let never_in = look.refuse_one_of(&[*one]).join(", ");
    let detail = say::candidate(&hundredths(least), &hundredths(most), say::sure(one.sure), &never_in);
    Line { sign: None, name: say::metal_named(one.metal.word).to_owned(), detail }
}

/// kg/m³ as g/cm³ with two digits.
#[expect(clippy::cast_possible_truncation, reason = "no metal is denser than a few tens of thousands")]
fn hundredths(kg_m3: f64) -> String {
    let whole = (kg_m3 / 10.0).round() as i64;
    decimal(whole / 100, &format!("{:02}", whole % 100))
}
