//! Words of Door that hold a length of time.

use super::said::door as said;
pub use super::said::door::*;
use super::time::short;

/// A choice of out-by, beside its clock time.
pub fn in_hours(minutes: i64) -> String {
    said::in_hours(&short(minutes))
}
