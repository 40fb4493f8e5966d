//! A full-height sheet over the screen, for one thing to be done and left again.
//!
//! It is the browser's own modal `<dialog>`: focus stays inside, what lies under it is inert, and Escape or the
//! phone's back gesture closes it. It is read from its heading on. The way out stands at the top, in words; the acts and
//! the places stand at the foot, as on a screen. Going to a place closes the sheet: the link asks it to (`js/address.js`).

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;

use crate::parts::places::Foot;
use crate::shell::dialog::shown_dialog;

/// A sheet; shown while it is mounted.
#[component]
pub fn Sheet(
    /// What the sheet is for: its heading and its accessible name.
    #[prop(into)]
    title: Signal<String>,
    /// What the way out is called: "Back", "Not now".
    #[prop(into)]
    close_label: Signal<String>,
    /// Called when the member leaves the sheet.
    #[prop(into)]
    on_close: Callback<()>,
    /// The sheet's content: a `.sheet-body` and, where there is an act, a `.acts`.
    children: Children,
) -> impl IntoView {
    let dialog = shown_dialog();
    let cancel = move |event: leptos::ev::Event| {
        event.prevent_default();
        on_close.run(());
    };
    view! {
        <dialog class="sheet" node_ref=dialog aria-label=title on:cancel=cancel>
            <div class="sheet-head">
                <h1 class="sheet-title" {..custom_attribute("tabindex", "-1")} {..custom_attribute("autofocus", "")}>
                    {title}
                </h1>
                <button type="button" class="quiet-button sheet-close" on:click=move |_| on_close.run(())>
                    {close_label}
                </button>
            </div>
            {children()}
            {use_context::<Foot>().map(|Foot(foot)| foot())}
        </dialog>
    }
}
