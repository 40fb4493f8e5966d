//! When rounds are due against dateutil's calendar: the end of short months, leap days, years, weeks and hours.

use shared_core::round::Every;
use shared_core::time::Instant;

use crate::table::rows;

#[test]
fn rounds_are_due_when_the_calendar_says() {
    let at = |text: &str| Instant::parse(text).expect("RFC 3339");
    for row in rows(include_str!("../data/round-due.csv"), 404) {
        let every = Every::parse(row.text("every")).unwrap_or_else(|| panic!("{}", row.name()));
        assert_eq!(every.after(at(row.text("done"))), at(row.text("due")), "{}", row.name());
    }
}

/// The duties that the law gives a frequency for are in the demo shop at that frequency or oftener.
#[test]
fn the_demo_shop_keeps_the_rounds_that_the_law_asks_for() {
    let (book, problems) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    assert_eq!(problems, []);
    let book = book.expect("a rulebook without problems");
    let done = Instant::parse("2026-02-01T12:00:00Z").expect("RFC 3339");
    for row in rows(include_str!("../data/round-frequencies.csv"), 4) {
        let asked = Every::parse(row.text("every")).expect("a duration").after(done);
        let kept = book.rounds.iter().filter(|round| round.id.as_str().starts_with(row.text("rounds")));
        let kept: Vec<Instant> = kept.map(|round| Every::parse(&round.every).expect("linted").after(done)).collect();
        assert!(!kept.is_empty() && kept.iter().all(|due| *due <= asked), "{}", row.name());
    }
}
