//! Who may join, and with which phones: one's own; and for a steward, everybody's, with one-time codes.
//!
//! All of it is the hub's: it is asked for when somebody wants it, and shown as the hub answered. A code is on the screen
//! until Book is left, and nowhere after that.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::invite::{
    InviteAsked, InviteKind, InviteMade, InviteRevoked, OpenInvite, OpenInvites, PhoneRevoked, PhoneRow, Phones,
};

use crate::intent::{Asked, Dispatch, Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::qr::Qr;
use crate::screens::time::minutes_since;
use crate::shell::desk::extra::Book;
use crate::store::{AppView, use_app_view};
use crate::words::{self, book as say, time};

const TAKE_BACK: &str = "/api/invites/revoke";
const TAKE_OFF: &str = "/api/devices/revoke";
/// Where a code is made: the answer has another shape than the list of those that are open.
const MADE: &str = "/api/invites?made";

/// One's own phones, or the people of the shop.
#[component]
pub fn PhonesAndPeople() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let steward = kept(move || {
        view.shop.with(|shop| shop.as_ref().and_then(|shop| shop.card.as_ref()).is_some_and(|card| card.steward))
    });
    let look_up = Callback::new(move |()| {
        let paths: &[_] = if steward.get_untracked() { &[Asked::PHONES, Asked::INVITES] } else { &[Asked::PHONES] };
        for path in paths {
            dispatch.ui(Ui::Ask(Asked { path, body: String::new() }));
        }
    });
    live(move || {
        let (title, how, label) = if steward.get() {
            (say::people(), say::people_how(), say::people_look_up())
        } else {
            (say::phones(), say::phones_how(), say::look_up())
        };
        view! {
            <section>
                <h2>{title}</h2>
                <p class="soft">{how}</p>
                <QuietButton label on_press=look_up />
                {answered(view, MADE, made)}
                {steward.get().then(|| answered(view, Asked::INVITES, open))}
                {answered(view, Asked::PHONES, move |list: Phones| phones(&list, steward.get_untracked()))}
                {fault(view, TAKE_OFF)}
                {fault(view, TAKE_BACK)}
            </section>
        }
        .into_any()
    })
}

/// What the hub answered there: drawn, or why not; anew when that answer changes, and not for any other.
pub fn answered<T: DeserializeOwned>(
    view: AppView,
    path: &'static str,
    draw: impl Fn(T) -> AnyView + Send + 'static,
) -> AnyView {
    let answer = kept(move || {
        view.answers.with(|answers| answers.iter().find(|(asked, _)| *asked == path).map(|it| it.1.clone()))
    });
    live(move || match answer.get()? {
        Ok(text) => serde_json::from_str(&text).ok().map(&draw),
        Err(fault) => {
            let (reason, next_step) = words::faults::link(&fault);
            Some(view! { <Notice tone=Tone::Trouble reason next_step /> }.into_any())
        }
    })
    .into_any()
}

/// What the hub would not do there.
fn fault(view: AppView, path: &'static str) -> AnyView {
    answered(view, path, |_: serde_json::Value| ().into_any())
}

fn ask(dispatch: &Dispatch, path: &'static str, body: &impl Serialize) {
    let body = serde_json::to_string(body).unwrap_or_default();
    dispatch.ui(Ui::Ask(Asked { path, body }));
}

fn named(who: &PersonId) -> String {
    let view = use_app_view();
    let name = view.extra.with_untracked(|extra| {
        let people = extra.seen().map(|book: &Book| book.people.clone()).unwrap_or_default();
        people.into_iter().find(|(id, _)| id == who).map(|(_, name)| name)
    });
    name.unwrap_or_else(|| who.to_string())
}

/// A code that was made just now: to be scanned, and to be typed.
fn made(made: InviteMade) -> AnyView {
    view! {
        <section>
            <p>{say::made(&named(&made.member))}</p>
            <Qr text=made.url label=say::made(&named(&made.member)) />
            <p class="typed-code">{made.code}</p>
        </section>
    }
    .into_any()
}

fn open(list: OpenInvites) -> AnyView {
    let row = |OpenInvite { id, member, .. }: OpenInvite| {
        let dispatch = use_dispatch();
        let take_back = move |()| ask(&dispatch, TAKE_BACK, &InviteRevoked { id });
        view! {
            <li class="row">
                <p class="row-name">{say::open_code(&named(&member))}</p>
                <div class="looks">
                    <QuietButton label=say::take_back() on_press=take_back />
                </div>
            </li>
        }
        .into_any()
    };
    view! { <ul class="rows">{list.invites.into_iter().map(row).collect_view()}</ul> }.into_any()
}

fn phones(list: &Phones, steward: bool) -> AnyView {
    let view = use_app_view();
    let own = view.extra.with_untracked(|extra| extra.seen().map(|book: &Book| book.dev.clone()).unwrap_or_default());
    let people =
        view.extra.with_untracked(|extra| extra.seen().map(|book: &Book| book.people.clone()).unwrap_or_default());
    let has_phone = |who: &PersonId| list.devices.iter().any(|phone| phone.member == *who && phone.revoked.is_none());
    let first = move |(member, name): (PersonId, String)| {
        let kind = if has_phone(&member) { InviteKind::Another } else { InviteKind::First };
        invite_button(say::invite(&name), member, kind, None)
    };
    let invites = steward.then(|| people.into_iter().map(first).collect_view().into_any());
    let rows = list.devices.iter().cloned().map(|phone| row(phone, &own, steward)).collect_view();
    view! {
        <ul class="rows">{rows}</ul>
        {invites}
    }
    .into_any()
}

fn invite_button(label: String, member: PersonId, kind: InviteKind, replaces: Option<DeviceId>) -> AnyView {
    let dispatch = use_dispatch();
    let make = move |()| {
        let (member, replaces) = (member.clone(), replaces.clone());
        ask(&dispatch, MADE, &InviteAsked { member, kind, replaces, hours: None });
    };
    view! { <QuietButton label on_press=make /> }.into_any()
}

fn row(phone: PhoneRow, own: &DeviceId, steward: bool) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let PhoneRow { dev, member, joined, revoked, .. } = phone;
    let (name, is_own) = (named(&member), dev == *own);
    let since = minutes_since(view, Signal::stored(joined));
    let words = move || say::a_phone(&time::ago(since.get()), &name);
    let state = if revoked.is_some() {
        say::off()
    } else if is_own {
        say::this_one()
    } else {
        ""
    };
    let acts = (revoked.is_none() && !is_own).then(|| {
        let off = dev.clone();
        // There is no way back for its key, so that one touch is not enough.
        let sure = RwSignal::new(false);
        let take_off = move |()| {
            if sure.get_untracked() {
                ask(&dispatch, TAKE_OFF, &PhoneRevoked { dev: off.clone() });
            }
            sure.set(true);
        };
        let label = Signal::derive(move || if sure.get() { say::take_off_sure() } else { say::take_off() }.to_owned());
        let replace =
            steward.then(|| invite_button(say::replace().to_owned(), member, InviteKind::Replaces, Some(dev)));
        view! {
            <div class="looks">
                <QuietButton label on_press=take_off />
                {replace}
            </div>
        }
        .into_any()
    });
    view! {
        <li class="row">
            <p class="row-name">{words}</p>
            <p class="row-detail">
                <strong>{state}</strong>
            </p>
            {acts}
        </li>
    }
    .into_any()
}
