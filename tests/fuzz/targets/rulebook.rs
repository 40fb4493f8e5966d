//! Rulebooks in TOML: see `tests::properties::rulebook`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| tests::properties::rulebook::holds(bytes));
