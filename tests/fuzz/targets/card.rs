//! A hub's statements: see `tests::properties::card`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| tests::properties::card::holds(bytes));
