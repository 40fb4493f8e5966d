//! Who is your buddy, and for how long their word still holds.
//!
//! A buddy is shown by name with the minutes left, or not at all: never on the strength of a word that has run out.

use leptos::prelude::*;
use shared_core::ids::PersonId;
use shared_core::view::bench::BuddyRow;
use shared_core::view::buddy::Covering;

use super::field;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::screens::time::{Minutes, shop_clock};
use crate::store::use_app_view;
use crate::words::{bench as say, buddy};

/// The buddies, and the way to ask for one.
#[component]
pub fn Buddies() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let rows = field(view, |bench| bench.buddies.clone());
    let wanted = field(view, |bench| bench.buddy_room || !bench.buddies.is_empty());
    let none = kept(move || rows.with(|rows| rows.as_ref().is_none_or(Vec::is_empty)));
    let ask = Callback::new(move |to: Option<PersonId>| dispatch.ui(Ui::AskBuddy { machine: None, to }));
    let covering = move || {
        view.covering.with(|rows| {
            let says = |row: &Covering| buddy::covers(&row.name, &shop_clock(view, row.until), row.given);
            rows.iter().map(|row| view! { <p class="fact">{says(row)}</p> }.into_any()).collect_view()
        })
    };
    view! {
        <section class="buddies" class:is-hidden=move || wanted.get() != Some(true)>
            {live(move || rows.get().map(|rows| rows.into_iter().map(|row| view! { <Buddy row ask /> }.into_any()).collect_view()))}
            {live(move || {
                none.get()
                    .then(|| {
                        view! {
                            <p>{say::no_buddy()}</p>
                            <QuietButton label=say::ask_buddy() on_press=move |()| ask.run(None) />
                        }.into_any()
                    })
            })}
        </section>
        {covering}
    }
}

#[component]
fn Buddy(row: BuddyRow, ask: Callback<Option<PersonId>>) -> impl IntoView {
    let who = row.who;
    view! {
        <div class="with-act">
            <p class="fact">
                <strong>{say::buddy(&row.name)}</strong>
                <br />
                {buddy::given(row.given)}
                ", "
                <Minutes at=Signal::stored(row.until) says=say::buddy_left />
            </p>
            <QuietButton
                label=say::ask_again()
                spoken=say::act_on(say::ask_again(), &row.name)
                on_press=move |()| ask.run(Some(who.clone()))
            />
        </div>
    }
}
