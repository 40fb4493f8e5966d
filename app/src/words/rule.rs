//! What the steel rule says to who cannot see it.

use super::said::rule as said;
pub use super::said::rule::*;

/// Its times, as clock times.
pub fn says(first_bell: &str, sweep: &str, out_by: &str, last_spark: Option<&str>) -> String {
    let times = said::says(first_bell, out_by, sweep);
    last_spark.map_or_else(|| times.clone(), |at| [says_last_spark(at), times.clone()].join(" "))
}
