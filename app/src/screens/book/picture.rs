//! A picture that a line names: small in its row, whole in a sheet; in words where it cannot be had.
//!
//! Which of the two it is the styles see by the place's `data-is`, which is set where the picture is looked for
//! (`shell::photo`). While it is missing it is looked for again whenever something of the hub is new.

use leptos::html::Div;
use leptos::prelude::*;

use crate::parts::live::whenever;
use crate::shell::photo;
use crate::store::AppView;
use crate::words::repairs as say;

/// In a row, in a box of its own that nothing moves when it comes; a touch opens it whole.
pub fn small(view: AppView, sha: String, says: String, on_open: Callback<()>) -> AnyView {
    let image = view! {
        <button type="button" class="picture-frame" on:click=move |_| on_open.run(())>
            <img class="picture-image" alt=says />
        </button>
    };
    placed("picture", view, sha, image.into_any())
}

/// As large as there is room.
pub fn whole(view: AppView, sha: String, says: String) -> AnyView {
    let image = view! {
        <div class="picture-frame">
            <img class="picture-image" alt=says />
        </div>
    };
    placed("picture is-whole", view, sha, image.into_any())
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
