//! What the app is not: DESIGN.md section 7, in this order.

pub use super::said::cautions::title;
use super::said::cautions::{danger, defers, no_interlock, support};

/// The cautions.
pub fn lines() -> [&'static str; 4] {
    [support(), no_interlock(), defers(), danger()]
}
