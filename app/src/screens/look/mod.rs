//! What is looked up: fire, a metal, a tin, a shade. Sheets that read, and write nothing to the log.
//!
//! They open without a network and without a session. What they answer is asked of `shared_core`, from the shop's data
//! that [`shared_core::view::look`] keeps ready; how things stand in the room is on the wall, not here.

mod air;
mod fire;
mod metal;
mod shades;

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;

use crate::parts::button::QuietButton;
use crate::parts::sheet::Sheet;
use crate::words::{frame, look as say};

pub use self::fire::FireSheet;

/// What is being looked up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// What metal a piece may be.
    Metal,
    /// Where a tin may be opened.
    Air,
    /// The least welding shades.
    Shades,
}

/// The section: one button for each.
#[component]
pub fn LookUp(
    /// Called to open the sheet of one.
    #[prop(into)]
    on_open: Callback<Look>,
) -> impl IntoView {
    let open = move |(label, look): (&'static str, Look)| {
        view! { <QuietButton label on_press=move |()| on_open.run(look) /> }.into_any()
    };
    let all = [(say::metal(), Look::Metal), (say::air(), Look::Air), (say::shades(), Look::Shades)];
    view! {
        <section>
            <h2>{say::look_up()}</h2>
            <div class="choices">{all.map(open).into_iter().collect::<Vec<_>>()}</div>
        </section>
    }
    .into_any()
}

/// The sheet of one. It is mounted beside the screen's body, not in it.
pub fn sheet(look: Look, on_close: Callback<()>) -> AnyView {
    let (title, body) = match look {
        Look::Metal => (say::metal(), metal::body()),
        Look::Air => (say::air(), air::body()),
        Look::Shades => (say::shades(), shades::body()),
    };
    view! {
        <Sheet title close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                {body}
            </div>
        </Sheet>
    }
    .into_any()
}
