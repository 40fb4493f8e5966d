//! What stands where the later part draws, until it is here: a quiet moment; and what happened if it cannot be had.
//!
//! Asks for it at once. Never in the way of what is in the first part: a sheet that waits can be closed, and the places stand at
//! its foot.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;

use crate::later::{Close, Later, parts};
use crate::parts::button::QuietButton;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::sheet::Sheet;
use crate::shell::later::{Coming, hurry, use_coming};
use crate::words::{frame, gate, later as say};

/// What is to be drawn.
#[derive(Clone, Copy)]
pub enum Spot {
    /// A whole screen.
    Screen,
    /// A part of one.
    Section,
    /// A sheet, which this closes.
    Sheet(Close),
    /// Something nobody asked for: until it is here there is nothing.
    Unasked,
}

/// What `draw` makes of the later part.
pub fn later(spot: Spot, draw: impl Fn(&'static Later) -> AnyView + Send + 'static) -> AnyView {
    drawn(spot, Box::new(draw))
}

fn drawn(spot: Spot, draw: Box<dyn Fn(&'static Later) -> AnyView + Send>) -> AnyView {
    let coming = use_coming();
    hurry(coming);
    live(move || match (coming.get(), parts()) {
        (Coming::Here, Some(parts)) => draw(parts),
        (Coming::Failed, _) => set_in(spot, failed(coming)),
        _ => set_in(spot, view! { <p class="moment" role="status">{say::moment()}</p> }.into_any()),
    })
}

fn failed(coming: crate::shell::later::Later) -> AnyView {
    view! {
        <Notice tone=Tone::Trouble reason=say::failed() next_step=say::next() />
        <QuietButton label=gate::again() on_press=move |()| hurry(coming) />
    }
    .into_any()
}

fn set_in(spot: Spot, what: AnyView) -> AnyView {
    match spot {
        Spot::Unasked => ().into_any(),
        Spot::Section => view! { <section>{what}</section> }.into_any(),
        Spot::Screen => view! {
            <main class="screen is-plain">
                <div class="screen-body is-centred">
                    <h1 class="unseen">{frame::app()}</h1>
                    {what}
                </div>
            </main>
        }
        .into_any(),
        Spot::Sheet(on_close) => view! {
            <Sheet title=frame::app() close_label=frame::back() on_close>
                <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                    {what}
                </div>
            </Sheet>
        }
        .into_any(),
    }
}
