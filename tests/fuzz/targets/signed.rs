//! Signed lines: see `tests::properties::signed`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| tests::properties::signed::holds(bytes));
