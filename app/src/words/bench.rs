//! Words of Bench that hold a length of time.

use super::said::bench as said;
pub use super::said::bench::*;
use super::time::short;

/// How long it has run.
pub fn running(minutes: i64) -> String {
    said::running(&short(minutes))
}

/// Covered for so long.
pub fn covered(minutes: i64) -> String {
    said::covered(&short(minutes))
}

/// For how long somebody is a buddy.
pub fn buddy_left(minutes: i64) -> String {
    said::buddy_left(&short(minutes))
}
