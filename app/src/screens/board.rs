//! The wall board of a room: each session's steel rule on one scale of time, whose buddy, what is tagged out.
//!
//! For an old tablet or a screen on the wall, read from across the room; a phone shows the same. It tells how old its
//! news is and never leaves out a name for that. Needs no session; its acts are muster, and calling everybody out.
//!
//! Where a device hangs as the room's board it rings for everybody in the room, and names nobody who has not let it. It hangs there for weeks: what it
//! shows moves a little each minute, so that nothing burns into the screen.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::ids::RoomId;
use shared_core::in_room::shown;
use shared_core::time::{Instant, MINUTE_MS, Span};
use shared_core::view::board::{BoardSession, BoardView, RoomBell, Standing, rings};

use super::room::clear_act;
use super::rule::marks;
use super::time::{Minutes, shop_clock};
use super::wants::wants;
use crate::intent::Wanted;
use crate::parts::button::BigButton;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::{live, whenever};
use crate::parts::sign::{SafetySign, Sign};
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::route::Route;
use crate::shell::address::{Step, use_board_room, use_go};
use crate::shell::bell::{Strength, audible, ring};
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
        <main class="screen board" style:translate=shift(view)>
            <div class="screen-body" {..custom_attribute("tabindex", "0")}>
                {bell(view)}
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
                {clear(view)}
                <BigButton label=room::muster() on_press=move |()| go(Route::Room, Step::Onward) />
            </div>
        </main>
    }
    .into_any()
}

/// Where it hangs, a few pixels this way or that, another minute other ones: on a circle, so that no place is lit longer than
/// others.
fn shift(view: AppView) -> impl Fn() -> String + Send + Sync + 'static {
    const STEPS: [(i8, i8); 8] = [(4, 0), (3, 3), (0, 4), (-3, 3), (-4, 0), (-3, -3), (0, -4), (3, -3)];
    let room = use_board_room();
    let minute = kept(move || hangs(view, &room.get()).then(|| view.now.get().ms().div_euclid(MINUTE_MS)));
    move || {
        let at = minute.get().and_then(|minute| usize::try_from(minute.rem_euclid(8)).ok());
        at.and_then(|at| STEPS.get(at)).map(|(x, y)| format!("{x}px {y}px")).unwrap_or_default()
    }
}

/// Whether this device hangs as the board of the room that it shows.
fn hangs(view: AppView, room: &RoomId) -> bool {
    view.shop
        .with(|shop| shop.as_ref().and_then(|shop| shop.hangs_in.as_ref()).is_some_and(|board| board.room == *room))
}

/// The bell that stands, over everything; rung when it comes.
fn bell(view: AppView) -> AnyView {
    let room = use_board_room();
    let stands = kept(move || {
        let now = view.now.get();
        let stands = view.extra.with(|extra| rings(extra.seen::<Option<BoardView>>()?.as_ref()?, now));
        stands.filter(|_| hangs(view, &room.get()))
    });
    whenever(move || {
        if let Some(stands) = stands.get() {
            ring(if stands.bell == RoomBell::WatchOver { Strength::Gentle } else { Strength::Full });
        }
    });
    live(move || {
        let Standing { bell, at, name } = stands.get()?;
        let clock = shop_clock(view, at);
        let words = match bell {
            RoomBell::Sweep => say::bell_sweep(&clock),
            RoomBell::WatchOver => say::bell_watch(&clock),
            RoomBell::Last => say::bell_last(&clock),
            RoomBell::Clear => say::bell_clear(&clock),
        };
        let words = name.map(|name| say::bell_for(&name, &words)).unwrap_or(words);
        Some(view! { <p class="board-bell" role="alert">{words}</p> }.into_any())
    })
    .into_any()
}

/// Calls everybody out of this room; and whether this board can be heard.
fn clear(view: AppView) -> AnyView {
    let room = use_board_room();
    let called = kept(move || {
        view.extra.with(|extra| extra.seen::<Option<BoardView>>()?.as_ref().map(|board| board.clear_called))
    });
    let silent = kept(move || {
        view.now.get();
        hangs(view, &room.get()) && !audible()
    });
    view! {
        {live(move || silent.get().then(|| view! { <p class="soft">{say::touch_once()}</p> }.into_any()))}
        {live(move || called.get().map(|called| clear_act(room.get(), called)))}
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
    let left = |minutes| if minutes > 0 { say::watch(minutes) } else { say::watch_over().to_owned() };
    let watch = session.watch_until.map(Signal::stored);
    let watch = watch.map(|at| view! { <p><Minutes at says=left /></p> }.into_any());
    let mut marks = Marks { spans, ..marks(view, session.from, session.out_by, session.times.as_ref()) };
    marks.sweep_from = session.began.or(marks.sweep_from);
    marks.words.title.clone_from(&session.name);
    view! {
        <li class="board-row">
            <div class="board-who">
                <h2>{session.name.clone()}</h2>
                <p>{facts.join(", ")}</p>
                {watch}
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
