//! Finds, for a steward: each mess with who could have left it, on the steel rule and in words; asking, and how it ended.
//!
//! What is seen first is drawn first, the rest while the page is idle: each find may have dozens of windows. Asks and does not accuse. Whom a steward asked is written down nowhere.

use leptos::html::Textarea;
use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::Step;
use shared_core::time::Span;
use shared_core::view::finds::{FINDS_DAYS, FINDS_MOST, Find, Finds, Suspect};
use wasm_bindgen_futures::spawn_local;

use super::finds_patterns::patterns;
use super::picture::{self, Opened, Picture};
use super::saying::{self, Saying, drawn as reckoned, when};
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::{boxed, live};
use crate::parts::steel_rule::windows::{Bracket, draw_windows};
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::{offset_minutes, shop_clock};
use crate::shell::later::when_idle;
use crate::store::{AppView, use_app_view};
use crate::words::finds as say;

/// So many are drawn without a pause.
const AT_ONCE: usize = 5;
/// Before this much time a place that was never known to be clean has no rule of its own.
const LEAST: Span = Span::from_minutes(60);

/// The page.
pub fn drawn() -> AnyView {
    let over = RwSignal::new(None::<Saying>);
    let opened = Opened::new(None);
    let drawn_to = RwSignal::new(AT_ONCE);
    draw_on(drawn_to);
    view! {
        <NoticeBar />
        {reckoned(move |view, finds: Finds| page(view, &finds, over, opened, drawn_to))}
        {saying::over(over)}
        {picture::over(use_app_view(), opened)}
    }
    .into_any()
}

/// Some more each time that the page has nothing else to do, until it is closed.
fn draw_on(drawn_to: RwSignal<usize>) {
    spawn_local(async move {
        while drawn_to.try_get_untracked().is_some_and(|to| to < FINDS_MOST) {
            when_idle().await;
            drawn_to.try_update(|to| *to += AT_ONCE);
        }
    });
}

fn page(view: AppView, finds: &Finds, over: saying::Over, opened: Opened, drawn_to: RwSignal<usize>) -> AnyView {
    let repeats = patterns(finds);
    let none = finds.finds.is_empty().then(|| said("soft", say::none(FINDS_DAYS)));
    let few = finds.finds.chunks(AT_ONCE).map(<[Find]>::to_vec).enumerate();
    let rows = few.map(|(nth, few)| {
        let is_due = kept(move || nth * AT_ONCE < drawn_to.get());
        let drawn = move || few.iter().map(|find| one(view, find.clone(), over, opened)).collect::<Vec<_>>();
        live(move || is_due.get().then(&drawn))
    });
    let rows: Vec<AnyView> = rows.collect();
    view! {
        {none}
        <ol class="rows finds">{rows}</ol>
        {repeats}
    }
    .into_any()
}

fn one(view: AppView, find: Find, over: saying::Over, opened: Opened) -> AnyView {
    let clean = find.clean_at.map_or_else(|| say::clean_never().to_owned(), |at| say::clean_at(&when(view, at)));
    let footage = if find.windows.is_empty() { say::nobody().to_owned() } else { say::footage(find.footage_minutes) };
    let rule = (!find.windows.is_empty()).then(|| rule(view, &find));
    let asks = !find.seen_to;
    let (place, seen) = (find.place.clone(), when(view, find.at));
    let suspects = find.windows.iter().map(|window| suspect(view, window, asks.then_some((&*place, &*seen)), opened));
    let suspects = suspects.collect_view();
    let heading = if find.seen_to { [&find.place, ": ", say::seen_to()].concat() } else { find.place.clone() };
    view! {
        <li class="row">
            <p class="row-name">{heading}</p>
            {find.note.clone().map(|note| said("find-note", note))}
            <p class="row-detail">{say::by(&find.by, &seen)}</p>
            <p class="row-detail">{clean}</p>
            {rule}
            <p class="next-step">{footage}</p>
            <ul class="plain">{suspects}</ul>
            <div class="thread">{saying::said(view, find.notes.clone())}</div>
            {asks.then(|| acts(find, over))}
        </li>
    }
    .into_any()
}

