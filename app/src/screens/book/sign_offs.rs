//! What I may run: each training with its machines, until when, and what comes next; and who signs others off on it.

use leptos::prelude::*;
use shared_core::view::people::{Holds, PersonView, TrainingRow};

use super::day::shop_day;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::route::Page;
use crate::screens::scan::scanner;
use crate::store::{AppView, use_app_view};
use crate::words::standing as say;

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let mine = kept(move || view.extra.with(|extra| extra.seen().and_then(|seen: &Option<PersonView>| seen.clone())));
    let scanning = RwSignal::new(false);
    view! {
        {live(move || mine.get().map(|mine| rows(view, mine)))}
        <section>
            <p class="soft">{say::shown_how()}</p>
            <QuietButton label=say::scan() on_press=move |()| scanning.set(true) />
        </section>
        {scanner(scanning)}
    }
    .into_any()
}

fn rows(view: AppView, mine: PersonView) -> AnyView {
    let is_good = |row: &TrainingRow| matches!(row.holds, Holds::Until(_) | Holds::UseBefore(..));
    let (may, next): (Vec<_>, Vec<_>) = mine.trainings.into_iter().partition(is_good);
    let walk = !matches!(mine.induction, Holds::Until(_));
    let drawn = move |row: TrainingRow| training(view, &row);
    view! {
        <section>
            <h2>{say::induction()}</h2>
            <p>{holds(view, mine.induction)}</p>
            {walk
                .then(|| {
                    view! {
                        <a class="plain-link" href=Page::Walk.href()>
                            {say::to_walk()}
                        </a>
                    }
                        .into_any()
                })}
        </section>
        <section>
            <h2>{say::may()}</h2>
            {may.is_empty().then(|| view! { <p class="soft">{say::may_none()}</p> }.into_any())}
            <ul class="rows">{may.into_iter().map(drawn).collect_view()}</ul>
        </section>
        <section>
            <h2>{say::next()}</h2>
            {next.is_empty().then(|| view! { <p class="soft">{say::next_none()}</p> }.into_any())}
            <ul class="rows">{next.into_iter().map(drawn).collect_view()}</ul>
        </section>
    }
    .into_any()
}

fn training(view: AppView, row: &TrainingRow) -> AnyView {
    let signers =
        if row.signers.is_empty() { say::no_signers().to_owned() } else { say::signers(&row.signers.join(", ")) };
    view! {
        <li class="row">
            <p class="row-name">
                <bdi>{row.machines.join(", ")}</bdi>
            </p>
            <p class="row-detail">
                <strong>{holds(view, row.holds)}</strong>
            </p>
            <p class="row-detail">{signers}</p>
        </li>
    }
    .into_any()
}

/// How it stands, in words.
pub fn holds(view: AppView, holds: Holds) -> String {
    let day = |at| shop_day(view, at);
    match holds {
        Holds::No => say::no().to_owned(),
        Holds::UseBefore(at, before) if before < at => say::use_before(&day(before), &day(at)),
        Holds::Until(at) | Holds::UseBefore(at, _) => say::until(&day(at)),
        Holds::Lapsed(at) => say::lapsed(&day(at)),
        Holds::Stale(days) => say::stale(i64::from(days)),
    }
}
