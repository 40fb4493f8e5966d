//! The wall board of a room: each session's steel rule on one scale of time, whose buddy, what is tagged out.
//!
//! For an old tablet or a screen on the wall, read from across the room; a phone shows the same. It tells how old its
//! news is and never leaves out a name for that. Needs no session, and no act but muster.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::in_room::shown;
use shared_core::time::{Instant, Span};
use shared_core::view::board::{BoardSession, BoardView};

use super::rule::marks;
use super::time::{Minutes, shop_clock};
use super::wants::wants;
use crate::intent::Wanted;
use crate::parts::button::BigButton;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::sign::{SafetySign, Sign};
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::route::Route;
use crate::shell::address::{Step, use_board_room, use_go};
use crate::store::{AppView, Link, use_app_view};
use crate::words::{self, board as say, room};

/// So much of what is to come is on the scale at least.
const AHEAD: Span = Span::from_minutes(60);

/// The screen.
pub fn screen() -> AnyView {
    let (view, go) = (use_app_view(), use_go());
    let id = use_board_room();
    wants(Box::new(move || Wanted::Board(id.get())));
    view! {
        <main class="screen board">
            <div class="screen-body" {..custom_attribute("tabindex", "0")}>
                {live(move || {
                    view.extra.with(|extra| match extra.seen::<Option<BoardView>>() {
                        Some(Some(board)) => on_wall(board),
                        Some(None) => said("board-empty", say::no_room().to_owned()),
                        None => ().into_any(),
                    })
                })}
            </div>
            <p class="soft board-age">{age()}</p>
            <div class="acts">
                <BigButton label=room::muster() on_press=move |()| go(Route::Room, Step::Onward) />
            </div>
        </main>
    }
    .into_any()
}

fn on_wall(board: &BoardView) -> AnyView {
    let view = use_app_view();
    let clock = kept(move || shop_clock(view, view.now.get()));
    let spans = scale(board);
    let nobody = board.sessions.is_empty().then(|| said("board-empty", room::nobody().to_owned()));
    let mut sessions = Vec::new();
    for session in &board.sessions {
        sessions.push(on_board(session, spans));
    }
    let mut tagged = Vec::new();
    for row in &board.tagged {
        let text = say::tagged(&row.name, &row.tag.problem);
        tagged.push(view! { <p class="headline"><SafetySign sign=Sign::Warning /> {text}</p> }.into_any());
    }
    let code = of_board(view);
    view! {
        <header class="board-head">
            <h1>{board.room.clone()}</h1>
            {code}
            <p class="board-clock">{live(move || clock.get())}</p>
        </header>
        {nobody}
        <ul class="board-rows">{sessions}</ul>
        {tagged}
    }
    .into_any()
}

/// The code that shows who is in the room, where this device is this room's board: nowhere else, or it would show nothing.
fn of_board(view: AppView) -> AnyView {
    let room = use_board_room();
    let code = kept(move || {
        let here = view.shop.with(|shop| shop.as_ref()?.hangs_in.clone()).filter(|board| board.room == room.get())?;
        let hub_now = view.now.get() + view.sync.with(|sync| sync.clock_offset).unwrap_or_default();
        Some(shown(here.key.code(hub_now)))
    });
    live(move || {
        code.get().map(|code| {
            view! {
                <p class="board-code">
                    <span class="soft">{say::code()}</span>
                    " "
                    {code}
                </p>
            }
            .into_any()
        })
    })
    .into_any()
}

/// From the first who came to the last out-by, for all rules alike.
fn scale(board: &BoardView) -> Option<(Instant, Instant)> {
    let from = board.sessions.iter().map(|session| session.from).min()?;
    let to = board.sessions.iter().map(|session| session.out_by).max()?;
    Some((from, to.max(from + AHEAD)))
}

fn on_board(session: &BoardSession, spans: Option<(Instant, Instant)>) -> AnyView {
    let view = use_app_view();
    let heard = session.heard;
    let mut facts = Vec::new();
    if session.began.is_some() {
        facts.push(room::sweeping().to_owned());
    }
    facts.extend_from_slice(&session.running);
    if !session.buddies.is_empty() {
        facts.push(say::with(&session.buddies.join(", ")));
    }
    let mut marks = Marks { spans, ..marks(view, session.from, session.out_by, session.times.as_ref()) };
    marks.sweep_from = session.began.or(marks.sweep_from);
    marks.words.title.clone_from(&session.name);
    view! {
        <li class="board-row">
            <div class="board-who">
                <h2>{session.name.clone()}</h2>
                <p>{facts.join(", ")}</p>
                <p class="soft"><Minutes at=Signal::stored(heard) since=true says=room::heard /></p>
            </div>
            <SteelRule marks=Signal::derive(move || marks.clone()) now=view.now />
        </li>
    }
    .into_any()
}

/// How old the news from the hub is.
fn age() -> AnyView {
    let view = use_app_view();
    let link = kept(move || view.sync.with(|sync| sync.link.clone()));
    live(move || match link.get() {
        Link::Reached(at) => {
            view! { <Minutes at=Signal::stored(at) since=true says=|minutes| words::book::reached(&words::time::ago(minutes)) /> }
                .into_any()
        }
        Link::Unknown => words::book::not_asked().into_any(),
        Link::Fault(_) => say::no_hub().into_any(),
    })
    .into_any()
}
