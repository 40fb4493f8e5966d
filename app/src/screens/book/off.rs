//! What a phone that was taken off can still do: hand in what it has not sent, or keep it as a file.
//!
//! Said calmly: whoever holds it may have found it again behind a bench.

use leptos::prelude::*;
use shared_core::sync::invite::{LateKept, LateLines};
use shared_core::sync::message::ENTRIES_MAX;

use super::phones::answered;
use crate::intent::{Asked, Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::shell::desk::extra::Book;
use crate::shell::hub_link::LinkFault;
use crate::store::{Link, use_app_view};
use crate::words::{self, book as say};

const LATE: &str = "/api/late";

/// The section, on a phone that was taken off.
#[component]
pub fn Off() -> impl IntoView {
    let view = use_app_view();
    let is_off = kept(move || view.sync.with(|sync| sync.link == Link::Fault(LinkFault::Revoked)));
    let unsent =
        kept(move || view.extra.with(|extra| extra.seen().map(|book: &Book| book.unsent.clone()).unwrap_or_default()));
    live(move || is_off.get().then(|| view! { <Rest lines=unsent.get() /> }.into_any()))
}

#[component]
fn Rest(lines: Vec<String>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let (reason, _) = words::faults::link(&LinkFault::Revoked);
    let count = words::count(lines.len());
    let next_step = if lines.is_empty() { say::off_none().to_owned() } else { say::off_next(count) };
    let file = format!("data:text/plain,{}", lines.join("%0A"));
    let some = !lines.is_empty();
    let hand_in = Callback::new(move |()| {
        for lines in lines.chunks(ENTRIES_MAX) {
            let body = serde_json::to_string(&LateLines { lines: lines.to_vec() }).unwrap_or_default();
            dispatch.ui(Ui::Ask(Asked { path: LATE, body }));
        }
    });
    view! {
        <Notice tone=Tone::Trouble reason next_step />
        {some
            .then(|| {
                view! {
                    <QuietButton label=say::hand_in() on_press=hand_in />
                    <a class="plain-link" href=file download="sweepbell.jws">
                        {say::keep_file()}
                    </a>
                }
                    .into_any()
            })}
        {answered(view, LATE, handed)}
    }
}

fn handed(_: LateKept) -> AnyView {
    view! { <Notice tone=Tone::Fact reason=say::handed() /> }.into_any()
}
