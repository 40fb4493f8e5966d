//! The demo shop's start checks hold what the clauses ask: wheel gaps, compressed air, shades, sparks.

use shared_core::ids::MachineId;
use shared_core::shade::{Process, least_shade};

use crate::table::rows;

#[test]
fn the_demo_asks_what_the_clauses_ask() {
    let (book, _) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    let book = book.expect("the demo rulebook");
    for row in rows(include_str!("../data/start-checks.csv"), 18) {
        let machine = book.machine(&MachineId::from(row.text("machine"))).unwrap_or_else(|| panic!("{}", row.name()));
        let says = |check: &String| check.contains(row.text("words"));
        assert!(machine.start_checks.iter().any(says), "{}: {:?}", row.name(), machine.start_checks);
    }
}

/// The shades that the checks name are the table's.
#[test]
fn shades_that_are_named_are_the_tables() {
    for (process, amperes, shade) in
        [(Process::Stick, 159, 8), (Process::Tig, 149, 8), (Process::Wire, 200, 10), (Process::PlasmaCutting, 100, 8)]
    {
        assert_eq!(least_shade(process, amperes), Ok(shade), "{process:?}");
    }
}
