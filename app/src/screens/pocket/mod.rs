//! What of the bells reaches this phone now, said in a line on Bench; and the sheet that arms what is not.
//!
//! Says no more than is known. A web page alone rings no locked phone without a network, so it asks for the phone's own timer,
//! whose only witness is its owner; a calendar file is a backup, and said to be one.

mod browsers;
mod hub;
mod manner;
mod timer;
mod trial;

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::bell::Bell;
use shared_core::time::Span;
use shared_core::view::reach::Timer;

pub use self::hub::{Offer, line};

use self::browsers::browsers;
use self::manner::Manner;
use self::timer::TimerAndCalendar;
use self::trial::coming;
use super::bell::as_notice;
use super::bench::Over;
use super::time::shop_clock;
use crate::later::Close;
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::shell::bell::{Strength, audible, ring, show_notice};
use crate::shell::wake_lock::is_lit;
use crate::store::{AppView, Ringing, use_app_view};
use crate::words::{frame, pocket as say};

/// The line on Bench, and the way to the sheet.
pub fn on_bench(over: RwSignal<Option<Over>>) -> AnyView {
    let view = use_app_view();
    view! {
        <section class="pocket-line">
            {line(Offer::Nothing)}
            <p class="soft">{screen(view)} " " {own_timer(view, Some(say::own_timer()))}</p>
            <QuietButton label=say::more() on_press=move |()| over.set(Some(Over::Pocket)) />
        </section>
    }
    .into_any()
}

/// Whether the screen stays lit and may be heard, as the browser says this minute.
fn screen(view: AppView) -> AnyView {
    let stands = kept(move || {
        view.now.get();
        (is_lit(), audible())
    });
    live(move || {
        let (lit, heard) = stands.get();
        let (lit, heard) = (if lit { say::lit() } else { say::dark() }, if heard { say::heard() } else { say::mute() });
        view! { {lit} " " {heard} }.into_any()
    })
    .into_any()
}

/// The phone's own timer, as its owner said; else what to say where none is set.
fn own_timer(view: AppView, none: Option<&'static str>) -> AnyView {
    let timer = kept(move || view.bench.with(|bench| bench.as_ref().map(|bench| bench.timer)));
    live(move || match timer.get()? {
        Timer::NotSet => none.map(IntoAny::into_any),
        Timer::Set { rings_at } => Some(say::timer_rings(&shop_clock(view, rings_at)).into_any()),
        Timer::TooLate { rings_at } => {
            let text = say::timer_late(&shop_clock(view, rings_at));
            Some(view! { <strong>{text}</strong> }.into_any())
        }
    })
    .into_any()
}

/// The sheet: each way to be reached, what of it is armed, and one touch to arm it.
pub fn sheet(on_close: Close) -> AnyView {
    let view = use_app_view();
    let try_it = move |()| {
        ring(Strength::Full);
        let now = view.now.get_untracked();
        let (title, body) = as_notice(&Ringing { bell: Bell::Sweep, at: now, late: Span::default(), machine: None });
        let body = [say::only_a_try(), &body].join(" ");
        wasm_bindgen_futures::spawn_local(async move {
            show_notice(&title, &body).await;
        });
    };
    view! {
        <Sheet title=say::more() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <section class="pocket-way">
                    <h2>{say::in_view()}</h2>
                    <p>{screen(view)} " " {say::in_view_how()}</p>
                    <QuietButton label=say::try_it() on_press=try_it />
                </section>
                <section class="pocket-way">
                    <h2>{say::with_network()}</h2>
                    {line(Offer::Trial)}
                    {coming()}
                </section>
                <TimerAndCalendar />
                <Manner />
                {browsers()}
            </div>
        </Sheet>
    }
    .into_any()
}
