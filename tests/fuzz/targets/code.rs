//! Scanned texts: see `tests::properties::code`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| tests::properties::code::holds(bytes));
