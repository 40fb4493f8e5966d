//! The induction walk: what is left of it, the stop that was scanned with its lines and its question, and at the end the code
//! that says so to the steward's phone.
//!
//! A stop opens by its code; where the code is gone, by a touch on its line. Which answer is right this screen does not know.

use leptos::prelude::*;
use shared_core::entry::Point;
use shared_core::standing::act::Act;
use shared_core::standing::walk::Walked;
use shared_core::view::walk::{PointRow, WalkView};

use super::day::shop_day;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::{live, whenever};
use crate::parts::notice::{Notice, Tone};
use crate::parts::qr::Qr;
use crate::parts::sign::{SafetySign, Sign};
use crate::screens::scan::scanner;
use crate::shell::desk::extra::Walk;
use crate::shell::speech::{can_speak, hush, speak};
use crate::store::{At, use_app_view};
use crate::words::{self, walk as say};

/// The page.
pub fn drawn() -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let walk = kept(move || view.extra.with(|extra| extra.seen().map(|seen: &Walk| seen.walk.clone())));
    let code = kept(move || view.extra.with(|extra| extra.seen().and_then(|seen: &Walk| seen.code.clone())));
    // A statement has no code: a touch opens it, and only here.
    let touched = RwSignal::new(None::<Point>);
    let open = kept(move || match view.at.get() {
        At::Stop(stop) => Some(Point::Stop(stop)),
        _ => touched.get(),
    });
    let row = kept(move || {
        let open = open.get()?;
        walk.with(|walk| walk.as_ref()?.points.iter().find(|row| row.point == open).cloned())
    });
    let scanning = RwSignal::new(false);
    on_cleanup(move || {
        hush();
        dispatch.ui(Ui::At(At::Nothing));
    });
    view! {
        {live(move || walk.with(|walk| walk.as_ref().map(progress)))}
        {live(move || row.get().map(|row| at_hand(row, scanning)))}
        {live(move || code.get().map(shown_code))}
        {live(move || (row.with(Option::is_none) && code.with(Option::is_none)).then(|| scan_button(say::scan(), scanning)))}
        {live(move || walk.get().map(|walk| list(walk, touched)))}
        {scanner(scanning)}
    }
    .into_any()
}

fn scan_button(label: &'static str, scanning: RwSignal<bool>) -> AnyView {
    view! { <QuietButton label on_press=move |()| scanning.set(true) /> }.into_any()
}

fn progress(walk: &WalkView) -> AnyView {
    let (count, left) = (words::count(walk.points.len()), words::count(walk.left));
    let view = use_app_view();
    let changed = walk.points.iter().any(|row| row.walked == Walked::Changed);
    let how = match (walk.done, walk.inducted_until) {
        (Some(_), Some(until)) => say::inducted(&shop_day(view, until)),
        (Some(_), None) => say::done_how().to_owned(),
        (None, _) if changed => say::changed_how().to_owned(),
        (None, _) => say::how().to_owned(),
    };
    view! {
        <p class="walk-left">
            <strong>{say::left(count, left)}</strong>
        </p>
        <progress class="walk-bar" max=count value=count - left aria-hidden="true"></progress>
        <p>{how}</p>
    }
    .into_any()
}

fn at_hand(row: PointRow, scanning: RwSignal<bool>) -> AnyView {
    let PointRow { point, room, text, says, sign, question, walked } = row;
    // Whoever touched a line far down sees what it opened.
    let card = NodeRef::<leptos::html::Section>::new();
    whenever(move || {
        if let Some(card) = card.get() {
            request_animation_frame(move || card.scroll_into_view());
        }
    });
    let aloud = [text.clone()].into_iter().chain(says.clone());
    let aloud = aloud.chain(question.iter().map(|(asked, _)| asked.clone())).collect::<Vec<_>>().join(" ");
    let sign = sign.map(|word| view! { <SafetySign sign=Sign::statement(&word) /> }.into_any());
    let lines = says.into_iter().map(|line| view! { <li>{line}</li> }.into_any()).collect_view();
    let act = if walked == Walked::Behind {
        view! {
            <Notice tone=Tone::Fact reason=say::behind() />
            {scan_button(say::next(), scanning)}
        }
        .into_any()
    } else {
        asked(point, question)
    };
    view! {
        <section class="stop-card" node_ref=card>
            <p class="row-detail">{room}</p>
            <div class="stop-head">
                {sign}
                <p class="statement">{text}</p>
            </div>
            <ul class="stop-lines">{lines}</ul>
            {can_speak()
                .then(|| view! { <QuietButton label=say::aloud() on_press=move |()| speak(&aloud) /> }.into_any())}
            {act}
        </section>
    }
    .into_any()
}

fn asked(point: Point, question: Option<(String, Vec<String>)>) -> AnyView {
    let dispatch = use_dispatch();
    let Some((asked, answers)) = question else {
        let label = if matches!(point, Point::Stop(_)) { say::seen() } else { say::read() };
        let walk = move |()| dispatch.ui(Ui::Act(Act::Walk { point: point.clone(), answer: None }));
        return view! { <QuietButton label on_press=walk /> }.into_any();
    };
    let answer = |(number, answer): (u32, String)| {
        let (dispatch, point) = (dispatch.clone(), point.clone());
        let pick = move |()| dispatch.ui(Ui::Act(Act::Walk { point: point.clone(), answer: Some(number) }));
        view! { <QuietButton label=answer on_press=pick /> }.into_any()
    };
    view! {
        <h2>{asked}</h2>
        <div class="choices">{(1..).zip(answers).map(answer).collect_view()}</div>
    }
    .into_any()
}

/// That the walk is done, for the steward's phone.
fn shown_code(code: String) -> AnyView {
    view! {
        <section>
            <h2>{say::show()}</h2>
            <p>{say::show_how()}</p>
            <Qr text=code label=say::code() />
        </section>
    }
    .into_any()
}

fn list(walk: WalkView, touched: RwSignal<Option<Point>>) -> AnyView {
    let dispatch = use_dispatch();
    let row = move |row: PointRow| {
        let dispatch = dispatch.clone();
        let state = match row.walked {
            Walked::Behind => say::state_behind(),
            Walked::Changed => say::state_changed(),
            Walked::Ahead => say::state_ahead(),
        };
        let place = row.room.unwrap_or_else(|| say::door().to_owned());
        let point = row.point;
        let open = move |_| {
            let stop = if let Point::Stop(stop) = &point { At::Stop(stop.clone()) } else { At::Nothing };
            dispatch.ui(Ui::At(stop));
            touched.set(Some(point.clone()));
        };
        view! {
            <li class="row">
                <button type="button" class="row-act" on:click=open>
                    <span class="row-name">{short(&row.text)}</span>
                    <span class="row-detail">
                        <strong>{state}</strong>
                        " · "
                        {place}
                    </span>
                </button>
            </li>
        }
        .into_any()
    };
    view! {
        <section>
            <h2>{say::stops()}</h2>
            <p class="soft">{say::stops_how()}</p>
            <ul class="rows is-even">{walk.points.into_iter().map(row).collect_view()}</ul>
        </section>
    }
    .into_any()
}

/// The start of what a stop says, to its first pause: enough to find it by.
fn short(text: &str) -> String {
    text.split([':', '.', ';', '?']).next().unwrap_or(text).to_owned()
}
