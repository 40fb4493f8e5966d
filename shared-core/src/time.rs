//! Instants and minutes: the only place where arithmetic on time is written.
//!
//! An instant is UTC with millisecond precision, written per RFC 3339 (seconds alone when the milliseconds are
//! zero). Nothing here knows what time it is, and nothing knows a time zone: the hub hands out the shop's offsets.

use std::fmt;
use std::ops::{Add, Sub};

use chrono::{DateTime, SecondsFormat};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

/// Milliseconds in a minute.
pub const MINUTE_MS: i64 = 60_000;
/// Milliseconds in an hour.
pub const HOUR_MS: i64 = 3_600_000;
/// The instants that RFC 3339 can write in UTC: its years have four digits, 0000 to 9999.
const WRITABLE_MS: std::ops::Range<i64> = -62_167_219_200_000..253_402_300_800_000;

/// A moment: milliseconds since 1970-01-01T00:00:00Z, leap seconds not counted.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, borsh::BorshSerialize, borsh::BorshDeserialize,
)]
pub struct Instant(i64);

/// A signed length of time in milliseconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Span(i64);

impl Instant {
    /// The instant `ms` milliseconds after the epoch.
    pub const fn from_ms(ms: i64) -> Self {
        Self(ms)
    }

    /// Milliseconds since the epoch.
    pub const fn ms(self) -> i64 {
        self.0
    }

    /// Reads an RFC 3339 date and time; any offset is turned into UTC. One whose year then is not of four digits is
    /// refused: it could never be written again.
    pub fn parse(text: &str) -> Option<Self> {
        let ms = DateTime::parse_from_rfc3339(text).ok()?.timestamp_millis();
        WRITABLE_MS.contains(&ms).then_some(Self(ms))
    }

    /// The millisecond after this one; the last that can be written has none and is given itself.
    #[must_use]
    pub fn next(self) -> Self {
        let next = self.0.saturating_add(1);
        if WRITABLE_MS.contains(&next) { Self(next) } else { self }
    }
}

impl Span {
    /// No time at all.
    pub const ZERO: Self = Self(0);

    /// `ms` milliseconds.
    pub const fn from_ms(ms: i64) -> Self {
        Self(ms)
    }

    /// `minutes` minutes.
    pub const fn from_minutes(minutes: i64) -> Self {
        Self(minutes * MINUTE_MS)
    }

    /// Milliseconds.
    pub const fn ms(self) -> i64 {
        self.0
    }

    /// Whole minutes, rounded up; the one rounding of durations that people are shown or held to.
    pub const fn minutes_up(self) -> i64 {
        self.0.div_euclid(MINUTE_MS) + (self.0.rem_euclid(MINUTE_MS) != 0) as i64
    }

    /// Hours, for formulas that are stated in hours.
    #[expect(clippy::cast_precision_loss, reason = "a session's milliseconds fit a double exactly")]
    pub fn hours(self) -> f64 {
        self.0 as f64 / HOUR_MS as f64
    }
}

impl Add<Span> for Instant {
    type Output = Self;
    fn add(self, span: Span) -> Self {
        Self(self.0.saturating_add(span.0))
    }
}

impl Sub<Span> for Instant {
    type Output = Self;
    fn sub(self, span: Span) -> Self {
        Self(self.0.saturating_sub(span.0))
    }
}

impl Sub for Instant {
    type Output = Span;
    fn sub(self, earlier: Self) -> Span {
        Span(self.0.saturating_sub(earlier.0))
    }
}

impl Add for Span {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Span {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl std::iter::Sum for Span {
    fn sum<I: Iterator<Item = Self>>(spans: I) -> Self {
        spans.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Display for Instant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(moment) = DateTime::from_timestamp_millis(self.0) else {
            return write!(f, "{} ms after the epoch", self.0);
        };
        let digits = if self.0 % 1000 == 0 { SecondsFormat::Secs } else { SecondsFormat::Millis };
        f.write_str(&moment.to_rfc3339_opts(digits, true))
    }
}

impl Serialize for Instant {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Instant {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        Self::parse(&text).ok_or_else(|| D::Error::custom(format!("`{text}` is not an RFC 3339 date and time")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 3339 section 5.8, examples; the milliseconds are the RFC's own instants.
    #[test]
    fn reads_and_writes_rfc_3339() {
        for (text, ms, back) in [
            ("1985-04-12T23:20:50.52Z", 482_196_050_520, "1985-04-12T23:20:50.520Z"),
            ("1996-12-19T16:39:57-08:00", 851_042_397_000, "1996-12-20T00:39:57Z"),
            ("1937-01-01T12:00:27.87+00:20", -1_041_337_172_130, "1937-01-01T11:40:27.870Z"),
        ] {
            let instant = Instant::parse(text).expect(text);
            assert_eq!(instant.ms(), ms, "{text}");
            assert_eq!(instant.to_string(), back);
        }
        for bad in ["1985-04-31T00:00:00Z", "2100-02-29T00:00:00Z", "2026-01-01T24:00:00Z", "2026-01-01", ""] {
            assert_eq!(Instant::parse(bad), None, "{bad}");
        }
    }

    /// RFC 3339 section 1: dates and times are of the years 0000 to 9999.
    #[test]
    fn what_is_read_can_be_written() {
        for (text, read) in [
            ("0000-01-01T00:00:00Z", true),
            ("0000-01-01T00:00:00+00:01", false),
            ("9999-12-31T23:59:59.999Z", true),
            ("9999-12-31T23:59:59-00:01", false),
        ] {
            let instant = Instant::parse(text);
            assert_eq!(instant.is_some(), read, "{text}");
            assert_eq!(instant.and_then(|instant| Instant::parse(&instant.to_string())), instant);
        }
    }

    #[test]
    fn minutes_round_up_and_never_down() {
        for (ms, minutes) in [(0, 0), (1, 1), (59_999, 1), (60_000, 1), (60_001, 2), (-1, 0), (-60_001, -1)] {
            assert_eq!(Span::from_ms(ms).minutes_up(), minutes, "{ms} ms");
        }
    }
}
