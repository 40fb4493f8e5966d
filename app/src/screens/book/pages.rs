//! The pages of Book: the ways to them, and the frame of each.
//!
//! Which page is whose is [`Page::is_stewards`]'s to say; what a page may do is the rules', and the hub's.

use leptos::prelude::*;

use super::{
    figures, finds, incidents, kept as kept_rounds, people, posted, repairs, rules, sign_offs, sync, today, walk,
};
use crate::intent::Wanted;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::live;
use crate::route::{Page, Route};
use crate::screens::wants::wants;
use crate::store::{AppView, use_app_view};
use crate::words::book as say;

/// The ways to the pages that this member has.
#[component]
pub fn Pages() -> impl IntoView {
    let steward = is_steward(use_app_view());
    live(move || {
        let pages = Page::ALL.into_iter().filter(|page| steward.get() || !page.is_stewards());
        let ways: Vec<AnyView> = pages.map(|page| way(page).into_any()).collect();
        (!ways.is_empty()).then(|| view! { <nav class="pages" aria-label=say::pages()>{ways}</nav> }.into_any())
    })
}

fn way(page: Page) -> impl IntoView {
    view! {
        <a class="page-way" href=page.href()>
            <strong>{title(page)}</strong>
            <span class="soft">{hint(page)}</span>
        </a>
    }
}

/// One page.
pub fn page(page: Page) -> AnyView {
    let steward = is_steward(use_app_view());
    // What is typed or picked there is asked for with it.
    if !matches!(page, Page::People | Page::Figures) {
        wants(Box::new(move || Wanted::Page(page)));
    }
    let body = move || {
        if steward.get() || !page.is_stewards() {
            drawn(page)
        } else {
            view! { <p>{say::stewards_page()}</p> }.into_any()
        }
    };
    view! {
        <main class="screen is-plain">
            <div class="screen-body">
                <a class="plain-link" href=Route::Book.href()>
                    {say::back_to_book()}
                </a>
                <h1>{title(page)}</h1>
                {page.is_reckoned().then(sync::not_all)}
                {live(move || Some(body()))}
            </div>
        </main>
    }
    .into_any()
}

fn drawn(page: Page) -> AnyView {
    match page {
        Page::Today => today::drawn(),
        Page::Walk => walk::drawn(),
        Page::SignOffs => sign_offs::drawn(),
        Page::People => people::drawn(),
        Page::Rules => rules::drawn(),
        Page::Rounds => kept_rounds::drawn(),
        Page::Figures => figures::drawn(),
        Page::Print => posted::drawn(),
        Page::Repairs => repairs::drawn(),
        Page::Finds => finds::drawn(),
        Page::Incidents => incidents::drawn(),
    }
}

fn title(page: Page) -> &'static str {
    match page {
        Page::Today => say::page_today(),
        Page::Walk => say::page_walk(),
        Page::SignOffs => say::page_sign_offs(),
        Page::People => say::page_people(),
        Page::Rules => say::page_rules(),
        Page::Rounds => say::page_rounds(),
        Page::Figures => say::page_figures(),
        Page::Print => say::page_print(),
        Page::Repairs => say::page_repairs(),
        Page::Finds => say::page_finds(),
        Page::Incidents => say::page_incidents(),
    }
}

fn hint(page: Page) -> &'static str {
    match page {
        Page::Today => say::page_today_hint(),
        Page::Walk => say::page_walk_hint(),
        Page::SignOffs => say::page_sign_offs_hint(),
        Page::People => say::page_people_hint(),
        Page::Rules => say::page_rules_hint(),
        Page::Rounds => say::page_rounds_hint(),
        Page::Figures => say::page_figures_hint(),
        Page::Print => say::page_print_hint(),
        Page::Repairs => say::page_repairs_hint(),
        Page::Finds => say::page_finds_hint(),
        Page::Incidents => say::page_incidents_hint(),
    }
}

/// Whether this phone's member looks after the shop.
pub fn is_steward(view: AppView) -> Kept<bool> {
    kept(move || {
        view.shop.with(|shop| shop.as_ref().and_then(|shop| shop.card.as_ref()).is_some_and(|card| card.steward))
    })
}
