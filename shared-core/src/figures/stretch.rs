//! The stretch of time that figures are about: this month, the last one, or all that is kept.
//!
//! Months are the shop's own, by its offsets from UTC. A session belongs to the stretch in which it began, whole, so that
//! months add up; what has no session belongs to the one in which it happened.

use chrono::{DateTime, Datelike as _, Months, NaiveDate};
use serde::Serialize;

use crate::state::State;
use crate::sync::shop::{UtcOffset, day_from, offset_minutes};
use crate::time::{HOUR_MS, Instant, Span};

/// Half a day: at noon no clock is ever put forward or back.
const NOON: Span = Span::from_ms(12 * HOUR_MS);

/// Which stretch.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Reach {
    /// The month that it is, so far.
    #[default]
    ThisMonth,
    /// The month before.
    LastMonth,
    /// All that is kept.
    All,
}

impl Reach {
    /// All of them, the nearest first.
    pub const ALL: [Self; 3] = [Self::ThisMonth, Self::LastMonth, Self::All];
}

/// A half-open stretch of time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Stretch {
    /// From when.
    pub from: Instant,
    /// Until when.
    pub to: Instant,
}

impl Stretch {
    /// What a reach means at `now`. All that is kept goes from the day of the first thing that is known to now.
    pub fn of(reach: Reach, state: &State, offsets: &[UtcOffset], now: Instant) -> Self {
        let this = Self::month_of(offsets, now);
        match reach {
            Reach::ThisMonth => Self { to: now, ..this },
            Reach::LastMonth => Self::month_of(offsets, this.from - NOON),
            Reach::All => Self { from: first(state).map_or(this.from, |first| day_from(offsets, first)), to: now },
        }
    }

    /// The shop's month that holds an instant.
    pub fn month_of(offsets: &[UtcOffset], at: Instant) -> Self {
        let first = date(offsets, at).and_then(|date| date.with_day(1)).unwrap_or_default();
        let next = first.checked_add_months(Months::new(1)).unwrap_or(first);
        Self { from: begin(offsets, first), to: begin(offsets, next) }
    }

    /// Whether an instant lies in it.
    pub fn holds(&self, at: Instant) -> bool {
        self.from <= at && at < self.to
    }

    /// How much of what goes on from `from` to `to` lies in it.
    pub fn shares(&self, from: Instant, to: Instant) -> Span {
        let within = to.min(self.to) - from.max(self.from);
        within.max(Span::ZERO)
    }
}

/// The shop's date.
fn date(offsets: &[UtcOffset], at: Instant) -> Option<NaiveDate> {
    let local = at + Span::from_minutes(i64::from(offset_minutes(offsets, at)));
    Some(DateTime::from_timestamp_millis(local.ms())?.date_naive())
}

/// When a date of the shop's begins.
fn begin(offsets: &[UtcOffset], date: NaiveDate) -> Instant {
    let midnight_utc = Instant::from_ms(date.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis());
    let noon_utc = midnight_utc + NOON;
    day_from(offsets, noon_utc - Span::from_minutes(i64::from(offset_minutes(offsets, noon_utc))))
}

/// When the first thing happened that is known.
fn first(state: &State) -> Option<Instant> {
    let sessions = state.sessions.values().map(|session| session.from);
    let found = state.found.iter().map(|found| found.at);
    let tags = state.tag_words.values().filter_map(|words| words.first()).map(|word| word.at);
    let rounds = state.rounds_done.values().filter_map(|done| done.first()).map(|done| done.at);
    sessions.chain(found).chain(tags).chain(rounds).min()
}

/// The shop's weekday, Monday first, and hour of the day.
pub fn weekday_and_hour(offsets: &[UtcOffset], at: Instant) -> (usize, usize) {
    let local = at.ms() + i64::from(offset_minutes(offsets, at)) * crate::time::MINUTE_MS;
    let hours = local.div_euclid(HOUR_MS);
    // 1 January 1970 was a Thursday.
    let weekday = (hours.div_euclid(24) + 3).rem_euclid(7);
    (usize::try_from(weekday).unwrap_or(0), usize::try_from(hours.rem_euclid(24)).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instant(text: &str) -> Instant {
        Instant::parse(text).expect(text)
    }

    /// Clocks of Amsterdam in 2026: forward on 29 March at 01:00 UTC, back on 25 October at 01:00 UTC (Directive 2000/84/EC,
    /// articles 2 and 3).
    fn amsterdam() -> Vec<UtcOffset> {
        [("2025-10-26T01:00:00Z", 60), ("2026-03-29T01:00:00Z", 120), ("2026-10-25T01:00:00Z", 60)]
            .map(|(from, minutes)| UtcOffset { from: instant(from), minutes })
            .to_vec()
    }

    #[test]
    fn months_are_the_shops_own() {
        let offsets = amsterdam();
        for (now, reach, from, to) in [
            ("2026-03-31T21:59:59Z", Reach::ThisMonth, "2026-02-28T23:00:00Z", "2026-03-31T21:59:59Z"),
            ("2026-03-31T22:00:00Z", Reach::ThisMonth, "2026-03-31T22:00:00Z", "2026-03-31T22:00:00Z"),
            ("2026-03-31T22:00:00Z", Reach::LastMonth, "2026-02-28T23:00:00Z", "2026-03-31T22:00:00Z"),
            ("2026-01-05T12:00:00Z", Reach::LastMonth, "2025-11-30T23:00:00Z", "2025-12-31T23:00:00Z"),
            ("2026-11-02T12:00:00Z", Reach::LastMonth, "2026-09-30T22:00:00Z", "2026-10-31T23:00:00Z"),
            ("2026-11-02T12:00:00Z", Reach::All, "2026-10-31T23:00:00Z", "2026-11-02T12:00:00Z"),
        ] {
            let stretch = Stretch::of(reach, &State::default(), &offsets, instant(now));
            assert_eq!(stretch, Stretch { from: instant(from), to: instant(to) }, "{reach:?} at {now}");
        }
    }

    /// Weekdays: 29 March 2026 is a Sunday (a last Sunday of March, as the directive has it).
    #[test]
    fn weekdays_and_hours_are_the_shops_own() {
        for (at, weekday, hour) in [
            ("2026-03-29T00:59:59Z", 6, 1),
            ("2026-03-29T01:00:00Z", 6, 3),
            ("2026-03-29T22:00:00Z", 0, 0),
            ("1970-01-01T00:00:00Z", 3, 1),
        ] {
            assert_eq!(weekday_and_hour(&amsterdam(), instant(at)), (weekday, hour), "{at}");
        }
    }

    #[test]
    fn a_share_is_what_lies_within() {
        let minute = |minute: i64| Instant::from_ms(minute * 60_000);
        let stretch = Stretch { from: minute(10), to: minute(20) };
        for (from, to, shared) in
            [(0, 10, 0), (0, 12, 2), (12, 15, 3), (15, 40, 5), (20, 30, 0), (0, 40, 10), (15, 12, 0)]
        {
            assert_eq!(stretch.shares(minute(from), minute(to)), Span::from_minutes(shared), "{from} to {to}");
        }
    }
}
