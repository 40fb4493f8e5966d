//! This phone's card: until when it is good, what its holder is to the shop, how old the list of phones that were taken off is;
//! and its face, as a code for somebody whose phone does not know this one.

use leptos::prelude::*;
use shared_core::time::{Instant, MINUTE_MS};

use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::qr::Qr;
use crate::screens::time::Minutes;
use crate::shell::desk::extra::Book;
use crate::store::{CardLine, use_app_view};
use crate::words::{book as say, time};

/// Minutes in a day.
const DAY_MINUTES: i64 = 24 * 60;

/// The card, if the hub knows cards.
#[component]
pub fn Card() -> impl IntoView {
    let view = use_app_view();
    let card = kept(move || view.shop.with(|shop| shop.as_ref().and_then(|shop| shop.card.clone())));
    let face = kept(move || view.extra.with(|extra| extra.seen().and_then(|book: &Book| book.face.clone())));
    let shown = RwSignal::new(false);
    live(move || {
        let CardLine { until, steward, signer, list_at } = card.get()?;
        let days = kept(move || days_left(until, view.now.get()));
        let good = move || if days.get() > 0 { say::card_days(days.get()) } else { say::card_out().to_owned() };
        Some(
            view! {
                <p>{good} " " {steward.then(say::steward)} " " {signer.then(say::signer)}</p>
                <p class="soft">
                    <Minutes at=Signal::stored(list_at) since=true says=|minutes| say::list(&time::ago(minutes)) />
                </p>
                <QuietButton label=say::show_card() on_press=move |()| shown.update(|shown| *shown = !*shown) />
                {live(move || face.get().filter(|_| shown.get()).map(code))}
            }
            .into_any(),
        )
    })
}

fn code(face: String) -> AnyView {
    view! {
        <p>{say::card_how()}</p>
        <Qr text=face label=say::card_code() />
    }
    .into_any()
}

/// Whole days until then, a begun one counted.
fn days_left(until: Instant, now: Instant) -> i64 {
    let left_ms = (until - now).ms();
    if left_ms <= 0 { 0 } else { (left_ms - 1) / (DAY_MINUTES * MINUTE_MS) + 1 }
}
