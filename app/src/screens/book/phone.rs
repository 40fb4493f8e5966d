//! The phone itself: whom it signs for, how it looks, whether bells may show when it is locked, a new version.

use leptos::prelude::*;
use shared_core::time::MINUTE_MS;

use super::card::Card;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::field::{Field, Typed};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::route::Route;
use crate::screens::pocket;
use crate::screens::welcome::home_screen;
use crate::shell::bell::Notices;
use crate::shell::keys::Keeping;
use crate::shell::prefs::Theme;
use crate::store::use_app_view;
use crate::words::{book as say, cautions, chosen, frame};

/// The phone.
#[component]
pub fn Phone() -> impl IntoView {
    let view = use_app_view();
    let whose = move || view.shop.with(|shop| shop.as_ref().map(|shop| say::signs_for(&shop.my_name, &shop.name)));
    let demo =
        move || view.shop.with(|shop| shop.as_ref().filter(|shop| shop.demo).map(|shop| frame::demo(&shop.name)));
    let key = move || {
        view.sync.with(|sync| {
            sync.keeping.map(|keeping| match keeping {
                Keeping::Sealed => say::key_sealed(),
                Keeping::Seed => say::key_seed(),
            })
        })
    };
    let offset = move || {
        let offset = view.sync.with(|sync| sync.clock_offset);
        // Whole minutes: what the way to the hub takes is no fault of a clock.
        offset.map(|offset| offset.ms().abs() / MINUTE_MS).filter(|minutes| *minutes > 0).map(say::clock_offset)
    };
    view! {
        <section class="phone">
            <h2>{say::phone()}</h2>
            <Update />
            <p>{whose} " " {key} " " {offset}</p>
            <p class="soft">{demo}</p>
            <Card />
            <Look />
            <Speech />
            <MayShowNotices />
            {pocket::line(pocket::Offer::End)}
            <OwnFigures />
            {home_screen("soft")}
            <a class="plain-link" href=Route::Cautions.href()>
                {cautions::title()}
            </a>
        </section>
    }
}

/// Asked once: afterwards the phone's own settings decide.
#[component]
fn MayShowNotices() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let notices = kept(move || view.sync.with(|sync| sync.notices));
    let ask = Callback::new(move |()| dispatch.ui(Ui::AllowNotices));
    live(move || {
        let words = match notices.get()? {
            Notices::Unasked => None,
            Notices::Granted => Some(say::notices_on()),
            Notices::None => Some(say::notices_off()),
        };
        let button = words.is_none().then(|| view! { <QuietButton label=say::notices() on_press=ask /> }.into_any());
        Some(
            view! {
                {button}
                <p class="soft">{words} " " {say::notices_why()}</p>
            }
            .into_any(),
        )
    })
}

/// Figures of one's own, for when this phone is empty.
#[component]
fn OwnFigures() -> impl IntoView {
    let dispatch = use_dispatch();
    let typed = RwSignal::new(String::new());
    let keep = move |()| {
        dispatch.ui(Ui::SetPin(typed.get_untracked()));
        typed.set(String::new());
    };
    view! {
        <Field label=say::pin() name="own-figures" value=typed typed=Typed::Hidden hint=say::pin_hint() />
        <QuietButton label=say::pin_act() on_press=keep />
    }
}

#[component]
fn Update() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let waits = kept(move || view.sync.with(|sync| sync.update_waits));
    let inside = kept(move || view.bench.with(Option::is_some));
    let update = Callback::new(move |()| dispatch.ui(Ui::Update));
    live(move || {
        waits.get().then(|| {
            view! {
                <Notice tone=Tone::Fact reason=say::update_waits() next_step=say::update_next() />
                {(!inside.get()).then(|| view! { <QuietButton label=say::update() on_press=update /> }.into_any())}
            }
            .into_any()
        })
    })
}

#[component]
fn Look() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let choice = move |(theme, label): (Theme, &'static str)| {
        let dispatch = dispatch.clone();
        view! {
            <button
                type="button"
                class="quiet-button"
                aria-pressed=move || if view.theme.get() == theme { "true" } else { "false" }
                on:click=move |_| dispatch.ui(Ui::Wear(theme))
            >
                {label}
            </button>
        }
        .into_any()
    };
    let looks =
        [(Theme::Phone, say::theme_phone()), (Theme::Dark, say::theme_dark()), (Theme::Light, say::theme_light())];
    view! {
        <div class="looks" role="group" aria-label=say::theme()>
            {looks.map(choice).into_iter().collect_view()}
        </div>
    }
}

/// The languages, each by its own name for itself. The page is loaded anew in the one that is pressed.
#[component]
fn Speech() -> impl IntoView {
    let dispatch = use_dispatch();
    let spoken = chosen().tag();
    let choice = move |(tag, name): (&'static str, &'static str)| {
        let dispatch = dispatch.clone();
        view! {
            <button
                type="button"
                class="quiet-button"
                lang=tag
                aria-pressed=if tag == spoken { "true" } else { "false" }
                on:click=move |_| dispatch.ui(Ui::Speak(tag))
            >
                {name}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="looks" role="group" aria-label=say::language()>
            {[("en", "English"), ("es", "Espa\u{f1}ol"), ("nl", "Nederlands")].map(choice).into_iter().collect_view()}
        </div>
    }
}
