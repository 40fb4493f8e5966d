//! The rulebook desk: the text, what is wrong with it as it is typed, what it changes, an evening under it, and publishing.
//!
//! Everything is the hub's word, by the code of the shop's own command; nothing is in force before it is published, and what
//! was typed is on this screen alone until then. English stands where the hub speaks of the file's own keys.

mod before;
mod evening;
mod found;

use gloo_storage::{LocalStorage, Storage as _};
use leptos::attr::custom::custom_attribute;
use leptos::html::Textarea;
use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::ids::PersonId;
use shared_core::sync::rules::{
    Evening, RulesFound, RulesHeld, RulesPublish, RulesPublished, RulesRoom, RulesTried, RulesVersion,
};
use shared_core::time::Span;
use std::time::Duration;

use self::before::before;
use self::evening::evening;
use self::found::found;
use super::phones::{answered, fault};
use crate::intent::{Asked, Dispatch, Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::field::{Field, Typed};
use crate::parts::kept::{Kept, kept};
use crate::parts::live::{live, whenever};
use crate::shell::desk::extra::RulesKnown;
use crate::store::{AppView, use_app_view};
use crate::words::rules as say;

const CHECK: &str = "/api/rules/check";
/// Where it is published: the answer has another shape than what is looked up.
const PUBLISH: &str = "/api/rules?publish";
/// The number that what was asked for on this phone has once it is published.
const ASKED_FOR: &str = "sweepbell.published";
/// What this member published is written into their log for so long, if it was not at once.
const SAID_WITHIN: Span = Span::from_minutes(7 * 24 * 60);
/// Whoever types is asked nothing before they pause for so long.
const PAUSE: Duration = Duration::from_millis(700);

/// What the parts of this page share.
#[derive(Clone, Copy)]
struct Desk {
    view: AppView,
    text: RwSignal<String>,
    /// What the text was written over.
    held: Kept<Option<RulesHeld>>,
    found: Kept<Option<RulesFound>>,
    /// The evening that is tried with each look, once one is.
    evening: RwSignal<Option<Evening>>,
    area: NodeRef<Textarea>,
    /// How often the hub was asked to look.
    turn: StoredValue<u32>,
}

impl Desk {
    fn new() -> Self {
        let view = use_app_view();
        Self {
            view,
            text: RwSignal::new(String::new()),
            held: answer(view, Asked::RULES),
            found: answer(view, CHECK),
            evening: RwSignal::new(None),
            area: NodeRef::new(),
            turn: StoredValue::new(0),
        }
    }

    /// Has the hub look at the text.
    fn look(self, dispatch: &Dispatch) {
        let (text, evening) = (self.text.get_untracked(), self.evening.get_untracked());
        self.turn.update_value(|turn| *turn += 1);
        ask(dispatch, CHECK, &RulesTried { text, evening, turn: self.turn.get_value() });
    }

    /// Has it look once more where an answer to an older question came after the newer one's, and took its place.
    fn mind_overtaking(self) {
        let (dispatch, newest) = (use_dispatch(), StoredValue::new(0_u32));
        whenever(move || {
            let Some(turn) = self.found.with(|found| found.as_ref().map(|found| found.turn)) else { return };
            let overtaken = turn < newest.get_value();
            newest.update_value(|newest| *newest = turn.max(*newest));
            if overtaken {
                self.look(&dispatch);
            }
        });
    }

    /// Something of what this phone knows without the hub.
    fn known<T>(self, of: impl FnOnce(&RulesKnown) -> Option<T>) -> Option<T> {
        self.view.extra.with_untracked(|extra| of(extra.seen::<RulesKnown>()?))
    }

    /// What a machine or chore is called in this phone's language, if the rules in force have it; what the text says if not.
    fn name(self, id: &str, in_text: &str) -> String {
        self.known(|known| known.names.get(id).cloned()).unwrap_or_else(|| in_text.to_owned())
    }

    /// The same of a room.
    fn room(self, room: &RulesRoom) -> String {
        self.known(|known| called(&known.rooms, &room.id)).unwrap_or_else(|| room.name.clone())
    }

    /// What somebody is called.
    fn person(self, who: &PersonId) -> String {
        self.known(|known| called(&known.people, who)).unwrap_or_else(|| who.to_string())
    }

    /// Puts another text in place of what is there.
    fn write(self, text: String, dispatch: &Dispatch) {
        self.text.set(text);
        self.look(dispatch);
    }
}

fn called<K: PartialEq>(names: &[(K, String)], id: &K) -> Option<String> {
    names.iter().find(|(known, _)| known == id).map(|(_, name)| name.clone())
}

fn answer<T: serde::de::DeserializeOwned + Clone + PartialEq + Send + Sync + 'static>(
    view: AppView,
    path: &'static str,
) -> Kept<Option<T>> {
    kept(move || {
        let answer =
            view.answers.with(|answers| answers.iter().find(|(asked, _)| *asked == path).map(|it| it.1.clone()));
        serde_json::from_str(&answer?.ok()?).ok()
    })
}

fn ask(dispatch: &Dispatch, path: &'static str, body: &impl serde::Serialize) {
    let body = serde_json::to_string(body).unwrap_or_default();
    dispatch.ui(Ui::Ask(Asked { path, body }));
}

