//! Recurring duties: when a round is next due, and whether it is late.
//!
//! A round is done again `every` so often, an ISO 8601 duration counted from the last time it was done. Months and
//! years are calendar months in UTC (31 January and a month is the end of February), because an inspection that is
//! monthly by law is not one of thirty days. Nothing here knows what time it is, or who should do the round.

use chrono::{DateTime, Months};

use crate::time::{Instant, Span};

/// How often, from an ISO 8601 duration such as `P1D`, `P1M` or `PT12H`. Never zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Every {
    months: u32,
    rest: Span,
}

/// How often, for people. What is less than a day is said as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Often {
    /// Every so many days.
    Days(i64),
    /// Every so many weeks.
    Weeks(i64),
    /// Every so many months.
    Months(i64),
    /// Every so many years.
    Years(i64),
}

/// How a round stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nobody has written down that it was ever done.
    NeverDone,
    /// Done; not due for a while.
    Done {
        /// When it must be done again.
        due: Instant,
    },
    /// In the last quarter of its time (a house rule, no source): the moment to do it without being late.
    Due {
        /// When it must be done again.
        due: Instant,
    },
    /// Late.
    Overdue {
        /// When it should have been done.
        due: Instant,
    },
}

impl Every {
    /// Reads `PnYnMnWnDTnHnMnS` with whole numbers, each part optional, at least one present and not all zero.
    pub fn parse(text: &str) -> Option<Self> {
        let (date, time) = match text.strip_prefix('P')?.split_once('T') {
            Some((_, "")) => return None,
            Some((date, time)) => (date, time),
            None => (text.strip_prefix('P')?, ""),
        };
        let [years, months, weeks, days] = parts(date, ['Y', 'M', 'W', 'D'])?;
        let [hours, minutes, seconds, _] = parts(time, ['H', 'M', 'S', '\0'])?;
        let months = years * 12 + months;
        let seconds = (weeks * 7 + days) * 86_400 + hours * 3600 + minutes * 60 + seconds;
        let every = Self { months: u32::try_from(months).ok()?, rest: Span::from_ms(seconds * 1000) };
        (every.months > 0 || every.rest > Span::ZERO).then_some(every)
    }

    /// As people say it, in the largest unit that it is whole in: months, or else days; each with how many.
    pub fn said(self) -> Often {
        const DAY_MS: i64 = 24 * 60 * 60 * 1000;
        let days = (self.rest.ms() + DAY_MS - 1) / DAY_MS;
        match (i64::from(self.months), days) {
            (0, days) if days % 7 == 0 => Often::Weeks(days / 7),
            (0, days) => Often::Days(days),
            (months, 0) if months % 12 == 0 => Often::Years(months / 12),
            (months, 0) => Often::Months(months),
            // No month is longer.
            (months, days) => Often::Days(months * 31 + days),
        }
    }

    /// When a round that was done at `done` is due again.
    pub fn after(self, done: Instant) -> Instant {
        let later = DateTime::from_timestamp_millis(done.ms())
            .and_then(|moment| moment.checked_add_months(Months::new(self.months)))
            .map_or(Instant::from_ms(i64::MAX), |moment| Instant::from_ms(moment.timestamp_millis()));
        later + self.rest
    }
}

/// How a round stands at `now`, if it was last done then.
pub fn standing(every: Every, last_done: Option<Instant>, now: Instant) -> Standing {
    let Some(done) = last_done else { return Standing::NeverDone };
    let due = every.after(done);
    let last_quarter = due - Span::from_ms((due - done).ms() / 4);
    if now >= due {
        Standing::Overdue { due }
    } else if now >= last_quarter {
        Standing::Due { due }
    } else {
        Standing::Done { due }
    }
}