fn acts(find: Find, over: saying::Over) -> AnyView {
    let dispatch = use_dispatch();
    let of = find.of.clone();
    let asked = move |()| dispatch.act(Command::Note { of: of.clone(), step: Step::Asked, note: None });
    let steps = vec![(Step::Remarked, crate::words::repairs::remark()), (Step::SeenTo, say::seen_to())];
    let more = Saying { of: find.of, about: say::outcome().to_owned(), hint: say::outcome_hint(), steps };
    view! {
        <div class="looks">
            <QuietButton label=say::asked() on_press=asked />
            <QuietButton label=say::outcome() on_press=move |()| over.set(Some(more.clone())) />
        </div>
    }
    .into_any()
}

/// The bracket with its windows; from the first use on where nothing was ever clean.
fn rule(view: AppView, find: &Find) -> AnyView {
    let first = find.windows.first().map_or(find.at, |window| window.from);
    let spec = Bracket {
        from: find.clean_at.unwrap_or(first).min(find.at - LEAST).min(first),
        to: find.at,
        windows: find.windows.iter().map(|window| (window.from, window.to)).collect(),
        offset_minutes: offset_minutes(view, find.at),
        says: say::rule().to_owned(),
    };
    boxed("rule", Box::new(move |width_px, height_px| draw_windows(&spec, width_px, height_px)))
}

/// Somebody to ask, what the log says, and where the mess is open a message to ask with.
fn suspect(view: AppView, window: &Suspect, asks: Option<(&str, &str)>, opened: Opened) -> AnyView {
    let stretch = say::window(&when(view, window.from), &shop_clock(view, window.to));
    let list = |chores: Vec<&str>, says: fn(&str) -> String| {
        (!chores.is_empty()).then(|| said("row-detail", says(&chores.join(" "))))
    };
    let ticked = window.ticked.iter().map(|ticked| ticked.text.as_str()).collect();
    let pictures = window.ticked.iter().filter_map(|ticked| {
        let of = ticked.text.clone();
        Some(picture::small(view, Picture { sha: ticked.photo.clone()?, says: say::picture_of(&of), of }, opened))
    });
    let pictures: Vec<AnyView> = pictures.collect();
    let seconds = window.clock_jumped.ms() / 1_000;
    let message = asks.map(|(place, seen)| {
        let text = say::message(&when(view, window.from), &window.name, place, seen);
        ask(&window.name, text)
    });
    view! {
        <li class="suspect">
            <p>
                <strong>{window.name.clone()}</strong>
                ", "
                {stretch}
            </p>
            {list(window.unticked.iter().map(String::as_str).collect(), say::unticked)}
            {list(ticked, say::ticked)}
            {(!pictures.is_empty()).then(|| view! { <div class="pictures">{pictures}</div> }.into_any())}
            {(seconds != 0).then(|| said("row-detail", say::clock(seconds)))}
            {message}
        </li>
    }
    .into_any()
}

/// The message, once it is wanted; a touch marks all of it.
fn ask(name: &str, text: String) -> AnyView {
    let shown = RwSignal::new(false);
    let label = say::ask(name);
    let spoken = label.clone();
    let field = NodeRef::<Textarea>::new();
    let mark = move |_| {
        if let Some(field) = field.get_untracked() {
            field.select();
        }
    };
    let message = move || {
        shown.get().then(|| {
            view! {
                <textarea class="field-entry" node_ref=field aria-label=spoken.clone() rows="5" prop:value=text.clone() on:focus=mark></textarea>
                <p class="field-hint">{say::message_hint()}</p>
            }
            .into_any()
        })
    };
    view! {
        <QuietButton label on_press=move |()| shown.update(|shown| *shown = !*shown) />
        {live(message)}
    }
    .into_any()
}
