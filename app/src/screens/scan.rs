//! The camera sheet: one code in, as text. What it says is found out elsewhere.
//!
//! Without a camera the name on the door can be typed; that it is a door's name is the only thing assumed.

use leptos::prelude::*;

use super::later::{Spot, later};
use super::notice_bar::NoticeBar;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::field::{Field, Typed};
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::sheet::Sheet;
use crate::shell::camera::{CameraFault, CameraView};
use crate::words;

/// The camera over a screen while it is `open`, until a code is read or the member goes back.
pub fn scanner(open: RwSignal<bool>) -> AnyView {
    let close = Callback::new(move |()| open.set(false));
    live(move || open.get().then(|| later(Spot::Sheet(close), move |later| (later.scan)(close))))
}

/// The sheet. It closes itself after a code was read too.
pub fn opened(on_close: Callback<()>) -> AnyView {
    let dispatch = use_dispatch();
    let found = Callback::new({
        let dispatch = dispatch.clone();
        move |text: String| {
            dispatch.ui(Ui::Scanned(text));
            on_close.run(());
        }
    });
    let typed = RwSignal::new(String::new());
    let use_typed = move |()| {
        let text = typed.get_untracked();
        if !text.trim().is_empty() {
            found.run(as_address(text.trim()));
        }
    };
    view! {
        <Sheet title=words::scan::title() close_label=words::frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <p>{words::scan::how()}</p>
                <Camera on_text=found />
                <Field label=words::scan::typed() name="typed-code" value=typed typed=Typed::Line />
                <QuietButton label=words::scan::use_it() on_press=use_typed />
            </div>
        </Sheet>
    }
    .into_any()
}

/// The picture, or why there is none.
#[component]
pub fn Camera(
    /// Told what a code says.
    on_text: Callback<String>,
) -> impl IntoView {
    let fault = RwSignal::new(None::<CameraFault>);
    let on_fault = Callback::new(move |why| fault.set(Some(why)));
    live(move || match fault.get() {
        None => view! { <CameraView on_text on_fault /> }.into_any(),
        Some(why) => {
            let (reason, next_step) = words_of(&why);
            view! { <Notice tone=Tone::Trouble reason next_step /> }.into_any()
        }
    })
}

fn words_of(fault: &CameraFault) -> (&'static str, &'static str) {
    match fault {
        CameraFault::Missing => (words::scan::missing(), words::scan::missing_next()),
        CameraFault::Refused => (words::scan::refused(), words::scan::refused_next()),
        CameraFault::Busy => (words::scan::busy(), words::scan::busy_next()),
        CameraFault::Other(_) => (words::scan::other(), words::scan::busy_next()),
    }
}

/// What was typed as the address that hangs at that door; whole addresses and codes stay as they are.
fn as_address(typed: &str) -> String {
    if typed.contains([':', '/']) {
        return typed.to_owned();
    }
    let origin = window().location().origin().unwrap_or_default();
    format!("{origin}/d/{}", typed.to_ascii_lowercase())
}
