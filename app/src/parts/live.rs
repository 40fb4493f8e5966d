//! What is drawn anew when a signal that it read has changed, and lists of it: small on a phone.
//!
//! The renderer compiles a closure in a view anew for each place that it stands in. Behind a pointer it is compiled
//! once, and so are lists and effects. Views use these in place of bare closures.

use leptos::html::Div;
use leptos::prelude::*;

use super::kept::Kept;
use crate::shell::size::size_of;

/// What is drawn for a width and a height in px of CSS, as markup. It follows the signals that it reads.
pub type Drawn = Box<dyn Fn(u32, u32) -> String + Send>;

/// A part of a view that follows the signals which `of` reads.
pub fn live<V: IntoView + 'static>(mut of: impl FnMut() -> V + Send + 'static) -> AnyView {
    shown(Box::new(move || of().into_any()))
}

fn shown(of: Box<dyn FnMut() -> AnyView + Send>) -> AnyView {
    of.into_any()
}

/// One row for each key, in their order; drawn anew when the keys change. What a row says of its thing it keeps itself.
pub fn rows(keys: Kept<Vec<String>>, row: impl Fn(String) -> AnyView + Send + 'static) -> AnyView {
    live(move || keys.get().into_iter().map(&row).collect::<Vec<AnyView>>())
}

/// Does something outside the view each time that a signal which it read has changed, and once at first.
pub fn whenever(act: impl FnMut() + 'static) {
    fn run(mut act: Box<dyn FnMut()>) {
        Effect::new(move |_| act());
    }
    run(Box::new(act));
}

/// Does something once the next picture is there, so that what is measured then was laid out already, and making both does not
/// block the page in one piece. What it works on may be gone until then.
pub fn once_drawn(act: impl FnOnce() + 'static) {
    fn then(act: Box<dyn FnOnce()>) {
        request_animation_frame(move || request_animation_frame(act));
    }
    then(Box::new(act));
}

/// A box of that class, which the stylesheet sizes, with what is drawn for its size; empty while it has none.
pub fn boxed(class: &'static str, drawn: Drawn) -> AnyView {
    let place = NodeRef::<Div>::new();
    let size = size_of(place);
    let markup = move || match size.get() {
        (0, _) | (_, 0) => String::new(),
        (width_px, height_px) => drawn(width_px, height_px),
    };
    view! { <div class=class node_ref=place inner_html=markup></div> }.into_any()
}
