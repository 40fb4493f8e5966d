//! What spans crates. The tests are beside this file, one binary a folder; here is only what they share with others:
//! what is run or timed on two targets, and what fuzzing asks.
//!
//! `cargo xtask parity` compiles this library for wasm32 and for the machine at hand, and compares what both say.

pub mod large_shop;
pub mod parity;
pub mod properties;
pub mod timed;
