//! This phone's log, newest first, each line with where it is.

use leptos::prelude::*;
use shared_core::view::book::{BookLine, Standing};

use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::{live, rows};
use crate::screens::time::shop_clock;
use crate::shell::desk::extra::Book;
use crate::store::{AppView, use_app_view};
use crate::words::{self, book as say};

/// So many lines are shown at first, and more with each touch.
const PAGE: usize = 30;

/// The lines.
#[component]
pub fn Lines() -> impl IntoView {
    let view = use_app_view();
    let shown = RwSignal::new(PAGE);
    let count = kept(move || lines(view, <[BookLine]>::len));
    let empty = kept(move || view.extra.with(|extra| extra.seen::<Book>().is_some_and(|book| book.lines.is_empty())));
    let seqs = kept(move || {
        lines(view, |lines| lines.iter().take(shown.get()).map(|line| line.seq.to_string()).collect::<Vec<String>>())
    });
    let line = move |seq: String| {
        let line = kept(move || lines(view, |lines| lines.iter().find(|line| line.seq.to_string() == seq).cloned()));
        live(move || line.get().map(|line| view! { <Line line /> }.into_any()))
    };
    view! {
        <section>
            <h2>{say::lines()}</h2>
            {live(move || empty.get().then(|| view! { <p class="soft">{say::no_lines()}</p> }.into_any()))}
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

/// What `of` says of the lines; there are none until they are reckoned.
fn lines<T>(view: AppView, of: impl FnOnce(&[BookLine]) -> T) -> T {
    view.extra.with(|extra| of(extra.seen::<Book>().map_or(&[], |book| &book.lines)))
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
