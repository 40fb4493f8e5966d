//! Phones: one's own in Book; and for a steward, in People, those of whoever is looked at, with one-time codes for them, what a phone
//! handed in late, and hanging one up as a board.
//!
//! All of it is the hub's: it is asked for when somebody wants it, and shown as the hub answered. A code is on the screen
//! until Book is left, and nowhere after that.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use shared_core::ids::{DeviceId, PersonId, RoomId};
use shared_core::sync::invite::{
    InviteAsked, InviteKind, InviteMade, InviteRevoked, LateAdmit, LateAdmitted, OpenInvite, OpenInvites, PhoneRevoked,
    PhoneRow, Phones,
};
use shared_core::sync::shop::Hung;

use crate::intent::{Asked, Dispatch, Ui, use_dispatch};
use crate::parts::button::{QuietButton, Strength};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::qr::Qr;
use crate::screens::time::minutes_since;
use crate::shell::desk::extra::{Book, People};
use crate::store::{AppView, use_app_view};
use crate::words::{self, book as say, time};

const TAKE_BACK: &str = "/api/invites/revoke";
const ADMIT: &str = "/api/devices/admit";
const HANG: &str = "/api/boards";
const TAKE_OFF: &str = "/api/devices/revoke";
/// Where a code is made: the answer has another shape than the list of those that are open.
const MADE: &str = "/api/invites?made";

/// One's own phones.
#[component]
pub fn OwnPhones() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let me = kept(move || view.shop.with(|shop| shop.as_ref().map(|shop| shop.me.clone())));
    let look_up = move |()| dispatch.ui(Ui::Ask(Asked { path: Asked::PHONES, body: String::new() }));
    view! {
        <section>
            <h2>{say::phones()}</h2>
            <p class="soft">{say::phones_how()}</p>
            <QuietButton label=say::look_up() on_press=look_up />
            {answered(view, Asked::PHONES, move |list: Phones| rows(list, me.get_untracked().as_ref(), false))}
            {fault(view, TAKE_OFF)}
        </section>
    }
}

/// The phones of somebody, to a steward.
pub fn phones_of(who: PersonId, name: String) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let look_up = move |()| {
        for path in [Asked::PHONES, Asked::INVITES] {
            dispatch.ui(Ui::Ask(Asked { path, body: String::new() }));
        }
    };
    let (of_open, of_made) = (who.clone(), who.clone());
    let drawn = move |list: Phones| {
        let has_phone = list.devices.iter().any(|phone| phone.member == who && phone.revoked.is_none());
        let kind = if has_phone { InviteKind::Another } else { InviteKind::First };
        view! {
            {rows(list, Some(&who), true)}
            {invite_button(say::invite(&name), who.clone(), kind, None)}
        }
        .into_any()
    };
    view! {
        <section>
            <h2>{say::phones()}</h2>
            <p class="soft">{say::people_how()}</p>
            <QuietButton label=say::people_look_up() on_press=look_up />
            {answered(
                view,
                MADE,
                move |code: InviteMade| if code.member == of_made { made(code) } else { ().into_any() },
            )}
            {answered(view, Asked::INVITES, move |list: OpenInvites| open(list, &of_open))}
            {answered(view, Asked::PHONES, drawn)}
            {answered(view, ADMIT, admitted)}
            {[TAKE_OFF, TAKE_BACK, HANG].map(|path| fault(view, path)).into_iter().collect_view()}
        </section>
    }
    .into_any()
}

fn admitted(LateAdmitted { taken, .. }: LateAdmitted) -> AnyView {
    view! { <Notice tone=Tone::Fact reason=say::admitted(i64::from(taken)) /> }.into_any()
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
pub fn fault(view: AppView, path: &'static str) -> AnyView {
    answered(view, path, |_: serde_json::Value| ().into_any())
}

/// Asks the hub to do something.
pub fn ask(dispatch: &Dispatch, path: &'static str, body: &impl Serialize) {
    let body = serde_json::to_string(body).unwrap_or_default();
    dispatch.ui(Ui::Ask(Asked { path, body }));
}

fn named(who: &PersonId) -> String {
    let view = use_app_view();
    let name = view.extra.with_untracked(|extra| {
        let of_book = extra.seen().map(|book: &Book| &book.people);
        let people = of_book.or_else(|| extra.seen().map(|seen: &People| &seen.names))?;
        people.iter().find(|(id, _)| id == who).map(|(_, name)| name.clone())
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

fn open(list: OpenInvites, of: &PersonId) -> AnyView {
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
    view! { <ul class="rows">{list.invites.into_iter().filter(|open| open.member == *of).map(row).collect_view()}</ul> }
        .into_any()
}

/// Those of one person.
fn rows(list: Phones, of: Option<&PersonId>, steward: bool) -> AnyView {
    let view = use_app_view();
    let own = view.extra.with_untracked(|extra| {
        let of_book = extra.seen().map(|book: &Book| book.dev.clone());
        of_book.or_else(|| extra.seen().map(|seen: &People| seen.dev.clone())).unwrap_or_default()
    });
    let theirs = list.devices.into_iter().filter(|phone| Some(&phone.member) == of);
    view! { <ul class="rows">{theirs.map(|phone| row(phone, &own, steward)).collect_view()}</ul> }.into_any()
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
    let PhoneRow { dev, member, joined, revoked, late } = phone;
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
    let board = (steward && revoked.is_none()).then(|| hang(dev.clone()));
    let waits = (steward && late > 0).then(|| late_lines(dev.clone(), late));
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
            {waits}
            {board}
        </li>
    }
    .into_any()
}

/// Lines that a phone handed in after it was taken off: they count once a steward says whose they are.
fn late_lines(dev: DeviceId, late: u32) -> AnyView {
    let dispatch = use_dispatch();
    view! {
        <p>{say::late(i64::from(late))}</p>
        <QuietButton label=say::admit() on_press=move |()| ask(&dispatch, ADMIT, &LateAdmit { dev: dev.clone() }) />
    }
    .into_any()
}

/// Hanging a device up as the board of a room, which few phones are: asked for first.
fn hang(dev: DeviceId) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let open = RwSignal::new(false);
    let rooms = move || {
        let known = view.room.with_untracked(|room| {
            let rooms = room.iter().flat_map(|room| &room.rooms);
            rooms.map(|room| (Some(room.id.clone()), say::hang_in(&room.name))).collect::<Vec<_>>()
        });
        let (dev, dispatch) = (dev.clone(), dispatch.clone());
        let one = move |(room, label): (Option<RoomId>, String)| {
            let (dev, dispatch) = (dev.clone(), dispatch.clone());
            let hang = move |()| {
                ask(&dispatch, HANG, &Hung { dev: dev.clone(), room: room.clone() });
                open.set(false);
            };
            view! { <QuietButton label on_press=hang /> }.into_any()
        };
        let nowhere = (None, say::hang_nowhere().to_owned());
        view! { <div class="looks">{known.into_iter().chain([nowhere]).map(one).collect_view()}</div> }.into_any()
    };
    view! {
        <QuietButton label=say::hang() strength=Strength::Faint on_press=move |()| open.update(|open| *open = !*open) />
        {live(move || open.get().then(&rooms))}
    }
    .into_any()
}
