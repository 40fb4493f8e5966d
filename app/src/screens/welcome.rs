//! The first three pages, once: what the app keeps time of, who looks after whom, how it gets onto the home screen.
//!
//! Skipped by one touch, and never shown again; the way to the home screen stays in Book. Explains, and asks for nothing that works without it.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::time::Span;

use super::rule::marks;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::parts::steel_rule::{Marks, SteelRule};
use crate::shell::install::{self, Way};
use crate::store::use_app_view;
use crate::words::welcome as say;

/// How many pages there are.
const PAGES: usize = 3;

/// The pages.
pub fn pages() -> AnyView {
    let dispatch = use_dispatch();
    let page = RwSignal::new(0);
    let done = Callback::new(move |()| dispatch.ui(Ui::Welcomed));
    let next = move |()| if page.get_untracked() + 1 == PAGES { done.run(()) } else { page.update(|page| *page += 1) };
    let title = Signal::derive(move || title_of(page.get()).to_owned());
    let act = Signal::derive(move || if page.get() + 1 == PAGES { say::begin() } else { say::next() }.to_owned());
    view! {
        <Sheet title close_label=say::skip() on_close=done>
            <div class="sheet-body welcome" {..custom_attribute("tabindex", "0")}>
                {live(move || match page.get() {
                    0 => time(),
                    1 => each_other(),
                    _ => home_screen("lead"),
                })}
            </div>
            <div class="acts">
                <BigButton label=act on_press=next />
            </div>
        </Sheet>
    }
    .into_any()
}

fn title_of(page: usize) -> &'static str {
    match page {
        0 => say::title_time(),
        1 => say::title_each_other(),
        _ => say::title_home_screen(),
    }
}

fn lines(lines: &[&'static str]) -> AnyView {
    lines.iter().map(|line| view! { <p class="lead">{*line}</p> }.into_any()).collect_view().into_any()
}

/// An evening as it will look.
fn time() -> AnyView {
    let view = use_app_view();
    let now = view.now.get_untracked();
    let (from, out_by) = (now - Span::from_minutes(40), now + Span::from_minutes(80));
    let spark = out_by - Span::from_minutes(50);
    let before = |minutes: i64| Some(out_by - Span::from_minutes(minutes));
    let marks = Marks {
        sweep_from: before(20),
        first_bell: before(30),
        last_spark: Some(spark),
        watch: Some((spark, spark + Span::from_minutes(30))),
        ..marks(view, from, out_by, None)
    };
    view! {
        {lines(&[say::time(), say::rule()])}
        <SteelRule marks=Signal::derive(move || marks.clone()) now=Signal::stored(now) />
    }
    .into_any()
}

fn each_other() -> AnyView {
    lines(&[say::buddy(), say::unwatched(), say::caution()])
}

/// How the app gets onto the home screen, in this browser's own way.
pub fn home_screen(class: &'static str) -> AnyView {
    let way = install::way();
    let how = match way {
        Way::There => say::is_there(),
        Way::Asks => say::browser_asks(),
        Way::ShareSheet => say::by_share_sheet(),
        Way::Menu => say::by_menu(),
        Way::Computer => say::on_computer(),
    };
    view! {
        <p class=class>{say::why_home_screen()} " " {how}</p>
        {(way == Way::Asks).then(|| view! { <QuietButton label=say::install() on_press=|()| install::ask() /> }.into_any())}
    }
    .into_any()
}
