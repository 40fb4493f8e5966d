//! A box that the stylesheet sizes, with a picture that is drawn for its width and height.

use leptos::html::Div;
use leptos::prelude::*;

use crate::shell::size::size_of;

/// What is drawn for a width and a height in px of CSS, as markup. It follows the signals that it reads.
pub type Drawn = Box<dyn Fn(u32, u32) -> String + Send>;

/// The box, by its class; empty while it has no size.
pub fn boxed(class: &'static str, drawn: Drawn) -> AnyView {
    let place = NodeRef::<Div>::new();
    let size = size_of(place);
    let markup = move || match size.get() {
        (0, _) | (_, 0) => String::new(),
        (width_px, height_px) => drawn(width_px, height_px),
    };
    view! { <div class=class node_ref=place inner_html=markup></div> }.into_any()
}
