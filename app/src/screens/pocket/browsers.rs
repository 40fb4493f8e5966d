//! What each kind of browser can do when a bell is due: in words, because no page can find all of it out.
//!
//! From the makers' published documentation; what none of them promises is not said here.

use leptos::prelude::*;

use crate::parts::lines::said;
use crate::words::pocket as say;

/// One line for each.
pub fn browsers() -> AnyView {
    let kinds = [say::on_android(), say::on_iphone_home(), say::on_iphone_tab(), say::on_computer()]
        .map(|kind| said("", kind.to_owned()));
    view! {
        <section class="pocket-way">
            <h2>{say::browsers()}</h2>
            {kinds.into_iter().collect_view()}
        </section>
    }
    .into_any()
}
