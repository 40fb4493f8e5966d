//! Print: the codes that hang in the shop, a card each with cut lines: where it hangs in plain words, what to do, the signs
//! that belong there, the emergency number and the cautions.
//!
//! Error correction level Q (a quarter of the code may be gone, ISO/IEC 18004), because walls get greasy; 46 mm wide, so that
//! a module of an address of 60 letters is a millimetre and reads from half a metre. Black on white in every theme.

use leptos::prelude::*;
use shared_core::view::posted::{Kind, Posted};

use super::figures::print;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::qr;
use crate::parts::sign::{SafetySign, Sign};
use crate::store::{AppView, use_app_view};
use crate::words::{count, posted as say};

/// More signs than these are no sign any more.
const SIGNS_MOST: usize = 3;

/// Which cards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    Doors,
    Machines,
    Stops,
    Rounds,
}

impl Which {
    const ALL: [Self; 4] = [Self::Doors, Self::Machines, Self::Stops, Self::Rounds];

    fn has(self, kind: Kind) -> bool {
        match kind {
            Kind::Door => self == Self::Doors,
            Kind::Machine => self == Self::Machines,
            Kind::Stop(..) => self == Self::Stops,
            Kind::Round => self == Self::Rounds,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Doors => say::doors(),
            Self::Machines => say::machines(),
            Self::Stops => say::stops(),
            Self::Rounds => say::rounds(),
        }
    }
}

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let which = RwSignal::new(Which::Doors);
    let all = kept(move || view.extra.with(|extra| extra.seen::<Vec<Posted>>().cloned()).unwrap_or_default());
    let cards = kept(move || {
        let which = which.get();
        all.get().into_iter().filter(|card| which.has(card.kind)).collect::<Vec<_>>()
    });
    let origin = window().location().origin().unwrap_or_default();
    let leads = say::leads(&origin);
    let label = Signal::derive(move || say::print(cards.with(|cards| count(cards.len()))));
    view! {
        <p class="soft">{say::how()}</p>
        <p class="soft">{leads}</p>
        {choice(which)}
        <QuietButton label on_press=move |()| print() />
        {live(move || {
            let cards = cards.get();
            let drawn: Vec<AnyView> = cards.into_iter().map(|posted| card(view, &origin, posted)).collect();
            if drawn.is_empty() {
                return Some(view! { <p>{say::none()}</p> }.into_any());
            }
            Some(view! { <ul class="posted">{drawn}</ul> }.into_any())
        })}
    }
    .into_any()
}

fn choice(picked: RwSignal<Which>) -> AnyView {
    let one = move |which: Which| {
        view! {
            <button
                type="button"
                class="quiet-button"
                aria-pressed=move || if picked.get() == which { "true" } else { "false" }
                on:click=move |_| picked.set(which)
            >
                {which.name()}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="looks" role="group" aria-label=say::which()>
            {Which::ALL.map(one).into_iter().collect_view()}
        </div>
    }
    .into_any()
}

fn card(view: AppView, origin: &str, posted: Posted) -> AnyView {
    let Posted { kind, room, name, text, signs, hot_work, path } = posted;
    let (name, act) = match kind {
        Kind::Door => (name, say::door_act()),
        Kind::Machine => (name, say::machine_act()),
        Kind::Stop(number, of) => (say::stop_name(i64::from(number), i64::from(of), &room), say::stop_act()),
        Kind::Round => (room.clone(), say::round_act()),
    };
    let at = matches!(kind, Kind::Machine).then_some(room);
    let url = [origin, &path].concat();
    let (shop, emergency) = view.shop.with_untracked(|shop| {
        shop.as_ref().map_or((String::new(), None), |shop| (shop.name.clone(), shop.emergency.clone()))
    });
    let danger = emergency.map_or_else(|| say::no_number().to_owned(), |number| say::emergency(&number));
    let code = qr::printed(&url, &say::code(&name)).unwrap_or_default();
    view! {
        <li class="posted-card">
            <p class="posted-shop">{shop}</p>
            <p class="posted-name">{name}</p>
            {at.map(|room| view! { <p class="posted-room">{room}</p> }.into_any())}
            {(!text.is_empty()).then(|| view! { <p class="posted-text">{text}</p> }.into_any())}
            <div class="posted-middle">
                <div class="posted-code" inner_html=code></div>
                <div class="posted-signs">{drawn_signs(&signs.0, &signs.1, hot_work)}</div>
            </div>
            <p class="posted-act">{act}</p>
            <p class="posted-address">{url}</p>
            <p class="posted-danger">{danger}</p>
            <p class="posted-caution">{say::caution()}</p>
        </li>
    }
    .into_any()
}

fn drawn_signs(must: &[String], never: &[String], hot_work: bool) -> Vec<AnyView> {
    let mut signs: Vec<Sign> = Vec::new();
    let warned = hot_work.then_some(Sign::Warning);
    let must = must.iter().map(|word| Sign::statement(word));
    for sign in warned.into_iter().chain(never.iter().map(|word| Sign::never(word))).chain(must) {
        if !matches!(sign, Sign::Must | Sign::Never) && !signs.contains(&sign) && signs.len() < SIGNS_MOST {
            signs.push(sign);
        }
    }
    signs.into_iter().map(|sign| view! { <SafetySign sign /> }.into_any()).collect()
}
