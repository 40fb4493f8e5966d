//! The shop's offsets from UTC, worked out once so that phones need no time-zone database.
//!
//! From the start of last year, so that what phones show of the past is right too, to the end of the year after
//! next: always two years ahead. The list changes once a year, not with every request.

use chrono::{DateTime, Datelike as _, NaiveDate, Offset as _, TimeZone as _, Utc};
use chrono_tz::Tz;
use shared_core::sync::shop::UtcOffset;
use shared_core::time::{HOUR_MS, Instant, MINUTE_MS, Span};

/// The offsets of `zone` around `now`, ascending; one row per change. `None` for a name that no zone has.
pub(crate) fn offsets(zone: &str, now: Instant) -> Option<Vec<UtcOffset>> {
    let zone: Tz = zone.parse().ok()?;
    let year = DateTime::<Utc>::from_timestamp_millis(now.ms())?.year();
    let (mut at, end) = (new_year(year - 1)?, new_year(year + 3)?);
    let mut rows = vec![UtcOffset { from: at, minutes: minutes(zone, at) }];
    // No zone has ever changed twice within a day.
    let step = Span::from_ms(24 * HOUR_MS);
    while at < end {
        let next = at + step;
        let after = minutes(zone, next);
        if rows.last().is_some_and(|row| row.minutes != after) {
            rows.push(UtcOffset { from: change(zone, at, next), minutes: after });
        }
        at = next;
    }
    Some(rows)
}

/// The offsets of `zone` from before `first` to after `last`, however far apart they are.
pub(crate) fn offsets_between(zone: &str, first: Instant, last: Instant) -> Option<Vec<UtcOffset>> {
    let mut rows = offsets(zone, first)?;
    let mut at = first;
    while at < last {
        // Each list reaches two years ahead.
        at = (at + Span::from_ms(2 * 365 * 24 * HOUR_MS)).min(last);
        let known_to = rows.last().map(|row| row.from);
        rows.extend(offsets(zone, at)?.into_iter().filter(|row| Some(row.from) > known_to));
        rows.dedup_by_key(|row| row.minutes);
    }
    Some(rows)
}

/// The time of day on clocks in `zone`: `20:35`, `7:05` (as the app writes it), and seconds only if it is not a whole minute. UTC for a name that no
/// zone has.
pub(crate) fn clock(zone: &str, at: Instant) -> String {
    let zone: Tz = zone.parse().unwrap_or(Tz::UTC);
    let moment = DateTime::<Utc>::from_timestamp_millis(at.ms()).unwrap_or_default().with_timezone(&zone);
    let format = if at.ms().rem_euclid(MINUTE_MS) == 0 { "%-H:%M" } else { "%-H:%M:%S" };
    moment.format(format).to_string()
}

fn new_year(year: i32) -> Option<Instant> {
    let midnight = NaiveDate::from_ymd_opt(year, 1, 1)?.and_hms_opt(0, 0, 0)?;
    Some(Instant::from_ms(midnight.and_utc().timestamp_millis()))
}

/// Minutes east of UTC at `at`.
fn minutes(zone: Tz, at: Instant) -> i32 {
    let moment = DateTime::<Utc>::from_timestamp_millis(at.ms()).unwrap_or_default();
    zone.offset_from_utc_datetime(&moment.naive_utc()).fix().local_minus_utc() / 60
}

/// The first whole minute in (`before`, `after`] that has the offset of `after`.
fn change(zone: Tz, before: Instant, after: Instant) -> Instant {
    let (mut low, mut high) = (before, after);
    let wanted = minutes(zone, after);
    while (high - low).ms() > MINUTE_MS {
        let half = (high - low).ms() / 2 / MINUTE_MS * MINUTE_MS;
        let middle = low + Span::from_ms(half);
        if minutes(zone, middle) == wanted { high = middle } else { low = middle }
    }
    high
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;

    fn check(zone: &str, expected: &[(&str, i32)]) {
        let now = Instant::parse("2026-11-25T12:00:00Z").expect("an instant");
        let got = offsets(zone, now).expect(zone);
        let got: Vec<_> = got.iter().map(|row| (row.from.to_string(), row.minutes)).collect();
        let expected: Vec<_> = expected.iter().map(|(from, minutes)| ((*from).to_owned(), *minutes)).collect();
        assert_eq!(got.get(..expected.len()), Some(expected.as_slice()), "{zone}");
    }

    /// Directive 2000/84/EC, articles 2 and 3: last Sundays of March and October, 01:00 UTC. For New York: 15 U.S.C. 260a(a),
    /// second Sunday of March and first of November, 2:00 local. No change: from memory.
    #[test]
    fn changes_fall_where_the_law_puts_them() {
        check(
            "Europe/Berlin",
            &[
                ("2025-01-01T00:00:00Z", 60),
                ("2025-03-30T01:00:00Z", 120),
                ("2025-10-26T01:00:00Z", 60),
                ("2026-03-29T01:00:00Z", 120),
                ("2026-10-25T01:00:00Z", 60),
                ("2027-03-28T01:00:00Z", 120),
                ("2027-10-31T01:00:00Z", 60),
                ("2028-03-26T01:00:00Z", 120),
                ("2028-10-29T01:00:00Z", 60),
            ],
        );
        check(
            "America/New_York",
            &[("2025-01-01T00:00:00Z", -300), ("2025-03-09T07:00:00Z", -240), ("2025-11-02T06:00:00Z", -300)],
        );
        check("Asia/Kolkata", &[("2025-01-01T00:00:00Z", 330)]);
        assert_eq!(offsets("Asia/Kolkata", Instant::from_ms(0)).map(|rows| rows.len()), Some(1));
        assert_eq!(offsets("Nowhere/Land", Instant::from_ms(0)), None);
    }

    /// Python's zoneinfo; the table says which, and is made by the script beside it.
    #[test]
    fn offsets_equal_zoneinfos() {
        let csv = include_str!("../../tests/data/zone-offsets.csv");
        let mut zones: BTreeMap<&str, Vec<UtcOffset>> = BTreeMap::new();
        for row in csv.lines().filter(|line| !line.starts_with('#')).skip(1) {
            let [zone, from, minutes, ..] = row.split(',').collect::<Vec<_>>()[..] else { panic!("{row}") };
            let from = Instant::parse(from).expect(row);
            zones.entry(zone).or_default().push(UtcOffset { from, minutes: minutes.parse().expect(row) });
        }
        assert!(zones.len() >= 10, "zones are missing");
        let now = Instant::parse("2026-11-25T12:00:00Z").expect("an instant");
        for (zone, expected) in zones {
            assert_eq!(offsets(zone, now).as_ref(), Some(&expected), "{zone}");
        }
    }
}
