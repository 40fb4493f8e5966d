//! Rounds: what is due, and every time that each was done, a table each with the clause that asks for it; for an inspector to
//! read and to take away on paper.

use leptos::prelude::*;
use shared_core::ids::PersonId;
use shared_core::round::{Often, Standing};
use shared_core::time::Instant;
use shared_core::view::kept::{RoundKept, RoundsKept};

use super::figures::{Row, foot, print, sheet_top, table};
use crate::parts::button::QuietButton;
use crate::parts::figures::{date, date_and_clock};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::screens::time::offset_minutes;
use crate::store::{AppView, use_app_view};
use crate::words::kept as say;

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let shown = kept(move || view.extra.with(|extra| extra.seen::<RoundsKept>().cloned()));
    let body = move || {
        let RoundsKept { rounds, names } = shown.get()?;
        let now = view.now.get_untracked();
        let top = sheet_top(view, date(now, offset_minutes(view, now)));
        let tables: Vec<AnyView> = rounds.iter().map(|kept| round(view, kept, &names)).collect();
        Some(view! { <div class="sheet-of-rounds">{top}{tables}{foot()}</div> }.into_any())
    };
    view! {
        <p class="soft">{say::how()}</p>
        <QuietButton label=say::print() on_press=move |()| print() />
        {live(body)}
    }
    .into_any()
}

fn round(view: AppView, kept: &RoundKept, names: &[(PersonId, String)]) -> AnyView {
    let RoundKept { row, every, done } = kept;
    let on = |at: Instant| date(at, offset_minutes(view, at));
    let (stands, late) = match row.standing {
        Standing::NeverDone => (say::nothing().to_owned(), true),
        Standing::Overdue { due } => (say::late(&on(due)), true),
        Standing::Due { due } | Standing::Done { due } => (say::due(&on(due)), false),
    };
    let source = row.source.as_deref().map_or_else(|| say::no_source().to_owned(), say::source);
    let name = |who: &PersonId| {
        let known = names.binary_search_by(|(id, _)| id.cmp(who)).ok();
        known.map_or_else(|| who.to_string(), |place| names[place].1.clone())
    };
    let rows = done
        .iter()
        .map(|said| Row::plain(date_and_clock(said.at, offset_minutes(view, said.at)), vec![name(&said.by)]));
    let rows: Vec<Row> = rows.collect();
    let history = (!rows.is_empty()).then(|| table(say::when(), &[say::when(), say::who()], rows));
    view! {
        <section class="round-kept">
            <h2>{row.text.clone()}</h2>
            <p>{say::every(&often(every.said()), &row.room)}</p>
            <p class:is-late=late>
                <strong>{stands}</strong>
            </p>
            <p class="soft">{source}</p>
            {history}
        </section>
    }
    .into_any()
}

fn often(every: Often) -> String {
    match every {
        Often::Days(count) => say::day(count),
        Often::Weeks(count) => say::week(count),
        Often::Months(count) => say::month(count),
        Often::Years(count) => say::year(count),
    }
}
