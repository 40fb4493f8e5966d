//! Logs of unsigned entries: see `tests::properties::log`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| tests::properties::log::holds(bytes));
