//! Welding filter shades against 29 CFR 1910.133(a)(5).

use shared_core::shade::{Process, Unit, least_shade, least_shade_of_stick};

use crate::table::rows;

#[test]
fn least_shades() {
    let mut seen = Vec::new();
    for row in rows(include_str!("../data/shades.csv"), 54) {
        let named = |process: &&Process| format!("{process:?}") == row.text("process");
        let process = *Process::ALL.iter().find(named).unwrap_or_else(|| panic!("{}", row.name()));
        let unit = match row.text("unit") {
            "Amperes" => Unit::Amperes,
            "PlateTenthsMm" => Unit::PlateTenthsMm,
            _ => Unit::None,
        };
        assert_eq!(process.unit(), unit, "{}", row.name());
        let value = row.text("value").parse().expect("a whole number");
        let shade = row.text("shade").parse().expect("a shade");
        assert_eq!(least_shade(process, value), Ok(shade), "{}", row.name());
        // Every band of the table is met by some row.
        let band = process.bands().iter().find(|band| band.from <= value && band.below.is_none_or(|end| value < end));
        seen.push((row.text("process").to_owned(), band.expect("a band").from));
    }
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), Process::ALL.iter().map(|process| process.bands().len()).sum::<usize>());
}

#[test]
fn electrodes() {
    for row in rows(include_str!("../data/shades-electrodes.csv"), 7) {
        let electrode = row.text("electrode_32nds").parse().expect("a whole number");
        let shade = row.text("shade").parse().expect("a shade");
        assert_eq!(least_shade_of_stick(30, electrode), Ok(shade), "{}", row.name());
    }
}
