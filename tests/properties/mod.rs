//! What holds of any input whatever: each function takes bytes that somebody else wrote, and panics if it does not.
//!
//! The fuzz targets of `tests/fuzz` look for bytes that break one of these; `tests/fuzzed` asks them again of all that
//! was found, and of the seeds. Reading may refuse anything, but never panic, and what it takes must mean one thing.
//!
//! Nothing is expected here of a particular input, and nothing is random.

pub mod card;
pub mod code;
pub mod log;
pub mod rulebook;
pub mod signed;

use shared_core::entry::{Entry, Fact};
use shared_core::log::wire;

/// One property by the name of its fuzz target.
pub type Property = fn(&[u8]);

/// All of them.
pub const ALL: &[(&str, Property)] = &[
    ("rulebook", rulebook::holds),
    ("log", log::holds),
    ("signed", signed::holds),
    ("card", card::holds),
    ("code", code::holds),
];

/// An entry as it is after being written and read: a chore's minutes travel to the thousandth, and of a fact that this
/// version does not know the name alone is left.
fn as_written(entry: &Entry) -> Entry {
    let mut entry = entry.clone();
    if let Fact::ChoreDone { minutes: Some(minutes), .. } = &mut entry.fact {
        *minutes = (*minutes * 1_000.0).round() / 1_000.0;
    }
    entry
}

/// Writes an entry that was read, and reads it again.
///
/// # Panics
///
/// If it comes back as another entry. One that was read at the limit of length may be longer when written out in full.
fn comes_back(entry: &Entry) {
    let written = wire::write(entry);
    match wire::read_line(&written) {
        Ok(again) => {
            assert_eq!(again, as_written(entry), "{written}");
            assert_eq!(wire::write(&again), written, "written twice, it differs");
        }
        Err(wire::WireFault::TooLong { .. }) => assert!(written.len() > wire::BODY_BYTES_MAX, "{written}"),
        Err(fault) => panic!("{fault}: {written}"),
    }
}
