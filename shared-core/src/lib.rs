//! The rules of a shared workshop's sessions.
//!
//! Two verbs stand at the centre: [`decide`] turns a command into facts or a refusal, [`state::fold`] turns facts
//! into state. Everything else is a question asked of the state and the rulebook.
//!
//! Pure: no I/O, no clock, no random numbers. Time and entropy are arguments; the same input gives the same bytes
//! natively and on wasm32. No view is drawn here and no word of a screen's layout is known; refusals and the
//! reasons of a time (`plan::explain`) are the exception, because what binds a person is a rule.
//!
//! Reading order: words first, then what can be said, then what follows from it.

pub mod air;
pub mod attestation;
pub mod base64url;
pub mod bell;
pub mod buddy;
pub mod calendar;
pub mod calibration;
pub mod call;
pub mod card;
pub mod chores;
pub mod clock;
pub mod code;
pub mod command;
pub mod decide;
pub mod entry;
pub mod estimate;
pub mod exposure;
pub mod figures;
pub mod fire;
pub mod fire_watch;
pub mod ids;
pub mod in_room;
pub mod interval;
pub mod json;
pub mod log;
pub mod material;
pub mod members;
pub mod ordered;
pub mod pin;
pub mod plan;
pub mod refusal;
pub mod repair;
pub mod report;
pub mod retention;
pub mod roster;
pub mod round;
pub mod rulebook;
pub mod session_plan;
pub mod shade;
pub mod standing;
pub mod state;
pub mod sync;
#[cfg(test)]
pub(crate) mod testing;
pub mod time;
pub mod trace;
pub mod view;
pub mod viewer;
pub mod words;
