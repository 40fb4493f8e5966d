//! The signed log: what an entry looks like outside this program, and how it is proved whole.
//!
//! [`wire`] writes one entry as JSON, [`jws`] signs it with the device's key, [`chain`] holds a device's entries in
//! order, [`run`] opens many of them by one signature. A log needs no list of keys: each line carries the public key it verifies under, and each line names the
//! one before it. Who that device belongs to is somebody else's question (the hub's, or a card's).
//!
//! DESIGN.md section 5, "Log lines". Logs written by any release open for ever.

pub mod chain;
pub mod erased;
mod fields;
pub mod jws;
#[cfg(feature = "remember-proofs")]
mod proven;
pub mod run;
pub mod wire;

#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
