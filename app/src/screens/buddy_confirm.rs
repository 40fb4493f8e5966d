//! The sheet between two buddies, over whatever screen one is on: the operator's code, the buddy's confirmation, and
//! the code that the buddy's phone shows back.
//!
//! Nothing here says "covered": that is said by Bench, from the log. The buddy's word is theirs to give: what it
//! means and for how long stands above the act.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::code::answer::Kind;
use shared_core::ids::PersonId;
use shared_core::time::Instant;
use shared_core::view::buddy::Asked;
use shared_core::view::candidates::Candidate;

use super::buddy_pin::ByPin;
use super::notice_bar::NoticeBar;
use super::scan::Camera;
use super::time::{Minutes, minutes_until};
use super::why::{because, refused};
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::qr::Qr;
use crate::parts::sheet::Sheet;
use crate::store::{BuddySheet, Carriage, use_app_view};
use crate::words::{bench, buddy as say, chosen, frame, room};

/// The sheet.
pub fn sheet(sheet: BuddySheet) -> AnyView {
    match sheet {
        BuddySheet::Closed => ().into_any(),
        BuddySheet::Asking { code, until, to, pins, minutes } => {
            view! { <Asking code until to pins minutes /> }.into_any()
        }
        BuddySheet::Asked(asked) => view! { <Confirm asked /> }.into_any(),
        BuddySheet::Answered { code, to, .. } => view! { <Answered code to /> }.into_any(),
    }
}

/// The operator: show the code and scan what comes back, or hand the phone to a buddy who has none.
#[component]
fn Asking(
    code: String,
    until: Instant,
    to: Option<String>,
    pins: Vec<(PersonId, String)>,
    minutes: u32,
) -> impl IntoView {
    let by_pin = RwSignal::new(false);
    live(move || {
        if by_pin.get() {
            view! { <ByPin pins=pins.clone() minutes /> }.into_any()
        } else {
            let (code, to, some) = (code.clone(), to.clone(), !pins.is_empty());
            view! { <ByPhone code until to by_pin=some.then_some(by_pin) /> }.into_any()
        }
    })
}

/// The operator: show the code, then scan what comes back.
#[component]
fn ByPhone(code: String, until: Instant, to: Option<String>, by_pin: Option<RwSignal<bool>>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let scanning = RwSignal::new(false);
    let left = minutes_until(view, Signal::stored(until));
    let stale = kept(move || left.get() <= 0);
    let close = {
        let dispatch = dispatch.clone();
        move |()| dispatch.ui(Ui::CloseBuddy)
    };
    let found = Callback::new(move |text| dispatch.ui(Ui::Scanned(text)));
    let code = StoredValue::new(code);
    let no_phone = by_pin
        .map(|by_pin| view! { <QuietButton label=say::no_phone() on_press=move |()| by_pin.set(true) /> }.into_any());
    view! {
        <Sheet title=say::ask() close_label=frame::back() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                {live(move || {
                    if scanning.get() {
                        view! { <Camera on_text=found /> }.into_any()
                    } else if stale.get() {
                        view! { <Notice tone=Tone::Trouble reason=say::too_old() /> }.into_any()
                    } else {
                        view! {
                            <p>{say::ask_how()}</p>
                            <Qr text=code.get_value() label=say::ask_code() />
                            <p class="soft">
                                <Minutes at=Signal::stored(until) says=say::good_for />
                            </p>
                        }
                            .into_any()
                    }
                })}
                {match to {
                    Some(name) => view! { <p class="soft">{say::asked_too(&name)}</p> }.into_any(),
                    None => view! { <OthersHere /> }.into_any(),
                }}
                {no_phone}
            </div>
            <div class="acts">
                <BigButton
                    label=Signal::derive(move || {
                        if scanning.get() { say::show_code().to_owned() } else { say::scan_answer().to_owned() }
                    })
                    on_press=move |()| scanning.update(|on| *on = !*on)
                />
            </div>
        </Sheet>
    }
}