/// The numbers before each of `units`, which come in that order; `None` if anything else stands there. A number has
/// at most six digits, so that no sum of them overflows.
fn parts(mut text: &str, units: [char; 4]) -> Option<[i64; 4]> {
    let mut numbers = [0; 4];
    for (number, unit) in numbers.iter_mut().zip(units) {
        let digits = text.bytes().take_while(u8::is_ascii_digit).count();
        if let Some(rest) = text.get(digits..).and_then(|rest| rest.strip_prefix(unit)) {
            if digits > 6 {
                return None;
            }
            *number = text.get(..digits)?.parse().ok()?;
            text = rest;
        }
    }
    text.is_empty().then_some(numbers)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Instant {
        Instant::parse(text).expect(text)
    }

    /// ISO 8601-1 section 5.5.2, "duration": the shapes that a rulebook may write.
    #[test]
    fn reads_durations() {
        for (every, due) in [
            ("P1D", "2026-02-01T21:30:00Z"),
            ("P1W", "2026-02-07T21:30:00Z"),
            ("P7D", "2026-02-07T21:30:00Z"),
            ("P1M", "2026-02-28T21:30:00Z"),
            ("P1Y", "2027-01-31T21:30:00Z"),
            ("P12M", "2027-01-31T21:30:00Z"),
            ("PT12H", "2026-02-01T09:30:00Z"),
            ("PT90M", "2026-01-31T23:00:00Z"),
            ("P1Y2M3W4DT5H6M7S", "2027-04-26T02:36:07Z"),
        ] {
            let read = Every::parse(every).expect(every);
            assert_eq!(read.after(at("2026-01-31T21:30:00Z")), at(due), "{every}");
        }
        for bad in [
            "",
            "P",
            "PT",
            "P0D",
            "P1DT",
            "1D",
            "p1d",
            "P-1D",
            "P1.5D",
            "P1H",
            "P1D1W",
            "P1DD",
            "P1",
            "PD",
            "P9999999D",
            "P1D ",
        ] {
            assert_eq!(Every::parse(bad), None, "{bad:?}");
        }
    }

    #[test]
    fn how_often_is_said_in_whole_units() {
        for (every, said) in [
            ("P1D", Often::Days(1)),
            ("PT12H", Often::Days(1)),
            ("P1W", Often::Weeks(1)),
            ("P10D", Often::Days(10)),
            ("P3M", Often::Months(3)),
            ("P1Y", Often::Years(1)),
            ("P1M1D", Often::Days(32)),
        ] {
            assert_eq!(Every::parse(every).map(Every::said), Some(said), "{every}");
        }
    }

    /// 29 CFR 1910.157(e)(2): extinguishers are looked at monthly. 29 CFR 1910.106(e)(9)(iii): waste goes daily.
    #[test]
    fn says_what_is_due() {
        let monthly = Every::parse("P1M").expect("a month");
        let daily = Every::parse("P1D").expect("a day");
        let done = at("2026-03-01T20:00:00Z");
        let due = at("2026-04-01T20:00:00Z");
        let tomorrow = at("2026-03-02T20:00:00Z");
        for (every, last, now, standing_then) in [
            (monthly, None, "2026-03-05T00:00:00Z", Standing::NeverDone),
            (monthly, Some(done), "2026-03-01T20:00:00Z", Standing::Done { due }),
            (monthly, Some(done), "2026-03-25T01:59:59Z", Standing::Done { due }),
            (monthly, Some(done), "2026-03-25T02:00:00Z", Standing::Due { due }),
            (monthly, Some(done), "2026-04-01T19:59:59Z", Standing::Due { due }),
            (monthly, Some(done), "2026-04-01T20:00:00Z", Standing::Overdue { due }),
            (daily, Some(done), "2026-03-02T13:59:59Z", Standing::Done { due: tomorrow }),
            (daily, Some(done), "2026-03-02T14:00:00Z", Standing::Due { due: tomorrow }),
            (daily, Some(done), "2026-03-03T09:00:00Z", Standing::Overdue { due: tomorrow }),
        ] {
            assert_eq!(standing(every, last, at(now)), standing_then, "{now}");
        }
    }

    #[test]
    fn a_date_past_all_calendars_is_never_due() {
        let every = Every::parse("P999999Y").expect("long");
        let done = at("2026-03-01T20:00:00Z");
        assert!(matches!(standing(every, Some(done), at("2099-01-01T00:00:00Z")), Standing::Done { .. }));
    }
}
