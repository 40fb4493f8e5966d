//! The phone itself: whom it signs for, how it looks, whether bells may show when it is locked, a new version.

use leptos::prelude::*;
use shared_core::time::MINUTE_MS;

use crate::intent::{Ui, use_dispatch};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::quiet_button::QuietButton;
use crate::route::Route;
use crate::shell::bell::Notices;
use crate::shell::keys::Keeping;
use crate::shell::prefs::Theme;
use crate::store::use_app_view;
use crate::words::en::{book as say, cautions, frame};

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
                Keeping::Sealed => say::KEY_SEALED,
                Keeping::Seed => say::KEY_SEED,
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
            <h2>{say::PHONE}</h2>
            <Update />
            <p>{whose} " " {key} " " {offset}</p>
            <p class="soft">{demo}</p>
            <Look />
            <MayShowNotices />
            <a class="plain-link" href=Route::Cautions.href()>
                {cautions::TITLE}
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
            Notices::Granted => Some(say::NOTICES_ON),
            Notices::None => Some(say::NOTICES_OFF),
        };
        let button = words.is_none().then(|| view! { <QuietButton label=say::NOTICES on_press=ask /> });
        Some(view! {
            {button}
            <p class="soft">{words} " " {say::NOTICES_WHY}</p>
        })
    })
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
                <Notice tone=Tone::Fact reason=say::UPDATE_WAITS next_step=say::UPDATE_NEXT />
                {(!inside.get()).then(|| view! { <QuietButton label=say::UPDATE on_press=update /> })}
            }
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
    };
    let looks = [(Theme::Phone, say::THEME_PHONE), (Theme::Dark, say::THEME_DARK), (Theme::Light, say::THEME_LIGHT)];
    view! {
        <div class="looks" role="group" aria-label=say::THEME>
            {looks.map(choice).into_iter().collect_view()}
        </div>
    }
}
