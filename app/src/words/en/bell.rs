//! Words of English: bells.

/// First.
pub const FIRST: &str = "Finish the pass you are on.";
/// Sweep.
pub const SWEEP: &str = "Stop. Start sweeping.";
/// Last.
pub const LAST: &str = "You are past your out-by.";
/// Last spark.
pub const LAST_SPARK: &str = "Last spark. No more hot work.";
/// Lapsing.
pub const LAPSING: &str = "Your buddy's word ends in 2 minutes.";
/// Lapsed.
pub const LAPSED: &str = "No buddy. Stop the machine.";
/// Above it: which bell.
pub fn name_first(clock: &str) -> String {
    format!("First bell, {clock}")
}
/// Which bell.
pub fn name_sweep(clock: &str) -> String {
    format!("Sweep bell, {clock}")
}
/// Which bell.
pub fn name_last(clock: &str) -> String {
    format!("Last bell, {clock}")
}
/// Which bell.
pub fn name_last_spark(clock: &str) -> String {
    format!("Last spark, {clock}")
}
/// Which bell.
pub fn name_buddy(machine: &str, clock: &str) -> String {
    format!("{machine}, {clock}")
}
/// It was late.
pub fn late(minutes: i64) -> String {
    format!("This bell is {} late: the phone was asleep or closed.", crate::words::en::minutes(minutes))
}
/// Then do this.
pub fn first_times(sweep: &str, out_by: &str) -> String {
    format!("Sweep from {sweep}. Out by {out_by}.")
}
/// Then do this.
pub const FIRST_NEXT: &str = "Then put down what needs no more work today.";
/// Then do this.
pub const SWEEP_NEXT: &str = "Switch off, let it run down, then the chores stand ready in their order.";
/// Then do this.
pub const LAST_NEXT: &str = "Finish or leave what is left, and say so by leaving. Or move your out-by if you may stay.";
/// Then do this.
pub const LAST_SPARK_NEXT: &str = "The fire watch needs the time that is left. Cold work is fine.";
/// Then do this.
pub const LAPSING_NEXT: &str = "Show them your code again, or come to a stop.";
/// Then do this.
pub const LAPSED_NEXT: &str = "When it stands still, ask someone in the room to scan your code.";
/// Heard.
pub const HEARD: &str = "Heard";
/// To Sweep.
pub const SWEEPING_NOW: &str = "To the sweep";
/// More time.
pub const MORE_TIME: &str = "I need more time";
/// Ask again.
pub const ASK_AGAIN: &str = "Ask again";
