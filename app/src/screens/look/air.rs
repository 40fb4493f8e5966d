//! A tin: the number on it held against the limits of this shop's room and hood, and what each asks.

use leptos::prelude::*;
use shared_core::air::{Tin, Verdict};
use shared_core::view::look::Finishing;

use crate::parts::field::{Field, Typed, thousandths};
use crate::parts::lines::{Line, beside, lines};
use crate::parts::live::live;
use crate::screens::why::because_text;
use crate::store::use_app_view;
use crate::words::{chosen, look as say};

/// The sheet's body.
pub(super) fn body() -> AnyView {
    let view = use_app_view();
    let typed = RwSignal::new(String::new());
    let answer = move || {
        // A number with a part of a gram counts as the next whole one.
        let tin = thousandths(&typed.get()).map_or(Tin::Unsaid, |milli| Tin::GramsPerLitre(milli.div_ceil(1000)));
        view.room.with(|room| {
            let places = room.as_ref().map_or(&[][..], |room| &room.look.air);
            if places.is_empty() {
                return beside(say::no_place().to_owned());
            }
            lines(say::place().into(), places.iter().map(|place| line(place, tin)).collect())
        })
    };
    view! {
        <Field label=say::voc() name="voc" value=typed typed=Typed::Number hint=say::voc_hint() />
        {live(answer)}
        <p class="soft">{say::air_caution()}</p>
    }
    .into_any()
}

fn line(place: &Finishing, tin: Tin) -> Line {
    let verdict = match (place.verdict(tin), &place.hood) {
        (Verdict::TooMuch, _) => say::too_much().to_owned(),
        (Verdict::Unsaid, _) => say::unsaid().to_owned(),
        (Verdict::Here, None) => say::yes_room().to_owned(),
        (Verdict::Here, Some(hood)) => match &hood.refusal {
            Some(refusal) => {
                let said = [say::not_you(), &refusal.reason(chosen()), &refusal.next_step(chosen())].join(" ");
                [said, because_text(refusal)].join("\n")
            }
            None => [say::yes_hood(), &hood.start_checks.join("\n")].join("\n"),
        },
    };
    let name = place.hood.as_ref().map_or_else(|| say::in_the_room(&place.room), |hood| hood.name.clone());
    Line {
        sign: None,
        name,
        detail: [verdict, say::limit(i64::from(place.limit.g_per_l), &place.limit.source)].join("\n"),
    }
}
