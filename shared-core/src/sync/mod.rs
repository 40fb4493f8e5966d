//! How the log reaches the hub.

pub mod shop;
