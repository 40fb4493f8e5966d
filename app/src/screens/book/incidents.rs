//! Incidents and near misses, for a steward: what was told, what was said of it since; following it up.
//!
//! The cautions stand first. Nothing here guesses what somebody suffers from, or whose fault it was.

use leptos::prelude::*;
use shared_core::entry::{Happened, Step};
use shared_core::view::incidents::{IncidentRow, Incidents};

use super::saying::{self, Saying, drawn as reckoned, when};
use crate::parts::button::QuietButton;
use crate::parts::lines::said;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::room::call_act;
use crate::store::{AppView, use_app_view};
use crate::words::{incidents as say, today};

/// The page.
pub fn drawn() -> AnyView {
    let over = RwSignal::new(None::<Saying>);
    let number = use_app_view().room.with_untracked(|room| room.as_ref().and_then(|room| room.emergency.clone()));
    view! {
        <NoticeBar />
        <p class="fact">{say::first()}</p>
        {call_act(number)}
        <p class="soft">{say::guard()}</p>
        {reckoned(move |view, all: Incidents| page(view, all, over))}
        {saying::over(over)}
    }
    .into_any()
}

fn page(view: AppView, all: Incidents, over: saying::Over) -> AnyView {
    let none = all.open.is_empty().then(|| said("soft", say::none().to_owned()));
    let open = all.open.into_iter().map(|row| incident(view, row, over)).collect_view();
    let seen = (!all.seen.is_empty()).then(|| {
        let rows = all.seen.into_iter().map(|row| incident(view, row, over)).collect_view();
        view! {
            <section>
                <h2>{today::seen_to()}</h2>
                <ul class="rows">{rows}</ul>
            </section>
        }
        .into_any()
    });
    view! {
        {none}
        <ul class="rows">{open}</ul>
        {seen}
    }
    .into_any()
}

fn incident(view: AppView, row: IncidentRow, over: saying::Over) -> AnyView {
    let kind = row.kind.map(|kind| match kind {
        Happened::NearMiss => say::near_miss(),
        Happened::Incident => say::incident(),
    });
    let aid = row.first_aid.map(|given| if given { say::aid_given() } else { say::aid_none() });
    let facts: Vec<String> =
        kind.into_iter().map(str::to_owned).chain(row.place.clone()).chain(aid.map(str::to_owned)).collect();
    let steps = vec![(Step::Remarked, say::remark()), (Step::Changed, say::changed()), (Step::SeenTo, say::seen_to())];
    let more = Saying { of: row.of, about: say::follow().to_owned(), hint: say::follow_hint(), steps };
    let follow = move |()| over.set(Some(more.clone()));
    view! {
        <li class="row">
            <p class="row-name">{row.note}</p>
            {(!facts.is_empty()).then(|| said("row-detail", facts.join(", ")))}
            <p class="row-detail">{say::told(&row.by, &when(view, row.at))}</p>
            <div class="thread">{saying::said(view, row.notes)}</div>
            <div class="looks">
                <QuietButton label=say::follow() on_press=follow />
            </div>
        </li>
    }
    .into_any()
}
