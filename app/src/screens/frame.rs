//! The root of what is seen, and the frame around every screen.
//!
//! Where the app is comes from the address; where it is asked to go comes from the loop. Effects here touch only what
//! lies outside: the address, the page's title, its theme.

use leptos::prelude::*;
use shared_core::view::rounds::RoundRow;

use super::bell::BellOverlay;
use super::bench::BenchScreen;
use super::door::DoorScreen;
use super::gate::GateScreen;
use super::later::{Spot, later};
use super::notice_bar::NoticeBar;
use super::room::RoomScreen;
use super::sweep::SweepScreen;
use super::time::time_left;
use crate::intent::{Ui, use_dispatch};
use crate::parts::kept::{Kept, kept};
use crate::parts::live::{live, whenever};
use crate::parts::places::{self, Place, Places};
use crate::route::Route;
use crate::shell::address::{Step, use_go, use_route};
use crate::shell::prefs::Theme;
use crate::store::{BuddySheet, Gate, use_app_view};
use crate::words;

/// Everything that is seen. The frame stays while the address changes. Wants [`crate::store::AppView`],
/// [`crate::intent::Dispatch`] and the address ([`crate::shell::address::follow`]) in its context.
#[component]
pub fn Screens() -> impl IntoView {
    let view = use_app_view();
    let route = use_route();
    let sheet = kept(move || view.buddy.get().on_its_way());
    let open = kept(move || view.gate.with(|gate| *gate == Gate::Open));
    follow_posted_addresses(route);
    go_where_asked();
    wear_theme();
    provide_context(places::Foot(foot));
    whenever(move || document().set_title(&format!("{}: {}", words::frame::app(), name(route.get()))));
    view! {
        <div class="frame">
            <NoticeBar />
            {live(move || {
                if open.get() || needs_no_gate(route.get()) { screen(route.get()) } else { GateScreen().into_any() }
            })}
            {foot()}
        </div>
        {live(move || buddy(sheet.get()))}
        {live(move || view.at_round.get().map(round))}
        <BellOverlay />
        {live(move || view.welcome.get().then(|| later(Spot::Unasked, |later| (later.welcome)())))}
    }
}

/// The gallery alone is there before a phone has joined.
fn needs_no_gate(route: Route) -> bool {
    #[cfg(feature = "gallery")]
    return route == Route::Gallery;
    #[cfg(not(feature = "gallery"))]
    {
        let _ = route;
        false
    }
}

/// The places, once there is somewhere to go, and the voice that says how long is left.
fn foot() -> AnyView {
    let (view, route) = (use_app_view(), use_route());
    // A wall has no thumb.
    let there = kept(move || view.gate.with(|gate| *gate == Gate::Open) && route.get() != Route::Board);
    live(move || there.get().then(|| view! { <Foot /> }.into_any()))
}

#[component]
fn Foot() -> impl IntoView {
    let (view, route) = (use_app_view(), use_route());
    let waiting = kept(move || view.sync.with(|sync| sync.waiting));
    let place = |route: Route| Place {
        name: match route {
            Route::Book => Signal::derive(move || words::frame_book(waiting.get())),
            _ => name(route).into(),
        },
        href: route.href().into(),
    };
    view! {
        <Places
            label=words::frame::places()
            places=Route::PLACES.map(place).to_vec()
            current=Signal::derive(move || Route::PLACES.iter().position(|place| *place == route.get().place()))
        />
        <p class="unseen" role="status">
            {time_left()}
        </p>
    }
}

/// The sheet between two buddies, while one is open.
fn buddy(sheet: BuddySheet) -> Option<AnyView> {
    if sheet == BuddySheet::Closed {
        return None;
    }
    let dispatch = use_dispatch();
    let close = Callback::new(move |()| dispatch.ui(Ui::CloseBuddy));
    Some(later(Spot::Sheet(close), move |later| (later.buddy)(sheet.clone())))
}

/// The sheet of a round whose code was scanned.
fn round(row: RoundRow) -> AnyView {
    let dispatch = use_dispatch();
    let close = Callback::new(move |()| dispatch.ui(Ui::LeaveRound));
    later(Spot::Sheet(close), move |later| (later.round)(row.clone()))
}

fn screen(route: Route) -> AnyView {
    match route {
        Route::Door | Route::Posted => DoorScreen().into_any(),
        Route::Bench => BenchScreen().into_any(),
        Route::Sweep => SweepScreen().into_any(),
        Route::Room => RoomScreen().into_any(),
        Route::Book => later(Spot::Screen, |later| (later.book)()),
        Route::Page(page) => later(Spot::Screen, move |later| (later.page)(page)),
        Route::Cautions => later(Spot::Screen, |later| (later.cautions)()),
        Route::Board => later(Spot::Screen, |later| (later.board)()),
        #[cfg(feature = "gallery")]
        Route::Gallery => super::gallery::gallery(),
    }
}

fn name(route: Route) -> &'static str {
    match route {
        Route::Door | Route::Posted => words::frame::door(),
        Route::Bench => words::frame::bench(),
        Route::Sweep => words::frame::sweep(),
        Route::Room => words::frame::room(),
        Route::Book | Route::Page(_) => words::frame::book(),
        Route::Cautions => words::cautions::title(),
        Route::Board => words::board::title(),
        #[cfg(feature = "gallery")]
        Route::Gallery => "Gallery",
    }
}

/// An address that hangs in the shop is handed on whole, and left, so that a reload does not hand it on again.
fn follow_posted_addresses(route: Kept<Route>) {
    let (dispatch, go) = (use_dispatch(), use_go());
    whenever(move || {
        if route.get() == Route::Posted {
            dispatch.ui(Ui::Scanned(window().location().href().unwrap_or_default()));
            go(Route::Door, Step::InPlace);
        }
    });
}

/// Goes where the loop asks, once for each asking.
fn go_where_asked() {
    let (view, go) = (use_app_view(), use_go());
    Effect::new(move |gone: Option<u32>| {
        let going = view.going.get();
        if gone.unwrap_or(0) != going.count {
            go(Route::from(going.to), Step::Onward);
        }
        going.count
    });
}

fn wear_theme() {
    let view = use_app_view();
    whenever(move || {
        let Some(page) = document().document_element() else { return };
        // A page without the attribute follows the phone; that nothing can be set harms nobody.
        let _ = match view.theme.get() {
            Theme::Phone => page.remove_attribute("data-theme"),
            Theme::Dark => page.set_attribute("data-theme", "dark"),
            Theme::Light => page.set_attribute("data-theme", "light"),
        };
    });
}
