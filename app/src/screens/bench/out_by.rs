//! Out-by, moved while the session runs: by its end stop on the steel rule or by quarters of an hour, within what the
//! rules allow. What the plan would be is asked of the loop at every move; nothing is moved until it is said.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::plan::explain::Mark;
use shared_core::time::{Instant, Span};
use shared_core::view::bench::BenchView;

use crate::intent::{Wanted, use_dispatch};
use crate::parts::button::BigButton;
use crate::parts::figures::BigFigure;
use crate::parts::kept::kept;
use crate::parts::sheet::Sheet;
use crate::parts::steel_rule::Marks;
use crate::parts::steel_rule::end_stop::end_stop;
use crate::screens::door::Finer;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::rule::{marks, told};
use crate::screens::time::shop_clock;
use crate::screens::wants::wants;
use crate::screens::why::reasons;
use crate::shell::desk::extra::Weighed;
use crate::store::use_app_view;
use crate::words::{bench as say, frame};

/// How much later than it is the rule lets it be put; the buttons go on from there, and the rule with them.
const REACH: Span = Span::from_minutes(240);
const QUARTER: Span = Span::from_minutes(15);

/// The sheet that moves out-by.
#[component]
pub fn OutBySheet(on_close: Callback<()>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let times = |bench: &BenchView| (bench.out_by, bench.out_by_range, bench.times.clone().ok());
    let Some((out_by, range, planned)) = view.bench.with_untracked(|bench| bench.as_ref().map(times)) else {
        return ().into_any();
    };
    let chosen = RwSignal::new(out_by);
    let clock = Signal::derive(move || shop_clock(view, chosen.get()));
    wants(Box::new(move || Wanted::OutBy(chosen.get())));
    // As they are until the first answer is there.
    let times = kept(move || {
        let weighed = view.extra.with(|extra| extra.seen().and_then(|weighed: &Weighed| weighed.times.clone()));
        weighed.or_else(|| planned.clone())
    });
    let quarter = |at: Instant| Instant::from_ms(at.ms().div_euclid(QUARTER.ms()) * QUARTER.ms());
    let (from, until) = (quarter(view.now.get_untracked()), range.1.min(out_by + REACH));
    let marks = Signal::derive(move || {
        let spans = Some((from, until.max(chosen.get())));
        times.with(|times| Marks { spans, ..marks(view, from, chosen.get(), times.as_ref()) })
    });
    let told = Signal::derive(move || times.with(|times| told(view, chosen.get(), times.as_ref())));
    let on_put = Callback::new(move |at: Instant| chosen.set(at.clamp(range.0, range.1.max(range.0))));
    let put = move |()| {
        dispatch.act(Command::MoveOutBy { out_by: chosen.get_untracked() });
        on_close.run(());
    };
    view! {
        <Sheet title=say::move_out_by() close_label=frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <BigFigure label=say::out_by() value=clock />
                {end_stop(marks, view.now.into(), say::out_by(), told, on_put)}
                <p class="soft">{told}</p>
                <Finer chosen range />
                {reasons(Some(Mark::OutBy), |extra| extra.seen().map(|weighed: &Weighed| &weighed.reasons))}
            </div>
            <div class="acts">
                <BigButton label=Signal::derive(move || say::move_to(&clock.get())) on_press=put />
            </div>
        </Sheet>
    }
    .into_any()
}
