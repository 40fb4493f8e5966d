//! Words of English: working.

/// Heading for screen readers.
pub fn title(room: &str) -> String {
    format!("Bench, {room}")
}
/// Above the big number.
pub fn sweep_in(clock: &str) -> String {
    format!("Sweep from {clock}, in")
}
/// When that is past.
pub fn sweep_since(clock: &str) -> String {
    format!("Sweep was due at {clock}, late by")
}
/// Beside the big number.
pub const MIN: &str = "min";
/// The end stop.
pub const OUT_BY: &str = "Out by";
/// Moves it, beside its label.
pub const MOVE_IT: &str = "move";
/// Moves it.
pub const MOVE_OUT_BY: &str = "Move out-by";
/// Hot work ended too late for its watch and the chores.
pub fn out_by_cannot_be_kept(free_at: &str) -> String {
    format!("Hot work ended late. After the fire watch and the sweep it is {free_at}: past your out-by.")
}
/// What to do then.
pub const STAY_AND_MOVE: &str = "Stay for the watch, and move your out-by.";
/// Free, starting now.
pub const FREE_AT: &str = "Free, if you sweep now";
/// The plan is a good one, not proven the best.
pub const NOT_PROVEN: &str = "So many chores that this plan is a good one, not proven the shortest.";
/// The main act.
pub const START_SWEEP: &str = "Start sweeping";
/// The machines.
pub const MACHINES: &str = "Machines";
/// None in this room.
pub const NO_MACHINES: &str =
    "No machines stand in this room. Hand work needs no start; the sweep waits for you all the same.";
/// Starts one.
pub const START: &str = "Start";
/// Stops one.
pub const STOP: &str = "Stop";
/// Explains.
pub const WHY_NOT: &str = "Why not?";
/// To a screen reader.
pub fn act_on(act: &str, machine: &str) -> String {
    format!("{act}: {machine}")
}
/// How long it has run.
pub fn running(minutes: i64) -> String {
    format!("runs, {}", crate::words::en::minutes_short(minutes))
}
/// It asks for a buddy.
pub const NEEDS_BUDDY: &str = "asks for a buddy";
/// It makes sparks.
pub const HOT_WORK: &str = "hot work";
/// Any foot can start it.
pub const PEDAL: &str = "pedal: any foot starts it";
/// Covered for so long.
pub fn covered(minutes: i64) -> String {
    format!("buddy for {} more", crate::words::en::minutes_short(minutes))
}
/// Uncovered.
pub const UNCOVERED: &str = "No buddy now. Stop it, or ask again.";
/// A buddy.
pub fn buddy(name: &str) -> String {
    format!("{name} is your buddy")
}
/// For how long.
pub fn buddy_left(minutes: i64) -> String {
    format!("{} left", crate::words::en::minutes_short(minutes))
}
/// Nobody.
pub const NO_BUDDY: &str = "Nobody is your buddy yet. Some machines here ask for one.";
/// Asks for one.
pub const ASK_BUDDY: &str = "Ask for a buddy";
/// Asks again.
pub const ASK_AGAIN: &str = "Ask again";
/// Before a machine starts.
pub const WEAR: &str = "Wear";
/// And never.
pub const NEVER: &str = "Take off";
/// Then check.
pub const CHECK: &str = "Check";
/// What is worked.
pub const MATERIAL: &str = "What are you working?";
/// What it must not work.
pub fn refuses(materials: &str) -> String {
    format!("Never in this machine: {materials}.")
}
/// None of those.
pub const MATERIAL_OTHER: &str = "None of those";
/// Starts it.
pub const ALL_SO: &str = "All so. Start";
/// Nothing to check.
pub const NOTHING_TO_CHECK: &str = "The rulebook asks nothing more of this machine. Look it over all the same.";
/// How many sweep.
pub const CREW: &str = "How many of you sweep?";
/// Machines that run stop.
pub const CREW_WHY: &str = "Machines that still run count as stopped. Switch them off first.";
/// One.
pub const CREW_ONE: &str = "Just me";
/// More.
pub fn crew(count: u32) -> String {
    format!("{count} of us")
}
/// Moves the out-by.
pub fn move_to(clock: &str) -> String {
    format!("Out by {clock}")
}
/// Statements lapse.
pub fn lapses(clock: &str) -> String {
    format!("What you confirmed at the door holds until {clock}.")
}
