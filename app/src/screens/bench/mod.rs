//! Bench: the session as a steel rule, the minutes until the sweep, the machines and the buddy.
//!
//! The sections read their own fields; a sheet lies over them one at a time. What may be started, and why not, is the
//! projection's say.

mod arrival;
mod buddies;
mod machines;
mod out_by;
mod rule;
mod start_sheet;
mod start_sweep;
mod tag_out;
mod times;

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::entry::Condition;
use shared_core::ids::MachineId;
use shared_core::plan::explain::Mark;
use shared_core::view::bench::BenchView;

use self::arrival::Arrival;
use self::buddies::Buddies;
use self::machines::Machines;
use self::out_by::OutBySheet;
use self::rule::SessionRule;
use self::start_sheet::StartMachineSheet;
use self::times::{Facts, Times};
use crate::later::Close;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::kept::{Kept, kept};
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::route::Route;
use crate::screens::later::{Spot, later};
use crate::screens::look::{self, Look, LookUp};
use crate::screens::pocket;
use crate::screens::room::FoundSheet;
use crate::screens::why;
use crate::shell::address::{Step, use_go};
use crate::store::{AppView, use_app_view};
use crate::words::{bench as say, frame, room};

pub use self::rule::SessionRule as Rule;
pub use self::start_sweep::CrewSheet;
pub use self::tag_out::TagOutSheet;

/// What lies over Bench, or over Sweep.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Over {
    /// What a machine asks before it starts.
    Start(MachineId),
    /// Why a machine cannot be started.
    WhyNot(MachineId),
    /// Moves out-by.
    OutBy,
    /// How many sweep.
    Crew,
    /// Tags a machine out.
    TagOut,
    /// What of the bells reaches this phone.
    Pocket,
    /// Where the mess is.
    Mess,
    /// Something to look up.
    Look(Look),
    /// Why a time is what it is; without one, all of them.
    Why(Option<Mark>),
}

/// Asks why a time is what it is, or all of them.
pub fn asks(over: RwSignal<Option<Over>>, mark: Option<Mark>) -> Callback<()> {
    Callback::new(move |()| over.set(Some(Over::Why(mark))))
}

/// The screen.
#[component]
pub fn BenchScreen() -> impl IntoView {
    let view = use_app_view();
    let inside = kept(move || view.bench.with(Option::is_some));
    live(move || {
        if inside.get() {
            view! { <InSession /> }.into_any()
        } else {
            view! { <NoSession teach=frame::no_session_bench() /> }.into_any()
        }
    })
}

/// A field of Bench, as a value that changes only when it does; `None` while there is no session.
fn field<T: Clone + PartialEq + Send + Sync + 'static>(
    view: AppView,
    of: impl Fn(&BenchView) -> T + Send + Sync + 'static,
) -> Kept<Option<T>> {
    kept(move || view.bench.with(|bench| bench.as_ref().map(&of)))
}

#[component]
fn InSession() -> impl IntoView {
    let view = use_app_view();
    let over = RwSignal::new(None::<Over>);
    let title = field(view, |bench| say::title(&bench.room));
    view! {
        <main class="screen is-ruled">
            <SessionRule over />
            <div class="screen-body">
                <div class="first-look">
                    <h1 class="unseen">{live(move || title.get())}</h1>
                    <Times over />
                </div>
                <div class="further">
                    <Buddies />
                    <Arrival on_mess=move |()| over.set(Some(Over::Mess)) />
                    <Machines
                        on_start=move |id| over.set(Some(Over::Start(id)))
                        on_why_not=move |id| over.set(Some(Over::WhyNot(id)))
                    />
                    <QuietButton label=room::tag_out() on_press=move |()| over.set(Some(Over::TagOut)) />
                    <LookUp on_open=move |look| over.set(Some(Over::Look(look))) />
                    <Facts over />
                    {later(Spot::Unasked, move |later| (later.pocket)(over))}
                </div>
            </div>
            <div class="acts">
                <BigButton label=say::start_sweep() on_press=move |()| over.set(Some(Over::Crew)) />
            </div>
        </main>
        {overlay(over)}
    }
}

/// What lies over a screen, while something does.
pub fn overlay(over: RwSignal<Option<Over>>) -> AnyView {
    live(move || over.get().map(|what| sheet(what, over)))
}

fn sheet(what: Over, over: RwSignal<Option<Over>>) -> AnyView {
    let close = Callback::new(move |()| over.set(None));
    match what {
        Over::Start(machine) => view! { <StartMachineSheet machine on_close=close /> }.into_any(),
        Over::Crew => view! { <CrewSheet on_close=close /> }.into_any(),
        what => later(Spot::Sheet(close), move |later| (later.over_bench)(what.clone(), close)),
    }
}

/// The sheets of the later part.
pub fn later_sheet(what: Over, close: Close) -> AnyView {
    match what {
        Over::Start(_) | Over::Crew => ().into_any(),
        Over::WhyNot(machine) => view! { <WhyNotSheet machine on_close=close /> }.into_any(),
        Over::OutBy => view! { <OutBySheet on_close=close /> }.into_any(),
        Over::TagOut => view! { <TagOutSheet on_close=close /> }.into_any(),
        Over::Pocket => pocket::sheet(close),
        Over::Look(look) => look::sheet(look, close),
        Over::Why(mark) => why::sheet(mark, close),
        Over::Mess => view! { <FoundSheet condition=Condition::Mess on_close=close /> }.into_any(),
    }
}

/// Why a machine cannot be started, and what to do.
#[component]
fn WhyNotSheet(machine: MachineId, on_close: Callback<()>) -> impl IntoView {
    use crate::intent::{Ui, use_dispatch};
    use shared_core::refusal::Refusal;
    use shared_core::view::bench::Standing;

    let (view, dispatch) = (use_app_view(), use_dispatch());
    let id = machine.clone();
    let row = field(view, move |bench| bench.machines.iter().find(|row| row.id == id).cloned());
    let shown = row.get_untracked().flatten();
    let name = shown.as_ref().map(|row| row.name.clone()).unwrap_or_default();
    let refusal = shown.and_then(|row| match row.standing {
        Standing::Refused(refusal) => Some(refusal),
        Standing::Ready(_) | Standing::Running { .. } => None,
    });
    let wants_buddy = matches!(refusal, Some(Refusal::NoBuddy { .. }));
    let ask = move |()| {
        dispatch.ui(Ui::AskBuddy { machine: None, to: None });
        on_close.run(());
    };
    view! {
        <Sheet title=name close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                {refusal.map(|refusal| why::refused(&refusal, true))}
            </div>
            {wants_buddy
                .then(|| {
                    view! {
                        <div class="acts">
                            <BigButton label=say::ask_buddy() on_press=ask />
                        </div>
                    }.into_any()
                })}
        </Sheet>
    }
}

/// Bench and Sweep before there is a session: what will stand here, and the way to it.
#[component]
pub fn NoSession(teach: &'static str) -> impl IntoView {
    let go = use_go();
    view! {
        <main class="screen">
            <div class="screen-body is-centred">
                <h1>{frame::no_session()}</h1>
                <p>{teach}</p>
            </div>
            <div class="acts">
                <BigButton label=frame::to_door() on_press=move |()| go(Route::Door, Step::Onward) />
            </div>
        </main>
    }
}
