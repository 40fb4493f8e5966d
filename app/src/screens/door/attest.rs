//! One statement of the rulebook, with its sign: true, or not now.

use leptos::attr::custom::custom_attribute;
use leptos::html::H1;
use leptos::prelude::*;
use shared_core::rulebook::Statement;

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::live::{once_drawn, whenever};
use crate::parts::sign::{SafetySign, Sign};
use crate::words::door as say;

/// The statement, alone on the screen.
#[component]
pub fn Attest(title: String, statement: Statement) -> impl IntoView {
    let dispatch = use_dispatch();
    let decline = {
        let dispatch = dispatch.clone();
        move |()| dispatch.ui(Ui::Decline)
    };
    // Each statement is read from its heading on; the button that was pressed is gone with the one before.
    let heading = NodeRef::<H1>::new();
    whenever(move || {
        if let Some(heading) = heading.get() {
            once_drawn(move || {
                // A heading that cannot take the focus is read all the same.
                let _ = heading.focus();
            });
        }
    });
    let sign = Sign::statement(statement.sign.as_deref().unwrap_or_default());
    let id = statement.id;
    view! {
        <main class="screen">
            <div class="screen-body attest">
                <p class="soft">{title}</p>
                <SafetySign sign />
                <h1 class="statement" {..custom_attribute("tabindex", "-1")} node_ref=heading>
                    {statement.text}
                </h1>
            </div>
            <div class="acts">
                <QuietButton label=say::not_today() on_press=decline />
                <BigButton label=say::yes() on_press=move |()| dispatch.ui(Ui::Attest(id.clone())) />
            </div>
        </main>
    }
}
