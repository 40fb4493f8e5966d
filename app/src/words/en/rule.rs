//! Words of English: the steel rule.

/// Its name.
pub const TITLE: &str = "Your session as a steel rule";
/// Past.
pub const PAST: &str = "gone";
/// Until the sweep.
pub const WORK: &str = "work";
/// The sweep.
pub const SWEEP: &str = "sweep";
/// The watch.
pub const WATCH: &str = "fire watch";
/// The notch.
pub const LAST_SPARK: &str = "last spark";
/// The end stop.
pub const OUT_BY: &str = "out by";
/// Past it.
pub const OVER: &str = "over";
/// What it says, in words; clock times.
pub fn says(first_bell: &str, sweep: &str, out_by: &str, last_spark: Option<&str>) -> String {
    let spark = last_spark.map(|at| format!("Last spark {at}. ")).unwrap_or_default();
    format!("{spark}First bell {first_bell}, sweep from {sweep}, out by {out_by}.")
}
/// Without a plan.
pub fn says_out_by(out_by: &str) -> String {
    format!("Out by {out_by}.")
}
