//! The shop's clock against Python's zoneinfo: sessions across midnight and across changes of the clocks, in thirteen zones.
//!
//! That the hub hands out these very offsets is the hub's own test, and that the app draws these very times the app's; all
//! three read the same tables.

use std::collections::BTreeMap;

use shared_core::sync::shop::{UtcOffset, offset_minutes};
use shared_core::time::{Instant, MINUTE_MS};

use crate::table::rows;

#[test]
fn the_shops_clock_shows_what_zoneinfo_shows() {
    let at = |text: &str| Instant::parse(text).expect("RFC 3339");
    let mut zones: BTreeMap<String, Vec<UtcOffset>> = BTreeMap::new();
    for row in rows(include_str!("../data/zone-offsets.csv"), 93) {
        let minutes = row.text("minutes").parse().expect("whole minutes");
        zones.entry(row.text("zone").into()).or_default().push(UtcOffset { from: at(row.text("from")), minutes });
    }
    for row in rows(include_str!("../data/zone-clock.csv"), 584) {
        let at = at(row.text("at"));
        let east = i64::from(offset_minutes(&zones[row.text("zone")], at));
        let minute = (at.ms().div_euclid(MINUTE_MS) + east).rem_euclid(24 * 60);
        assert_eq!(format!("{}:{:02}", minute / 60, minute % 60), row.text("clock"), "{}", row.name());
    }
}
