//! A picture that a line names: small in its row, whole in a sheet; in words where it cannot be had.
//!
//! Which of the two it is the styles see by the place's `data-is`, which is set where the picture is looked for
//! (`shell::photo`). While it is missing it is looked for again whenever something of the hub is new.

use leptos::html::Div;
use leptos::prelude::*;

use crate::parts::live::{live, whenever};
use crate::parts::sheet::Sheet;
use crate::shell::photo;
use crate::store::AppView;
use crate::words::{frame, repairs as say};

/// A picture, what it is of and what says so to whoever does not see it.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The hash that a line names.
    pub sha: String,
    /// The title of its sheet.
    pub of: String,
    /// The text in its place.
    pub says: String,
}

/// The one that lies over a page.
pub type Opened = RwSignal<Option<Picture>>;

/// In a row, in a box of its own that nothing moves when it comes; a touch opens it whole.
pub fn small(view: AppView, picture: Picture, opened: Opened) -> AnyView {
    let (sha, says) = (picture.sha.clone(), picture.says.clone());
    let image = view! {
        <button type="button" class="picture-frame" on:click=move |_| opened.set(Some(picture.clone()))>
            <img class="picture-image" alt=says />
        </button>
    };
    placed("picture", view, sha, image.into_any())
}

/// Over the page, as large as there is room, under the name of what is seen.
pub fn over(view: AppView, opened: Opened) -> AnyView {
    live(move || opened.get().map(|picture| whole(view, picture, Callback::new(move |()| opened.set(None)))))
}

fn whole(view: AppView, picture: Picture, on_close: Callback<()>) -> AnyView {
    let image = view! {
        <div class="picture-frame">
            <img class="picture-image" alt=picture.says />
        </div>
    };
    view! {
        <Sheet title=picture.of close_label=frame::back() on_close>
            <div class="sheet-body">{placed("picture is-whole", view, picture.sha, image.into_any())}</div>
        </Sheet>
    }
    .into_any()
}

fn placed(class: &'static str, view: AppView, sha: String, image: AnyView) -> AnyView {
    let place = NodeRef::<Div>::new();
    whenever(move || {
        view.sync.with(|_| ());
        if let Some(place) = place.get() {
            photo::show(&place, &sha);
        }
    });
    view! {
        <div class=class node_ref=place>
            {image}
            <p class="picture-words">{say::picture_missing()}</p>
        </div>
    }
    .into_any()
}
