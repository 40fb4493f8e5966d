//! How it was found: clean, or a mess in words. First an opening line for talking, only then the note.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::{Condition, Place};
use shared_core::view::room::FoundRow;

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::kept::Kept;
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{frame, room as say, time};

/// What was found lately.
#[component]
pub fn Found(
    /// Whether there is a session, to which what is found can be written.
    inside: Kept<bool>,
    /// Called to tell how something was found.
    #[prop(into)]
    on_found: Callback<Condition>,
) -> impl IntoView {
    let view = use_app_view();
    let rows = field(view, |room| room.found.clone());
    let tell = move |condition: Condition| move |()| on_found.run(condition);
    view! {
        <section>
            <h2>{say::found()}</h2>
            {live(move || {
                inside
                    .get()
                    .then(|| {
                        view! {
                            <div class="pair">
                                <QuietButton label=say::found_clean() on_press=tell(Condition::Clean) />
                                <QuietButton label=say::found_mess() on_press=tell(Condition::Mess) />
                            </div>
                        }.into_any()
                    })
            })}
            <ul class="rows">{live(move || rows.get().into_iter().map(|row| view! { <Row row /> }.into_any()).collect_view())}</ul>
        </section>
    }
}

#[component]
fn Row(row: FoundRow) -> impl IntoView {
    let condition = match row.condition {
        Condition::Clean => say::clean(),
        Condition::Mess => say::mess(),
    };
    view! {
        <li class="row">
            <p>
                <strong>{row.place}</strong>
                ": "
                {condition}
                {row.note.map(|note| view! { ". " {note} }.into_any())}
            </p>
            <p class="row-detail">
                <Minutes at=Signal::stored(row.at) since=true says=time::ago />
            </p>
        </li>
    }
}

/// Where, and for a mess what.
#[component]
pub fn FoundSheet(condition: Condition, on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let place = RwSignal::new(None::<Place>);
    let note = RwSignal::new(String::new());
    let tell = Callback::new(move |place: Place| {
        let note = Some(note.get_untracked()).filter(|note| !note.trim().is_empty());
        dispatch.act(Command::ReportFound { place, condition, note });
        on_close.run(());
    });
    let pick = Callback::new(move |picked: Place| match condition {
        Condition::Clean => tell.run(picked),
        Condition::Mess => place.set(Some(picked)),
    });
    let title = match condition {
        Condition::Clean => say::found_clean(),
        Condition::Mess => say::found_mess(),
    };
    let places = places(view);
    view! {
        <Sheet title close_label=frame::back() on_close>
            {live(move || match place.get() {
                None => view! { <Where places=places.clone() pick /> }.into_any(),
                Some(place) => view! { <Mess place note tell /> }.into_any(),
            })}
        </Sheet>
    }
}

/// The rooms themselves, then their machines; this phone's room first.
pub fn places(view: crate::store::AppView) -> Vec<(Place, String)> {
    view.room.with_untracked(|room| {
        let Some(room) = room else { return Vec::new() };
        let rooms = room.rooms.iter().map(|room| (Place::Room(room.id.clone()), say::whole(&room.name)));
        let mine = room.rooms.iter().find(|room| room.mine).map(|room| room.id.clone());
        let mut machines: Vec<_> = room.machines.iter().collect();
        machines.sort_by_key(|machine| mine.as_ref() != Some(&machine.room));
        rooms
            .chain(machines.into_iter().map(|machine| (Place::Machine(machine.id.clone()), machine.name.clone())))
            .collect()
    })
}

#[component]
fn Where(places: Vec<(Place, String)>, pick: Callback<Place>) -> impl IntoView {
    let row = move |(place, name): (Place, String)| {
        view! {
            <li>
                <QuietButton label=name on_press=move |()| pick.run(place.clone()) />
            </li>
        }
        .into_any()
    };
    view! {
        <div class="sheet-body">
            <NoticeBar />
            <h2>{say::found_where()}</h2>
            <ul class="choices">{places.into_iter().map(row).collect_view()}</ul>
        </div>
    }
}

#[component]
fn Mess(place: Place, note: RwSignal<String>, tell: Callback<Place>) -> impl IntoView {
    view! {
        <div class="sheet-body">
            <p class="statement">{say::mess_talk()}</p>
            <Field label=say::mess_what() name="mess" value=note typed=Typed::Sentences hint=say::mess_hint() />
        </div>
        <div class="acts">
            <BigButton label=say::mess_tell() on_press=move |()| tell.run(place.clone()) />
        </div>
    }
}
