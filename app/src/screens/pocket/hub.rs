//! One line that says whether the hub rings this phone in a pocket, and the touch that lets it.
//!
//! Says no more than is known: that it is rung, only while the hub says that it rings the very address that this browser
//! gave. An address that the hub does not know, because the browser changed it, is told again once.

use leptos::prelude::*;
use shared_core::sync::push::PushState;
use wasm_bindgen_futures::spawn_local;

use crate::intent::{Asked, Dispatch, Intent, Phone, Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::live::{live, whenever};
use crate::shell::bell;
use crate::shell::push::{self, Push};
use crate::store::use_app_view;
use crate::words::pocket as say;

use super::trial::trial;

/// Where the hub is told: the answer has another shape than what is looked up.
const SET: &str = "/api/push?set";

/// What is offered beside the line once the hub rings this phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offer {
    /// Nothing.
    Nothing,
    /// A try.
    Trial,
    /// The way back.
    End,
}

/// The line.
pub fn line(offer: Offer) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let (stands, hub) = (RwSignal::new(None::<Push>), RwSignal::new(None::<PushState>));
    dispatch.ui(Ui::Ask(Asked { path: Asked::PUSH, body: String::new() }));
    let (door, told) = (dispatch.clone(), StoredValue::new(false));
    whenever(move || {
        let said = view.answers.with(|answers| answers.iter().find(|(path, _)| *path == Asked::PUSH).cloned());
        let heard = said.and_then(|(_, answer)| serde_json::from_str::<PushState>(&answer.ok()?).ok());
        if heard.is_some() {
            hub.set(heard.clone());
        }
        let (known, door) = (heard.or_else(|| hub.get_untracked()), door.clone());
        spawn_local(async move {
            let found = push::state(known.as_ref().map_or("", |known| &known.key)).await;
            if let (Push::Armed(json), Some(known), Some(false)) = (&found, &known, told.try_get_value())
                && !is_told(json, known)
            {
                told.try_set_value(true);
                tell(&door, json);
            }
            stands.try_set(Some(found));
        });
    });
    let arm = arming(stands, hub);
    let door = use_dispatch();
    let end = Callback::new(move |()| {
        push::end();
        tell(&door, "null");
        stands.set(Some(Push::Unasked));
    });
    let trial = trial();
    live(move || {
        let hub = hub.get();
        let (words, act) = match stands.get()? {
            Push::Unsupported => (say::unsupported(), None),
            Push::HomeScreen => (say::home_screen(), None),
            Push::Refused => (say::refused(), None),
            Push::Unasked if hub.is_some() => (say::unasked(), Some((say::arm(), arm))),
            Push::Failed if hub.is_some() => (say::failed(), Some((say::arm(), arm))),
            Push::Armed(json) if hub.is_some_and(|hub| is_told(&json, &hub)) => {
                let act = match offer {
                    Offer::Nothing => None,
                    Offer::Trial => Some((say::try_hub(), trial)),
                    Offer::End => Some((say::end(), end)),
                };
                (say::armed(), act)
            }
            Push::Armed(_) | Push::Unasked | Push::Failed => (say::unreached(), None),
        };
        let button = act.map(|(label, act)| view! { <QuietButton label on_press=act /> }.into_any());
        Some(
            view! {
                <section class="pocket">
                    <p class="soft" role="status">
                        {words}
                    </p>
                    {button}
                </section>
            }
            .into_any(),
        )
    })
}

/// The touch that lets it.
fn arming(stands: RwSignal<Option<Push>>, hub: RwSignal<Option<PushState>>) -> Callback<()> {
    let dispatch = use_dispatch();
    Callback::new(move |()| {
        let Some(key) = hub.with_untracked(|hub| hub.as_ref().map(|hub| hub.key.clone())) else { return };
        let (asked, door) = (push::arm(&key), dispatch.clone());
        spawn_local(async move {
            let found = asked.await;
            if let Push::Armed(json) = &found {
                tell(&door, json);
            }
            // The page's own bells may show now as well, or may not.
            door.send(Intent::Phone(Phone::Notices(bell::notices())));
            stands.try_set(Some(found));
        });
    })
}

/// Whether the hub rings the very address that the browser gave.
fn is_told(json: &str, hub: &PushState) -> bool {
    let given: Option<serde_json::Value> = serde_json::from_str(json).ok();
    let endpoint = given.as_ref().and_then(|given| given["endpoint"].as_str());
    endpoint.is_some() && endpoint == hub.endpoint.as_deref()
}

fn tell(door: &Dispatch, json: &str) {
    door.ui(Ui::Ask(Asked { path: SET, body: ["{\"subscription\":", json, "}"].concat() }));
}
