//! Figures: what a month was like, or all that is kept; printed, it is one sheet for the board of the society.
//!
//! Counted on this phone from the log that it holds, which is the whole one on a steward's; as files it is the hub's. What is
//! printed is what is seen, in small type, with the shop, the month and the cautions.

mod engraved;
mod sections;
mod table;

use leptos::prelude::*;
use shared_core::figures::{Figures, Reach};
use shared_core::time::{Instant, Span};
use shared_core::view::figures::FiguresShown;

use crate::intent::Wanted;
use crate::parts::button::QuietButton;
use crate::parts::figures::date;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::screens::time::offset_minutes;
use crate::screens::wants::wants;
use crate::store::{AppView, use_app_view};
use crate::words::{cautions, figures as say};

pub use self::table::{Row, table};

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let reach = RwSignal::new(Reach::default());
    wants(Box::new(move || Wanted::Figures(reach.get())));
    let shown = kept(move || view.extra.with(|extra| extra.seen::<FiguresShown>().cloned()));
    let body = move || {
        // What was picked before is not shown under the new name while that is reckoned.
        let shown = shown.get().filter(|shown| shown.reach == reach.get())?;
        let said = &shown.own;
        let head = head(view, said);
        Some(view! { <div class="sheet-of-figures">{head}{sections::all(said, &shown)}{foot()}</div> }.into_any())
    };
    view! {
        {reaches(reach)}
        <QuietButton label=say::sheet() on_press=move |()| print() />
        {live(body)}
        {files()}
    }
    .into_any()
}

/// Which stretch; one of them always is.
fn reaches(picked: RwSignal<Reach>) -> AnyView {
    let one = move |reach: Reach| {
        let name = match reach {
            Reach::ThisMonth => say::this_month(),
            Reach::LastMonth => say::last_month(),
            Reach::All => say::all(),
        };
        view! {
            <button
                type="button"
                class="quiet-button"
                aria-pressed=move || if picked.get() == reach { "true" } else { "false" }
                on:click=move |_| picked.set(reach)
            >
                {name}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="looks" role="group" aria-label=say::of()>
            {Reach::ALL.map(one).into_iter().collect_view()}
        </div>
    }
    .into_any()
}

fn head(view: AppView, said: &Figures) -> AnyView {
    let on = |at: Instant| date(at, offset_minutes(view, at));
    // The last day that is counted, not the one after it.
    let last = (said.stretch.to - Span::from_ms(1)).max(said.stretch.from);
    sheet_top(view, say::from_to(&on(said.stretch.from), &on(last)))
}

/// What stands at the head of a sheet: whose it is, of when, and from what it was counted.
pub fn sheet_top(view: AppView, dates: String) -> AnyView {
    let (shop, demo) = view
        .shop
        .with_untracked(|shop| shop.as_ref().map_or((String::new(), false), |shop| (shop.name.clone(), shop.demo)));
    view! {
        <header class="sheet-top">
            <p class="sheet-shop">{shop}</p>
            <p class="sheet-dates">{dates}</p>
            {demo.then(|| view! { <p class="demo-mark">{say::demo()}</p> }.into_any())}
            <p class="soft">{say::counted()}</p>
        </header>
    }
    .into_any()
}

/// What stands at the foot of a sheet.
pub fn foot() -> AnyView {
    view! { <p class="sheet-cautions">{cautions::lines().join(" ")}</p> }.into_any()
}

/// Prints what is there.
pub fn print() {
    // A browser that cannot print does nothing.
    let _ = window().print();
}

/// The log as files, from the hub.
fn files() -> AnyView {
    let tables: [(&str, &str); 7] = [
        ("sessions.csv", say::table_sessions()),
        ("uses.csv", say::table_uses()),
        ("chores.csv", say::table_chores()),
        ("rounds.csv", say::table_rounds()),
        ("finds.csv", say::table_finds()),
        ("tags.csv", say::table_tags()),
        ("incidents.csv", say::table_incidents()),
    ];
    let mut links = Vec::new();
    for (file, name) in tables {
        links.push(link(file, say::file_table(name)));
    }
    links.push(link("log.jsonl", say::file_log().to_owned()));
    links.push(link("calendar.ics", say::file_calendar().to_owned()));
    view! {
        <section class="files">
            <h2>{say::files()}</h2>
            <p class="soft">{say::files_how()}</p>
            {links}
        </section>
    }
    .into_any()
}

fn link(file: &'static str, name: String) -> AnyView {
    view! {
        <a class="plain-link" href=["/api/export/", file].concat() download=file>
            {name}
        </a>
    }
    .into_any()
}
