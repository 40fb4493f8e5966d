//! A try of the hub's ring, on this phone alone: it comes a little later, so that the phone can be locked first.

use leptos::prelude::*;
use shared_core::sync::push::PushTried;

use crate::intent::{Asked, Ui, use_dispatch};
use crate::screens::book::answered;
use crate::store::use_app_view;
use crate::words::pocket as say;

/// Where it is asked for.
const TRY: &str = "/api/push/try";

/// The touch.
pub fn trial() -> Callback<()> {
    let dispatch = use_dispatch();
    Callback::new(move |()| dispatch.ui(Ui::Ask(Asked { path: TRY, body: "{}".to_owned() })))
}

/// What the hub said to it.
pub fn coming() -> AnyView {
    let view = use_app_view();
    let coming =
        |tried: PushTried| view! { <p role="status">{say::try_comes(i64::from(tried.in_seconds))}</p> }.into_any();
    answered(view, TRY, coming)
}
