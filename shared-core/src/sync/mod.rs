//! How the log reaches the hub, and what others said comes back.
//!
//! Sans-IO: both ends are values that eat and emit messages, so that a simulator runs the very code that ships.
//! The phone's half is [`peer::Phone`], the hub's [`hub::Intake`]; the words are in [`message`], and what is said
//! outside the log in [`shop`].

pub mod hub;
pub mod message;
pub mod peer;
pub mod shop;
