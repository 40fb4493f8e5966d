//! Out-by, moved while the session runs: by quarters of an hour, within what the rules allow.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::plan::explain::Mark;
use shared_core::view::bench::BenchView;

use crate::intent::use_dispatch;
use crate::parts::big_button::BigButton;
use crate::parts::figures::BigFigure;
use crate::parts::sheet::Sheet;
use crate::screens::door::Finer;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::shop_clock;
use crate::screens::why::reasons;
use crate::store::use_app_view;
use crate::words::{bench as say, frame};

/// The sheet that moves out-by.
#[component]
pub fn OutBySheet(on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let times = |bench: &BenchView| (bench.out_by, bench.out_by_range);
    let Some((out_by, range)) = view.bench.with_untracked(|bench| bench.as_ref().map(times)) else {
        return ().into_any();
    };
    let chosen = RwSignal::new(out_by);
    let clock = Signal::derive(move || shop_clock(view, chosen.get()));
    let put = move |()| {
        dispatch.act(Command::MoveOutBy { out_by: chosen.get_untracked() });
        on_close.run(());
    };
    view! {
        <Sheet title=say::move_out_by() close_label=frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <BigFigure label=say::out_by() value=clock />
                <Finer chosen range />
                {reasons(Some(Mark::OutBy))}
            </div>
            <div class="acts">
                <BigButton label=Signal::derive(move || say::move_to(&clock.get())) on_press=put />
            </div>
        </Sheet>
    }
    .into_any()
}
