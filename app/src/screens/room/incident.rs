//! Something that the steward should know, in the teller's words. The emergency number and the cautions stand first.
//!
//! Asks for what happened and where; never for a diagnosis, nor for whose fault it was.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::{Happened, Place, Told};

use super::found::places;
use super::muster::call_act;
use crate::intent::use_dispatch;
use crate::parts::button::BigButton;
use crate::parts::choice::choice;
use crate::parts::field::{Field, Typed};
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::store::use_app_view;
use crate::words::{frame, incidents as ask, room as say};

/// The sheet to tell it in.
#[component]
pub fn IncidentSheet(on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let number = view.room.with_untracked(|room| room.as_ref().and_then(|room| room.emergency.clone()));
    let note = RwSignal::new(String::new());
    let (kind, aid, place) = (RwSignal::new(0), RwSignal::new(0), RwSignal::new(0));
    let places = StoredValue::new(places(view));
    let tell = move |()| {
        let told = Told {
            place: picked(places, place),
            kind: KINDS[kind.get_untracked()],
            first_aid: AID[aid.get_untracked()],
        };
        dispatch.act(Command::ReportIncident { note: note.get_untracked(), told });
        on_close.run(());
    };
    view! {
        <Sheet title=say::incident() close_label=frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <p class="fact">{ask::first()}</p>
                {call_act(number)}
                <Field
                    label=say::incident_what()
                    name="incident"
                    value=note
                    typed=Typed::Sentences
                    hint=ask::guard()
                />
                {choice(ask::kind(), vec![ask::near_miss(), ask::incident()], kind)}
                {choice(ask::aid(), vec![ask::yes(), ask::no()], aid)}
                {pick(places, place)}
            </div>
            <div class="acts">
                <BigButton label=say::incident_tell() on_press=tell />
            </div>
        </Sheet>
    }
}

/// What each answer means; the first is none.
const KINDS: [Option<Happened>; 3] = [None, Some(Happened::NearMiss), Some(Happened::Incident)];
const AID: [Option<bool>; 3] = [None, Some(true), Some(false)];

type Places = StoredValue<Vec<(Place, String)>>;

fn picked(places: Places, place: RwSignal<usize>) -> Option<Place> {
    let index = place.get_untracked().checked_sub(1)?;
    places.with_value(|places| places.get(index).map(|(place, _)| place.clone()))
}

/// Where it was: one of the rooms and machines, or none.
fn pick(places: Places, place: RwSignal<usize>) -> AnyView {
    let names: Vec<String> = places.with_value(|places| places.iter().map(|(_, name)| name.clone()).collect());
    let names = [ask::place_none().to_owned()].into_iter().chain(names);
    let options =
        names.enumerate().map(|(index, name)| view! { <option value=index.to_string()>{name}</option> }.into_any());
    view! {
        <div class="field">
            <label class="field-label" for="incident-where">
                {ask::place()}
            </label>
            <select
                class="field-entry"
                id="incident-where"
                on:change=move |event| place.set(event_target_value(&event).parse().unwrap_or(0))
            >
                {options.collect_view()}
            </select>
        </div>
    }
    .into_any()
}
