//! Noise and vibration against 29 CFR 1910.95 App. A, NIOSH 98-126, 2003/10/EC, ISO 5349-1, 2002/44/EC and the HSE's
//! ready-reckoner. Tolerances are what the printing rounds away, or are named in the row.

use shared_core::exposure::noise::{Noise, minutes_left_before_action, noise};
use shared_core::exposure::vibration::{self, vibration};
use shared_core::sync::shop::{UtcOffset, day_from};
use shared_core::time::{Instant, MINUTE_MS, Span};

use crate::table::{Row, rows};

/// A working day, which every dose is a share of.
const DAY_HOURS: f64 = 8.0;

#[expect(clippy::cast_possible_truncation, reason = "published times are below a year")]
fn span(hours: f64) -> Span {
    Span::from_ms((hours * 3_600_000.0).round() as i64)
}

/// `90x240 95x120`: a level or magnitude, and minutes.
fn times(text: &str) -> Vec<(f64, Span)> {
    text.split(' ')
        .map(|time| {
            let (level, minutes) = time.split_once('x').expect("a level and minutes");
            let minutes: i64 = minutes.parse().expect("whole minutes");
            (level.parse().expect("a level"), Span::from_ms(minutes * MINUTE_MS))
        })
        .collect()
}

#[track_caller]
fn close(row: &Row, found: f64, published: f64, tolerance: f64) {
    assert!((found - published).abs() <= tolerance, "{}: found {found}, published {published}", row.name());
}

#[test]
fn osha_reference_durations() {
    for row in rows(include_str!("../data/osha-table-g16a.csv"), 51) {
        let a_day = noise(&[(row.number("level_dba"), span(DAY_HOURS))]);
        let allowed_hours = 100.0 * DAY_HOURS / a_day.osha_dose_pct;
        close(&row, allowed_hours, row.number("hours"), row.half_digit("hours"));
    }
}

#[test]
fn osha_dose_to_average() {
    for row in rows(include_str!("../data/osha-table-a1.csv"), 46) {
        let at_criterion = noise(&[(90.0, span(DAY_HOURS * row.number("dose_pct") / 100.0))]);
        close(&row, at_criterion.osha_dose_pct, row.number("dose_pct"), 0.001);
        let twa_dba = at_criterion.osha_twa_dba.expect("a dose has an average");
        close(&row, twa_dba, row.number("twa_dba"), row.half_digit("twa_dba"));
    }
}

#[test]
fn niosh_longest_exposures() {
    for row in rows(include_str!("../data/niosh-table-1-1.csv"), 51) {
        let a_day = noise(&[(row.number("level_dba"), span(DAY_HOURS))]);
        let allowed_s = 100.0 * DAY_HOURS * 3600.0 / a_day.niosh_dose_pct;
        let printed_s = row.number("hours") * 3600.0 + row.number("minutes") * 60.0 + row.number("seconds");
        close(&row, allowed_s, printed_s, row.number("tolerance_s"));
    }
}

/// NIOSH 98-126, Table 1-1, last row: from 130 to 140 dBA under a second, where only the first is printed with one.
#[test]
fn niosh_past_the_table() {
    for level_dba in 131..=140 {
        let second = noise(&[(f64::from(level_dba), span(1.0 / 3600.0))]);
        assert!(second.niosh_dose_pct > 100.0, "{level_dba} dBA");
    }
}

#[test]
fn noise_examples() {
    for row in rows(include_str!("../data/noise-examples.csv"), 39) {
        let Noise { osha_dose_pct, osha_twa_dba, niosh_dose_pct, lex_8h_dba } = noise(&times(row.text("times")));
        let found = match row.text("quantity") {
            "osha_dose_pct" => osha_dose_pct,
            "osha_twa_dba" => osha_twa_dba.expect("an average"),
            "niosh_dose_pct" => niosh_dose_pct,
            "lex_8h_dba" => lex_8h_dba.expect("a level"),
            other => panic!("no quantity `{other}`"),
        };
        close(&row, found, row.number("value"), row.number("tolerance"));
    }
}

/// What NIOSH prints as the longest exposure from 85 dBA on is also what is left before the first action value: its
/// dose of 100 % comes before OSHA's action level of 50 % there.
#[test]
fn niosh_time_left() {
    let fresh = noise(&[]);
    for row in rows(include_str!("../data/niosh-table-1-1.csv"), 51) {
        let level_dba = row.number("level_dba");
        let printed = row.number("hours") * 60.0 + row.number("minutes") + row.number("seconds") / 60.0;
        if level_dba >= 85.0 {
            let left = minutes_left_before_action(level_dba, &fresh).expect("it adds up");
            #[expect(clippy::cast_precision_loss, reason = "minutes of a day")]
            close(&row, left as f64, printed.floor(), 1.0);
        }
    }
}

#[test]
fn vibration_examples() {
    for row in rows(include_str!("../data/vibration-examples.csv"), 11) {
        let day = vibration(&times(row.text("times")));
        let found = match row.text("quantity") {
            "points" => day.points,
            "a8_ms2" => day.a8_ms2,
            other => panic!("no quantity `{other}`"),
        };
        close(&row, found, row.number("value"), row.number("tolerance"));
    }
}

#[test]
fn reckoner_points() {
    for row in rows(include_str!("../data/hse-reckoner.csv"), 88) {
        let day = vibration(&[(row.number("ms2"), span(row.number("minutes") / 60.0))]);
        close(&row, day.points, row.number("points"), 1e-6);
    }
}

/// Time to the action value from nothing; and time to the limit value, as points reached after that time.
#[test]
fn vibration_time_left() {
    let fresh = vibration(&[]);
    for row in rows(include_str!("../data/vibration-time-left.csv"), 10) {
        let ms2 = row.number("ms2");
        let left = vibration::minutes_left_before_action(ms2, &fresh).expect("it adds up");
        #[expect(clippy::cast_precision_loss, reason = "minutes of a day")]
        close(&row, left as f64, row.number("action_minutes").floor(), 0.0);
        let at_limit = vibration(&[(ms2, span(row.number("limit_minutes") / 60.0))]);
        close(&row, at_limit.points, 400.0, 0.5);
    }
}

/// Today is counted from the shop's midnight, whatever its clocks do that day.
#[test]
fn a_day_begins_at_the_shops_midnight() {
    let instant = |text: &str| Instant::parse(text).unwrap_or_else(|| panic!("{text}"));
    for row in rows(include_str!("../data/shop-days.csv"), 28) {
        let offset = |text: &str| {
            let (from, minutes) = text.split_once('=').expect("since when, and minutes");
            UtcOffset { from: instant(from), minutes: minutes.parse().expect("minutes") }
        };
        let offsets: Vec<UtcOffset> = row.text("offsets").split(' ').map(offset).collect();
        assert_eq!(day_from(&offsets, instant(row.text("at"))), instant(row.text("day_from")), "{}", row.name());
    }
}
