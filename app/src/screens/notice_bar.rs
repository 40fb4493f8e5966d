//! What the last intention came to, if it is worth a word: over every screen, and again inside a sheet.
//!
//! The words come from the refusal or from `words`; nothing is judged here.

use leptos::prelude::*;

use super::why::because;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::live::live;
use crate::parts::notice::{Notice as NoticePart, Tone};
use crate::store::{Notice, Pin, use_app_view};
use crate::words;

/// The notice, until it is read.
#[component]
pub fn NoticeBar() -> impl IntoView {
    let view = use_app_view();
    live(move || view.notice.get().map(|notice| view! { <Shown notice /> }.into_any()))
}

#[component]
fn Shown(notice: Notice) -> impl IntoView {
    let dispatch = use_dispatch();
    let (reason, next_step) = words::faults::notice(&notice);
    let why = if let Notice::Refused(refusal) = &notice { because(refusal, false) } else { ().into_any() };
    view! {
        <div class="notice-bar">
            <NoticePart tone=tone(&notice) reason next_step />
            {why}
            <QuietButton label=words::frame::read() on_press=move |()| dispatch.ui(Ui::Dismiss) />
        </div>
    }
}

fn tone(notice: &Notice) -> Tone {
    match notice {
        Notice::Pin(Pin::Kept)
        | Notice::Declined(_)
        | Notice::MachineScanned { .. }
        | Notice::BuddyHere { .. }
        | Notice::CardSeen { .. }
        | Notice::WordTaken
        | Notice::WordBack
        | Notice::KeptInSpare
        | Notice::ClockJumped { .. } => Tone::Fact,
        Notice::Refused(_)
        | Notice::BadAnswer(_)
        | Notice::BadCard
        | Notice::OthersWord
        | Notice::Unreadable(_)
        | Notice::Pin(_) => Tone::Refusal,
        Notice::NotSaved(_)
        | Notice::NotSigned(_)
        | Notice::CodeTooLong
        | Notice::BuddyGone { .. }
        | Notice::NoPhoto(_)
        | Notice::Link(_)
        | Notice::SetAside { .. }
        | Notice::Forked => Tone::Trouble,
    }
}
