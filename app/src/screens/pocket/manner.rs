//! How bells come on this phone: without sound, aloud, softer at night; and whether the room's board may name its member.
//!
//! What is chosen stays in the browser, but for the board: that is said in the log, for this session.

use leptos::prelude::*;
use shared_core::command::Command;

use crate::intent::use_dispatch;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::shell::bell::{manner, set_manner, speaks};
use crate::store::use_app_view;
use crate::words::pocket as say;

/// The choices, each on or off.
#[component]
pub fn Manner() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let chosen = RwSignal::new(manner());
    let choice = move |word: &'static str, label: &'static str| {
        let on = Signal::derive(move || chosen.with(|words| words.split(' ').any(|chosen| chosen == word)));
        let turn = Callback::new(move |()| {
            let words = chosen.get_untracked();
            let mut words: Vec<&str> = words.split(' ').filter(|known| !known.is_empty() && *known != word).collect();
            if !on.get_untracked() {
                words.push(word);
            }
            let words = words.join(" ");
            set_manner(&words);
            chosen.set(words);
        });
        toggle(label, on, turn)
    };
    let on_board = kept(move || view.bench.with(|bench| bench.as_ref().map(|bench| bench.on_board)));
    let named = Signal::derive(move || on_board.get() == Some(true));
    let name = Callback::new(move |()| dispatch.act(Command::NameOnBoard { may: !named.get_untracked() }));
    view! {
        <section class="pocket-way">
            <h2>{say::manner()}</h2>
            {choice("mute", say::manner_mute())}
            <p class="soft">{say::manner_mute_how()}</p>
            {speaks().then(|| choice("say", say::manner_say()))}
            {choice("night", say::manner_night())}
            {live(move || {
                on_board
                    .get()
                    .map(|_| {
                        view! {
                            {toggle(say::manner_board(), named, name)}
                            <p class="soft">{say::manner_board_how()}</p>
                        }.into_any()
                    })
            })}
        </section>
    }
}

fn toggle(label: &'static str, on: Signal<bool>, turn: Callback<()>) -> AnyView {
    view! {
        <button
            type="button"
            class="quiet-button is-toggle"
            aria-pressed=move || if on.get() { "true" } else { "false" }
            on:click=move |_| turn.run(())
        >
            {label}
            ": "
            {live(move || if on.get() { say::on() } else { say::off() })}
        </button>
    }
    .into_any()
}
