//! This phone's log, newest first, each line with where it is.

use leptos::prelude::*;
use shared_core::view::book::{BookLine, Standing};

use crate::parts::kept::kept;
use crate::parts::live::{live, rows};
use crate::parts::quiet_button::QuietButton;
use crate::screens::time::shop_clock;
use crate::store::use_app_view;
use crate::words::{self, book as say};

/// So many lines are shown at first, and more with each touch.
const PAGE: usize = 30;

/// The lines.
#[component]
pub fn Lines() -> impl IntoView {
    let view = use_app_view();
    let shown = RwSignal::new(PAGE);
    let count = kept(move || view.book.with(Vec::len));
    let seqs = kept(move || {
        view.book.with(|lines| lines.iter().take(shown.get()).map(|line| line.seq.to_string()).collect::<Vec<String>>())
    });
    let line = move |seq: String| {
        let line = kept(move || view.book.with(|lines| lines.iter().find(|line| line.seq.to_string() == seq).cloned()));
        live(move || line.get().map(|line| view! { <Line line /> }.into_any()))
    };
    view! {
        <section>
            <h2>{say::lines()}</h2>
            {live(move || (count.get() == 0).then(|| view! { <p class="soft">{say::no_lines()}</p> }.into_any()))}
            <ol class="rows">
                {rows(seqs, line)}
            </ol>
            {live(move || {
                (count.get() > shown.get())
                    .then(|| {
                        let rest = count.get() - shown.get();
                        view! {
                            <QuietButton
                                label=say::more(words::count(rest.min(PAGE)))
                                on_press=move |()| shown.update(|shown| *shown += PAGE)
                            />
                        }.into_any()
                    })
            })}
        </section>
    }
}

#[component]
fn Line(line: BookLine) -> impl IntoView {
    let view = use_app_view();
    let at = line.at;
    let standing = match line.standing {
        Standing::Waiting => say::line_waits().to_owned(),
        Standing::Held => say::line_held().to_owned(),
        Standing::Rejected(why) => say::line_rejected(&words::faults::not_taken(&why)),
    };
    view! {
        <li class="row book-line">
            <span class="book-clock">{live(move || shop_clock(view, at))}</span>
            <span class="book-fact">{words::facts::line(&line.fact, line.about.as_deref())}</span>
            <span class="row-detail">{line.seq} ", " {standing}</span>
        </li>
    }
}
