//! What the hub holds about whoever holds this phone: to see, to take along as a file, and to have erased.
//!
//! It is asked for when somebody wants to know, and shown as the hub answered. Erasing takes two touches; there is no way back.

use leptos::prelude::*;
use shared_core::sync::mine::{EraseAsked, ErasedNow, Mine as Held};

use super::phones::answered;
use crate::intent::{Asked, Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::notice::{Notice, Tone};
use crate::store::{AppView, use_app_view};
use crate::words::{book as say, count};

/// The section.
#[component]
pub fn Mine() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let look_up = move |()| dispatch.ui(Ui::Ask(Asked { path: Asked::MINE, body: String::new() }));
    view! {
        <section class="mine">
            <h2>{say::mine()}</h2>
            <p class="soft">{say::mine_how()}</p>
            <QuietButton label=say::mine_look_up() on_press=look_up />
            {answered(view, Asked::MINE, move |held| shown(view, &held))}
            {answered(view, Asked::ERASE, erased)}
        </section>
    }
}

fn shown(view: AppView, held: &Held) -> AnyView {
    let dispatch = use_dispatch();
    let text = view.answers.with_untracked(|answers| {
        let of_mine = answers.iter().find(|(asked, _)| *asked == Asked::MINE);
        of_mine.and_then(|(_, answer)| answer.clone().ok()).unwrap_or_default()
    });
    let file = format!("data:application/json,{}", String::from(js_sys::encode_uri_component(&text)));
    // There is no way back, so that one touch is not enough.
    let sure = RwSignal::new(false);
    let erase = move |()| {
        if sure.get_untracked() {
            let body = serde_json::to_string(&EraseAsked::default()).unwrap_or_default();
            dispatch.ui(Ui::Ask(Asked { path: Asked::ERASE, body }));
        }
        sure.update(|sure| *sure = !*sure);
    };
    let label = Signal::derive(move || if sure.get() { say::erase_sure() } else { say::erase() }.to_owned());
    view! {
        <ul class="rows">
            <li>{say::mine_lines(count(held.lines.len()))}</li>
            {(!held.naming.is_empty()).then(|| view! { <li>{say::mine_naming(count(held.naming.len()))}</li> }.into_any())}
            <li>{say::mine_more(count(held.phones.len()))}</li>
            {held.figures.then(|| view! { <li>{say::mine_figures()}</li> }.into_any())}
            {(!held.pictures.is_empty()).then(|| view! { <li>{say::mine_pictures(count(held.pictures.len()))}</li> }.into_any())}
            {(held.stays > 0).then(|| view! { <li>{say::mine_stays(i64::from(held.stays))}</li> }.into_any())}
        </ul>
        <p class="soft">{say::mine_days(i64::from(held.retention_days))}</p>
        <div class="looks">
            <a class="plain-link" href=file download="sweepbell.json">
                {say::mine_file()}
            </a>
            <QuietButton label on_press=erase />
        </div>
    }
    .into_any()
}

fn erased(ErasedNow { erased, stays }: ErasedNow) -> AnyView {
    let next_step = if stays > 0 { say::mine_stays(i64::from(stays)) } else { String::new() };
    view! { <Notice tone=Tone::Fact reason=say::erased(i64::from(erased)) next_step /> }.into_any()
}
