//! Time at the leaves: clock times of the shop, and what is left until an instant or has gone since.
//!
//! A leaf wakes once a minute (the countdown once a second), not with every tick of `now`: each is a memo of the text
//! that is shown.

use leptos::prelude::*;
use shared_core::time::{Instant, Span};

use crate::parts::figures::clock;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::live;
use crate::store::AppView;
use crate::words::bench as say;

/// The shop's clock at an instant.
pub fn shop_clock(view: AppView, at: Instant) -> String {
    clock(at, offset_minutes(view, at))
}

/// Minutes east of UTC on the shop's clocks at an instant.
pub fn offset_minutes(view: AppView, at: Instant) -> i32 {
    view.shop.with(|shop| shop.as_ref().map_or(0, |shop| shop.utc_offset_minutes(at)))
}

/// Whole minutes until an instant, rounded up; negative past it.
pub fn minutes_until(view: AppView, at: Signal<Instant>) -> Kept<i64> {
    kept(move || left(at.get(), view.now.get()).minutes_up())
}

/// What is left until an instant, in whole seconds, as `now` is: five minutes are five at first, not six.
fn left(at: Instant, now: Instant) -> Span {
    Instant::from_ms(at.ms().div_euclid(1_000) * 1_000) - now
}

/// Whole minutes since an instant, rounded down.
pub fn minutes_since(view: AppView, at: Signal<Instant>) -> Kept<i64> {
    kept(move || -left(at.get(), view.now.get()).minutes_up())
}

/// A text that counts whole minutes until or since an instant.
#[component]
pub fn Minutes(
    /// The instant.
    #[prop(into)]
    at: Signal<Instant>,
    /// Whether minutes since it are counted, not until it.
    #[prop(optional)]
    since: bool,
    /// The words for so many minutes.
    says: fn(i64) -> String,
) -> impl IntoView {
    let view = crate::store::use_app_view();
    let minutes = if since { minutes_since(view, at) } else { minutes_until(view, at) };
    live(move || says(minutes.get().max(0)))
}

/// How long is left until the sweep, then until out-by, for those who listen: at a few minutes each, and silence between.
pub fn time_left() -> AnyView {
    let view = crate::store::use_app_view();
    let text = kept(move || {
        let times = view.bench.with(|bench| {
            let bench = bench.as_ref()?;
            Some((bench.times.as_ref().ok().map(|times| times.sweep_from), bench.out_by))
        });
        let now = view.now.get();
        times.and_then(|(sweep_from, out_by)| match sweep_from.filter(|at| *at > now) {
            Some(at) => spoken(at, now).map(|minutes| say::sweep_soon(&shop_clock(view, at), minutes)),
            None => spoken(out_by, now).map(|minutes| say::out_by_soon(&shop_clock(view, out_by), minutes)),
        })
    });
    live(move || text.get())
}

/// The minutes that are worth saying aloud: seldom while there is time, and never each minute.
fn spoken(at: Instant, now: Instant) -> Option<i64> {
    Some(left(at, now).minutes_up()).filter(|minutes| matches!(minutes, 1 | 5 | 10 | 15 | 30))
}

/// Minutes and seconds until an instant: `12:07`, `0:00` past it.
#[component]
pub fn Countdown(
    /// The instant.
    #[prop(into)]
    until: Signal<Instant>,
) -> impl IntoView {
    let view = crate::store::use_app_view();
    let text = kept(move || seconds_text(left(until.get(), view.now.get())));
    view! {
        <span class="countdown" role="timer">
            {live(move || text.get())}
        </span>
    }
}

fn seconds_text(left: Span) -> String {
    let seconds = (left.ms().max(0) + 999) / 1000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_just_begun_has_its_whole_length_left() {
        for (at_ms, now_ms, minutes) in
            [(300_700, 0, 5), (300_700, 1_000, 5), (300_700, 241_000, 1), (300_700, 300_000, 0), (300_700, 301_000, 0)]
        {
            let left = left(Instant::from_ms(at_ms), Instant::from_ms(now_ms));
            assert_eq!(left.minutes_up(), minutes, "{at_ms} at {now_ms}");
        }
    }

    #[test]
    fn what_is_left_is_said_at_few_moments() {
        let said = |left_s: i64| spoken(Instant::from_ms(left_s * 1_000), Instant::from_ms(0));
        let minutes: Vec<_> = (0..=3_600).filter_map(said).collect();
        for minute in [1, 5, 10, 15, 30] {
            assert_eq!(
                minutes.iter().filter(|said| **said == minute).count(),
                60,
                "{minute} min is said for one minute"
            );
        }
        assert_eq!(minutes.len(), 5 * 60);
    }

    #[test]
    fn a_countdown_rounds_up_and_stops_at_nothing() {
        for (left_ms, text) in [(90_000, "1:30"), (89_001, "1:30"), (1, "0:01"), (0, "0:00"), (-5_000, "0:00")] {
            assert_eq!(seconds_text(Span::from_ms(left_ms)), text, "{left_ms} ms");
        }
    }
}
