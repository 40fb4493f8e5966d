//! The cautions of DESIGN.md section 7, reachable from every Door and from Book.

use leptos::prelude::*;

use crate::parts::live::live;
use crate::parts::sign::{SafetySign, Sign};
use crate::store::use_app_view;
use crate::words;

/// What the app cannot do for anybody.
pub fn screen() -> AnyView {
    let view = use_app_view();
    let emergency = move || view.shop.with(|shop| shop.as_ref().and_then(|shop| shop.emergency.clone()));
    view! {
        <main class="screen is-plain">
            <div class="screen-body">
                <div class="headline">
                    <SafetySign sign=Sign::Warning />
                    <h1>{words::cautions::title()}</h1>
                </div>
                {words::cautions::lines().map(|line| view! { <p class="caution">{line}</p> }.into_any()).collect_view()}
                {live(move || {
                    emergency()
                        .map(|number| {
                            view! {
                                <a class="quiet-button" href=format!("tel:{number}")>
                                    {words::room::call(&number)}
                                </a>
                            }.into_any()
                        })
                })}
            </div>
        </main>
    }
    .into_any()
}
