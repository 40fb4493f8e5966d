//! What spans crates. The tests are beside this file, one binary a folder; here is only what is run on two targets.
//!
//! `cargo xtask parity` compiles this library for wasm32 and for the machine at hand, and compares what both say.

pub mod parity;
