//! How did you find it? Asked once, on coming in, while it is fresh: clean in one touch, a mess in words.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::{Condition, Place};

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::store::use_app_view;
use crate::words::room as say;

/// The question, until something was found since the session began.
#[component]
pub fn Arrival(
    /// Called to put a mess in words.
    #[prop(into)]
    on_mess: Callback<()>,
) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let from = field(view, |bench| bench.from);
    let asked = kept(move || {
        let from = from.get()?;
        view.room.with(|room| {
            let room = room.as_ref()?;
            let told = room.found.iter().any(|found| found.at >= from);
            room.rooms.iter().find(|room| room.mine && !told).map(|room| room.id.clone())
        })
    });
    let clean = Callback::new(move |()| {
        if let Some(room) = asked.get_untracked() {
            let (place, condition) = (Place::Room(room), Condition::Clean);
            dispatch.act(Command::ReportFound { place, condition, note: None });
        }
    });
    let open = kept(move || asked.with(Option::is_some));
    live(move || {
        open.get().then(|| {
            view! {
                <section>
                    <h2>{say::found()}</h2>
                    <div class="pair">
                        <QuietButton label=say::found_clean() on_press=clean />
                        <QuietButton label=say::found_mess() on_press=on_mess />
                    </div>
                </section>
            }
            .into_any()
        })
    })
}
