//! Words of Room that hold a length of time.

use super::said::room as said;
pub use super::said::room::*;
use super::time::{ago, length};

/// A round that is late.
pub fn round_late(minutes: i64) -> String {
    said::round_late(&ago(minutes))
}

/// A round that is not.
pub fn round_due(minutes: i64) -> String {
    said::round_due(&length(minutes))
}

/// How old what is known of somebody is.
pub fn heard(minutes: i64) -> String {
    said::heard(&ago(minutes))
}

/// How old a tag is.
pub fn tagged_since(minutes: i64) -> String {
    said::tagged_since(&ago(minutes))
}
