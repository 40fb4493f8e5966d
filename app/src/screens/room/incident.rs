//! Something that the steward should know, in the teller's words.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::Told;

use crate::intent::use_dispatch;
use crate::parts::button::BigButton;
use crate::parts::field::{Field, Typed};
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::words::{frame, room as say};

/// The sheet to tell it in.
#[component]
pub fn IncidentSheet(on_close: Callback<()>) -> impl IntoView {
    let dispatch = use_dispatch();
    let note = RwSignal::new(String::new());
    let tell = move |()| {
        dispatch.act(Command::ReportIncident { note: note.get_untracked(), told: Told::default() });
        on_close.run(());
    };
    view! {
        <Sheet title=say::incident() close_label=frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <Field
                    label=say::incident_what()
                    name="incident"
                    value=note
                    typed=Typed::Sentences
                    hint=say::incident_hint()
                    ready=true
                />
            </div>
            <div class="acts">
                <BigButton label=say::incident_tell() on_press=tell />
            </div>
        </Sheet>
    }
}
