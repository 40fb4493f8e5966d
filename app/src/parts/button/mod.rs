//! Acts: the one main act of a screen, and all others.

mod big;
mod quiet;

pub use big::BigButton;
pub use quiet::{QuietButton, Strength};
