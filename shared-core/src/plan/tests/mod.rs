//! Tests of the plan: worked cases, published networks, and a slow obvious solver to compare with.
//!
//! [`shop`] builds rulebooks and [`checker`] judges schedules; neither knows how the solver works.

mod bounds;
mod checker;
mod effort;
mod ends;
mod explained;
mod property;
mod published;
pub(crate) mod shop;
mod whole;
mod worked;
