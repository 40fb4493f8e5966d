//! The way between the app's places: five words at the foot of every screen, and of every sheet that lies over one.
//!
//! Words, not icons. Each takes the width that its word needs, so that longer languages fit; the one you are in is
//! marked by weight, by a brass bar and for screen readers.

use leptos::prelude::*;

/// What stands at the foot of screens and sheets alike. In the context, because a sheet knows of no place.
#[derive(Clone, Copy)]
pub struct Foot(pub fn() -> AnyView);

/// One place.
#[derive(Clone, Debug)]
pub struct Place {
    /// Its name, and what there is to know about it in a word.
    pub name: Signal<String>,
    /// Where it is.
    pub href: String,
}

/// The foot of every screen.
#[component]
pub fn Places(
    /// What the row is called to a screen reader.
    #[prop(into)]
    label: String,
    /// The places, in order.
    places: Vec<Place>,
    /// The index of the place one is in.
    #[prop(into)]
    current: Signal<Option<usize>>,
) -> impl IntoView {
    let link = move |(index, place): (usize, Place)| {
        view! {
            <a class="place" href=place.href aria-current=move || (current.get() == Some(index)).then_some("page")>
                {place.name}
            </a>
        }
        .into_any()
    };
    view! {
        <nav class="places" aria-label=label>
            {places.into_iter().enumerate().map(link).collect_view()}
        </nav>
    }
}
