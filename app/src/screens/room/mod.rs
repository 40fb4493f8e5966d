//! Room: the muster list, what is tagged out, which rounds are due, how it was found; what to tell, and what to look up.
//!
//! Who is here stands first, in letters to call out by: Room is the muster list, one touch away from every screen.
//! A name is never left out for being stale: it says how stale. What a line of the log needs a session for says so
//! instead of failing.

mod clear;
mod found;
mod incident;
mod muster;
mod people;
mod rounds;
mod tagged;

use leptos::prelude::*;
use shared_core::view::room::{RoomNow, RoomView};

use self::found::Found;
use self::incident::IncidentSheet;
use self::muster::Muster;
use self::rounds::Rounds;
use self::tagged::Tagged;
use super::bench::TagOutSheet;
use super::later::{Spot, later};
use super::look::{self, FireSheet, Look, LookUp};
use super::scan;
use crate::later::Close;
use crate::parts::button::QuietButton;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::live;
use crate::parts::sign::{SafetySign, Sign};
use crate::route::board_href;
use crate::store::{AppView, use_app_view};
use crate::words::{door, look as looked, room as say};
use shared_core::entry::Condition;

pub use self::clear::clear_act;
pub use self::found::FoundSheet;
pub use self::muster::call_act;
pub use self::rounds::stands as round_stands;

/// What lies over Room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    Fire,
    Look(Look),
    TagOut,
    Found(Condition),
    Incident,
    Scan,
}

/// A field of Room, as a value that changes only when it does.
pub fn field<T: Clone + Default + PartialEq + Send + Sync + 'static>(
    view: AppView,
    of: impl Fn(&RoomView) -> T + Send + Sync + 'static,
) -> Kept<T> {
    kept(move || view.room.with(|room| room.as_ref().map(&of).unwrap_or_default()))
}

/// The screen.
#[component]
pub fn RoomScreen() -> impl IntoView {
    let view = use_app_view();
    let over = RwSignal::new(None::<Over>);
    let emergency = field(view, |room| room.emergency.clone());
    let rooms = field(view, |room| room.rooms.clone());
    let open = move |what: Over| move |()| over.set(Some(what));
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1 class="unseen">{say::title()}</h1>
                <Muster />
                {live(move || rooms.with(|rooms| rooms.iter().find(|room| room.mine).map(|mine| clear_act(mine.id.clone(), mine.clear_called))))}
                <QuietButton label=door::be_buddy() on_press=open(Over::Scan) />
                {later(Spot::Section, move |later| (later.room)(over))}
            </div>
            <div class="acts">
                <button type="button" class="quiet-button fire-act" on:click=move |_| over.set(Some(Over::Fire))>
                    <SafetySign sign=Sign::Extinguisher />
                    {looked::fire()}
                </button>
                {live(move || call_act(emergency.get()))}
            </div>
        </main>
        {live(move || over.get().map(|what| sheet(what, over)))}
    }
}

/// Below the muster list.
pub fn below(over: RwSignal<Option<Over>>) -> AnyView {
    let view = use_app_view();
    let inside = kept(move || view.bench.with(Option::is_some));
    let rooms = field(view, |room| room.rooms.clone());
    let open = move |what: Over| move |()| over.set(Some(what));
    view! {
        <Tagged />
        <Rounds inside />
        <LookUp on_open=move |look| over.set(Some(Over::Look(look))) />
        <Found inside on_found=move |condition| over.set(Some(Over::Found(condition))) />
        <QuietButton label=say::tag_out() on_press=open(Over::TagOut) />
        <QuietButton label=say::incident() on_press=open(Over::Incident) />
        {live(move || boards(&rooms.get()))}
    }
    .into_any()
}

/// The way to each room's board, last: whoever musters has no use for it.
fn boards(rooms: &[RoomNow]) -> AnyView {
    let mut links = Vec::new();
    for room in rooms {
        links.push(view! { <a class="plain-link" href=board_href(&room.id)>{say::board(&room.name)}</a> }.into_any());
    }
    links.into_any()
}

fn sheet(what: Over, over: RwSignal<Option<Over>>) -> AnyView {
    let close = Callback::new(move |()| over.set(None));
    match what {
        Over::Fire => view! { <FireSheet on_close=close /> }.into_any(),
        what => later(Spot::Sheet(close), move |later| (later.over_room)(what, close)),
    }
}

/// The sheets of the later part.
pub fn later_sheet(what: Over, close: Close) -> AnyView {
    match what {
        Over::Fire => ().into_any(),
        Over::Look(look) => look::sheet(look, close),
        Over::TagOut => view! { <TagOutSheet on_close=close /> }.into_any(),
        Over::Found(condition) => view! { <FoundSheet condition on_close=close /> }.into_any(),
        Over::Incident => view! { <IncidentSheet on_close=close /> }.into_any(),
        Over::Scan => scan::opened(close),
    }
}
