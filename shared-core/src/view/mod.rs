//! What a screen may say: plain data, made by pure functions of what is known and when.
//!
//! A screen shows these and nothing else, so what may be claimed is proved here: never "covered" on the strength of
//! anything older than its term, never a name dropped from the muster list. Instants are given, never minutes left:
//! what ticks is the leaf that draws. No layout and, but for refusals, no words.

pub mod bench;
pub mod board;
pub mod book;
pub mod buddy;
pub mod candidates;
pub mod door;
pub mod figures;
pub mod finds;
pub mod history;
pub mod incidents;
pub mod kept;
pub mod look;
pub mod moved;
pub mod people;
pub mod posted;
pub mod reach;
pub mod repairs;
pub mod room;
pub mod rounds;
#[cfg(test)]
mod skewed_clocks;
pub mod sweep;
pub mod thread;
pub mod today;
pub mod walk;
pub mod why;

pub use crate::viewer::Viewer;
