//! Calling everybody out of a room: one touch, and one that makes sure, because it rings on every phone in there.
//!
//! The bell reaches phones by way of the hub; a board rings by itself at once. Calling out loud is quicker, and is said so.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::ids::RoomId;
use shared_core::time::Instant;

use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::screens::time::shop_clock;
use crate::store::use_app_view;
use crate::words::room as say;

/// The act, and that it was done.
pub fn clear_act(room: RoomId, called: Option<Instant>) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let sure = RwSignal::new(false);
    let label = Signal::derive(move || if sure.get() { say::clear_sure() } else { say::clear() }.to_owned());
    let call = move |()| {
        if sure.get_untracked() {
            dispatch.act(Command::CallClear { room: room.clone() });
        }
        sure.update(|sure| *sure = !*sure);
    };
    let done = called.map(|at| view! { <p role="status">{say::clear_called(&shop_clock(view, at))}</p> }.into_any());
    view! {
        {done}
        <QuietButton label on_press=call />
    }
    .into_any()
}
