//! The signed log.
