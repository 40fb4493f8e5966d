//! How many sweep? Then the sweep begins.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::command::Command;

use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::store::use_app_view;
use crate::words::{bench as say, frame, sweep};

/// More people than this are rarely told apart from a crowd; they can sweep all the same.
const CREW_MAX: u32 = 4;

/// The sheet that begins the sweep.
#[component]
pub fn CrewSheet(on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let (others, running) = view
        .sweep
        .with_untracked(|sweep| sweep.as_ref().map(|sweep| (sweep.others.clone(), sweep.running.clone())))
        .unwrap_or_default();
    let begin = Callback::new(move |crew: u32| {
        dispatch.act(Command::StartSweep { crew });
        on_close.run(());
    });
    let more = move |crew: u32| {
        view! { <QuietButton label=say::crew(i64::from(crew)) on_press=move |()| begin.run(crew) /> }.into_any()
    };
    view! {
        <Sheet title=say::crew_how_many() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                {(!running.is_empty())
                    .then(|| {
                        view! {
                            <p>
                                <strong>{sweep::running(&running.join(", "))}</strong>
                            </p>
                            <p>{say::crew_why()}</p>
                        }.into_any()
                    })}
                {(!others.is_empty()).then(|| view! { <p>{sweep::with(&others.join(", "))}</p> }.into_any())}
            </div>
            <div class="acts more">{(2..=CREW_MAX).map(more).collect_view()}</div>
            <div class="acts">
                <BigButton label=say::crew_one() on_press=move |()| begin.run(1) />
            </div>
        </Sheet>
    }
}