/// Who else is known to be in this room, and how old that is: their phone can be asked over the network as well. Who
/// cannot be a buddy now says why.
#[component]
fn OthersHere() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let rows = kept(move || view.room.with(|room| room.as_ref().map(|room| room.candidates.clone())));
    let ask = Callback::new(move |to| dispatch.ui(Ui::AskBuddy { machine: None, to: Some(to) }));
    live(move || {
        let rows = rows.get().filter(|rows| !rows.is_empty())?;
        Some(view! {
            <section>
                <h2>{say::could_be()}</h2>
                <ul class="rows">{rows.into_iter().map(|row| view! { <Could row ask /> }.into_any()).collect_view()}</ul>
            </section>
        }.into_any())
    })
}

#[component]
fn Could(row: Candidate, ask: Callback<PersonId>) -> impl IntoView {
    let Candidate { who, name, heard, refusal } = row;
    let act = refusal.is_none().then(|| {
        let spoken = bench::act_on(say::ask_phone(), &name);
        view! { <QuietButton label=say::ask_phone() spoken on_press=move |()| ask.run(who.clone()) /> }.into_any()
    });
    view! {
        <li class="row with-act">
            <div>
                <p class="row-name">{name}</p>
                {refusal.map(|refusal| view! { <p class="row-detail">{refusal.reason(chosen())}</p> {because(&refusal, false)} }.into_any())}
                <p class="row-detail">
                    <Minutes at=Signal::stored(heard) since=true says=room::heard />
                </p>
            </div>
            {act}
        </li>
    }
    .into_any()
}

/// The buddy: what is asked, what it means, and the act.
#[component]
fn Confirm(asked: Asked) -> impl IntoView {
    let dispatch = use_dispatch();
    let typed = RwSignal::new(String::new());
    let close = {
        let dispatch = dispatch.clone();
        move |()| dispatch.ui(Ui::CloseBuddy)
    };
    let answer = Callback::new(move |kind| dispatch.ui(Ui::AnswerBuddy { kind, board: typed.get_untracked() }));
    let board = (asked.board && asked.refusal.is_none()).then(|| {
        view! { <Field label=say::board() name="board-code" value=typed typed=Typed::Number hint=say::board_hint() /> }
            .into_any()
    });
    let body = match &asked.refusal {
        Some(refusal) => refused(refusal, false),
        None => view! {
            <p class="statement">{say::means(i64::from(asked.minutes))}</p>
            <p class="soft">{say::manners()}</p>
        }
        .into_any(),
    };
    let here = asked
        .refusal
        .is_none()
        .then(|| view! { <BigButton label=say::here() on_press=move |()| answer.run(Kind::Here) /> }.into_any());
    view! {
        <Sheet title=say::asks(&asked.name) close_label=frame::back() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                <p>{say::place(&asked.room, asked.machine.as_deref())}</p>
                {body}
                {board}
            </div>
            <div class="acts">
                <QuietButton label=say::leaving() on_press=move |()| answer.run(Kind::Leaving) />
                {here}
            </div>
        </Sheet>
    }
}

/// The buddy: the code to show back.
#[component]
fn Answered(code: String, to: String) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let close = Callback::new(move |()| dispatch.ui(Ui::CloseBuddy));
    let carried = kept(move || view.buddy.with(BuddySheet::carried));
    let network = move || match carried.get() {
        Carriage::Underway => say::carrying(),
        Carriage::Handed => say::carried(),
        Carriage::Failed => say::not_carried(),
    };
    view! {
        <Sheet title=say::show_back() close_label=frame::back() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <p>{say::show_back_how(&to)}</p>
                <Qr text=code label=say::answer_code() />
                <p class="soft" role="status">
                    {live(network)}
                </p>
            </div>
            <div class="acts">
                <BigButton label=say::done() on_press=close />
            </div>
        </Sheet>
    }
}