/// The page.
pub fn drawn() -> AnyView {
    let (desk, dispatch) = (Desk::new(), use_dispatch());
    dispatch.ui(Ui::Ask(Asked { path: Asked::RULES, body: String::new() }));
    desk.mind_overtaking();
    let begun = StoredValue::new(false);
    whenever(move || {
        if let Some(held) = desk.held.get()
            && !begun.get_value()
        {
            begun.set_value(true);
            desk.write(held.text, &dispatch);
        }
    });
    let log = use_dispatch();
    whenever(move || say_what_is_published(desk, &log));
    let there = kept(move || desk.held.with(Option::is_some));
    view! {
        <p class="soft">{say::how()}</p>
        {answered(desk.view, Asked::RULES, |_: serde_json::Value| ().into_any())}
        {live(move || there.get().then(|| opened(desk)))}
    }
    .into_any()
}

/// Writes into the log what this member has in force, once. By what the hub holds and not by its answer, which may have come
/// when this page was gone.
fn say_what_is_published(desk: Desk, log: &Dispatch) {
    let newest = desk.held.with(|held| held.as_ref().and_then(|held| held.versions.first().cloned()));
    let Some(RulesVersion { number, book, by, note, at, .. }) = newest else { return };
    let unsaid = desk.view.extra.with(|extra| {
        let known = extra.seen::<RulesKnown>();
        known.is_some_and(|known| known.me == by && !known.published.contains(&(number, book.clone())))
    });
    // Of somebody's two phones the one says it on which it was asked for; what is older may have left its log.
    let here = LocalStorage::get(ASKED_FOR).is_ok_and(|asked: i64| asked == number);
    let is_new = desk.view.now.get_untracked() < at + SAID_WITHIN;
    if let (true, true, true, Ok(number)) = (unsaid, here, is_new, u32::try_from(number)) {
        log.act(Command::NotePublished { number, book, note: Some(note) });
    }
}

fn opened(desk: Desk) -> AnyView {
    view! {
        <section class="rules">
            {editor(desk)}
            {found(desk)}
        </section>
        <section class="rules">{evening(desk)}</section>
        <section class="rules">{publishing(desk)}</section>
        <section class="rules">{before(desk)}</section>
    }
    .into_any()
}

fn editor(desk: Desk) -> AnyView {
    let dispatch = use_dispatch();
    let typed = StoredValue::new(0_u32);
    let on_input = move |event| {
        desk.text.set(event_target_value(&event));
        typed.update_value(|count| *count += 1);
        let (count, dispatch) = (typed.get_value(), dispatch.clone());
        let look = move || {
            if typed.try_get_value() == Some(count) {
                desk.look(&dispatch);
            }
        };
        set_timeout(look, PAUSE);
    };
    view! {
        <label for="rules-text">{say::toml()}</label>
        <textarea
            node_ref=desk.area
            id="rules-text"
            class="field-entry rules-text"
            {..custom_attribute("rows", "18")}
            {..custom_attribute("spellcheck", "false")}
            {..custom_attribute("autocapitalize", "off")}
            prop:value=desk.text
            on:input=on_input
        ></textarea>
    }
    .into_any()
}

fn publishing(desk: Desk) -> AnyView {
    let dispatch = use_dispatch();
    let (note, sure) = (RwSignal::new(String::new()), RwSignal::new(false));
    let ready = kept(move || {
        desk.found
            .with(|found| found.as_ref().is_some_and(|found| found.problems.is_empty() && !found.changes.is_empty()))
    });
    // Another text is another question.
    whenever(move || {
        desk.text.track();
        sure.set(false);
    });
    let publish = Callback::new(move |()| {
        if !sure.get_untracked() {
            sure.set(true);
            return;
        }
        let Some(over) = desk.held.with_untracked(|held| held.as_ref().map(|held| held.book.clone())) else { return };
        let orphans = desk.found.with_untracked(|found| found.as_ref().is_some_and(|found| !found.orphans.is_empty()));
        let (text, note) = (desk.text.get_untracked(), note.get_untracked());
        let newest = desk.held.with_untracked(|held| Some(held.as_ref()?.versions.first()?.number));
        // Without storage the log lacks the line; that it was published, and by whom, the hub has.
        let _ = LocalStorage::set(ASKED_FOR, newest.unwrap_or(0) + 1);
        ask(&dispatch, PUBLISH, &RulesPublish { text, over, note, anyway: orphans });
        sure.set(false);
    });
    let again = use_dispatch();
    let published = move |made: RulesPublished| {
        again.ui(Ui::Ask(Asked { path: Asked::RULES, body: String::new() }));
        view! { <p role="status">{say::published(made.number)}</p> }.into_any()
    };
    let label = Signal::derive(move || if sure.get() { say::publish_sure() } else { say::publish() }.to_owned());
    view! {
        <h2>{say::publishing()}</h2>
        <p class="soft">{say::publishing_how()}</p>
        <Field label=say::note() name="rules-note" value=note typed=Typed::Line />
        {live(move || {
            if ready.get() {
                view! { <QuietButton label on_press=publish /> }.into_any()
            } else {
                view! { <p class="soft">{say::not_ready()}</p> }.into_any()
            }
        })}
        {answered(desk.view, PUBLISH, published)}
    }
    .into_any()
}

/// Reads the rules that are in force now in place of what was typed.
fn reread(desk: Desk) -> AnyView {
    let dispatch = use_dispatch();
    let back = move |()| {
        if let Some(text) = desk.held.with_untracked(|held| held.as_ref().map(|held| held.text.clone())) {
            desk.write(text, &dispatch);
        }
    };
    view! { <QuietButton label=say::in_force() on_press=back /> }.into_any()
}

/// What the hub would not look at.
fn trouble(desk: Desk) -> AnyView {
    fault(desk.view, CHECK)
}
