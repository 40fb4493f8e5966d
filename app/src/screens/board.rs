//! The wall board of a room: each session's steel rule on one scale of time, whose buddy, what is tagged out.
//!
//! For an old tablet or a screen on the wall, read from across the room; a phone shows the same. It tells how old its
//! news is and never leaves out a name for that. Needs no session, and no act but muster.

use leptos::prelude::*;
use shared_core::time::{Instant, Span};
use shared_core::view::board::{BoardSession, BoardView};

use super::rule::marks;
use super::time::{Minutes, shop_clock};
use super::wants::wants;
use crate::intent::Wanted;
use crate::parts::big_button::BigButton;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::{live, rows};
use crate::parts::sign::{SafetySign, Sign};
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::route::Route;
use crate::shell::address::{Step, use_board_room, use_go};
use crate::store::{Link, use_app_view};
use crate::words::{self, board as say, room};

/// So much of what is to come is on the scale at least.
const AHEAD: Span = Span::from_minutes(60);

/// The screen.
#[component]
pub fn BoardScreen() -> impl IntoView {
    let view = use_app_view();
    let id = use_board_room();
    wants(kept(move || Wanted::Board(id.get())));
    let go = use_go();
    let board = move |of: fn(&BoardView) -> Vec<String>| {
        kept(move || view.board.with(|board| board.as_ref().map(of).unwrap_or_default()))
    };
    let name = kept(move || view.board.with(|board| board.as_ref().map(|board| board.room.clone())));
    let sessions = board(|board| board.sessions.iter().map(|session| session.id.to_string()).collect());
    let tagged = board(|board| board.tagged.iter().map(|row| say::tagged(&row.name, &row.tag.problem)).collect());
    let spans = kept(move || view.board.with(|board| board.as_ref().and_then(scale)));
    let session = move |id: String| {
        let found = move |board: &BoardView| board.sessions.iter().find(|session| session.id.as_str() == id).cloned();
        let session = kept(move || view.board.with(|board| board.as_ref().and_then(&found)));
        live(move || session.get().map(|session| on_board(session, spans)))
    };
    let empty = kept(move || sessions.with(Vec::is_empty));
    let clock = kept(move || shop_clock(view, view.now.get()));
    view! {
        <main class="screen board">
            <div class="screen-body">
                <header class="board-head">
                    <h1>{live(move || name.get())}</h1>
                    <p class="board-clock">{live(move || clock.get())}</p>
                </header>
                {live(move || (empty.get() && name.with(Option::is_some)).then(|| view! { <p class="board-empty">{room::nobody()}</p> }.into_any()))}
                {live(move || name.with(Option::is_none).then(|| view! { <p>{say::no_room()}</p> }.into_any()))}
                <ul class="board-rows">{rows(sessions, session)}</ul>
                {live(move || tagged.get().into_iter().map(|text| view! {
                    <p class="headline"><SafetySign sign=Sign::Warning /> {text}</p>
                }.into_any()).collect_view())}
            </div>
            <div class="acts">
                <p class="soft">{age()}</p>
                <BigButton label=room::muster() on_press=move |()| go(Route::Room, Step::Onward) />
            </div>
        </main>
    }
}

/// From the first who came to the last out-by, for all rules alike.
fn scale(board: &BoardView) -> Option<(Instant, Instant)> {
    let from = board.sessions.iter().map(|session| session.from).min()?;
    let to = board.sessions.iter().map(|session| session.out_by).max()?;
    Some((from, to.max(from + AHEAD)))
}

fn on_board(session: BoardSession, spans: Kept<Option<(Instant, Instant)>>) -> AnyView {
    let view = use_app_view();
    let BoardSession { name, buddies, running, from, out_by, times, sweeping, heard, .. } = session;
    let mut facts = Vec::new();
    if sweeping {
        facts.push(room::sweeping().to_owned());
    }
    facts.extend(running);
    if !buddies.is_empty() {
        facts.push(say::with(&buddies.join(", ")));
    }
    let marks = Signal::derive(move || Marks { spans: spans.get(), ..marks(view, from, out_by, times.as_ref()) });
    view! {
        <li class="board-row">
            <div class="board-who">
                <h2>{name}</h2>
                <p>{facts.join(", ")}</p>
                <p class="soft"><Minutes at=Signal::stored(heard) since=true says=room::heard /></p>
            </div>
            <SteelRule marks now=view.now />
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
