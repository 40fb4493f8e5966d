//! Words of English: closing down.

/// Before it began.
pub const NOT_BEGUN: &str = "Not sweeping yet";
/// What it will be.
pub const PREVIEW: &str = "This is what waits at the end, in the best order.";
/// Heading.
pub fn title(room: &str) -> String {
    format!("Sweep, {room}")
}
/// With whom.
pub fn with(names: &str) -> String {
    format!("Also here: {names}")
}
/// Last out.
pub const LAST_OUT: &str = "Nobody else is known to be here, so the room's last chores are yours.";
/// Done by.
pub const DONE_BY: &str = "Done by";
/// All is done.
pub const ALL_DONE: &str = "Everything is done. Thank you.";
/// No chores.
pub const NO_CHORES: &str = "The rulebook names no chores here. Leave it as you would like to find it.";
/// When a chore is due.
pub fn from(clock: &str) -> String {
    format!("from {clock}")
}
/// Done then.
pub fn done_at(clock: &str) -> String {
    format!("done {clock}")
}
/// Waits.
pub fn after(first: &str) -> String {
    format!("after: {first}")
}
/// More hands.
pub fn hands(count: u32) -> String {
    format!("{count} people")
}
/// No hands.
pub const UNATTENDED: &str = "by itself";
/// A picture.
pub const PHOTO: &str = "With a photo";
/// To a screen reader.
pub fn photo_of(chore: &str) -> String {
    format!("Done, with a photo: {chore}")
}
/// It has not begun.
pub const SPARKING: &str = "Hot work is still on. The watch begins when it stops.";
/// It runs.
pub fn watch_until(clock: &str) -> String {
    format!("Fire watch until {clock}")
}
/// Asks why until then.
pub const WATCH_WHY: &str = "Why until then?";
/// What to do.
pub const WATCH_HOW: &str = "Look and smell for embers: under, behind, and in the sweepings.";
/// It is over.
pub fn watch_over(clock: &str) -> String {
    format!("The fire watch was over at {clock}.")
}
/// Walked.
pub const WALKED: &str = "I walked the place";
/// When last.
pub fn walked_ago(ago: &str) -> String {
    format!("Last walked: {ago}.")
}
/// Machines on.
pub fn running(names: &str) -> String {
    format!("Still on: {names}")
}
/// What to do.
pub const RUNNING_NEXT: &str = "Switch off what runs; starting the sweep counts it as stopped.";
/// Leaves, all done.
pub const LEAVE_CLEAN: &str = "I have left it clean";
/// Leaves, not all done.
pub const LEAVE: &str = "Leave";
/// The sheet.
pub const LEAVE_TITLE: &str = "Before you go";
/// What is missing.
pub fn missing(count: usize) -> String {
    if count == 1 { "1 chore is left".into() } else { format!("{count} chores are left") }
}
/// And what that means.
pub const MISSING_WHY: &str = "You can leave all the same. The Book will say what is left, so that the next one knows.";
/// The watch is not over.
pub fn watch_short(minutes: i64) -> String {
    format!("The fire watch has {} to go.", crate::words::en::minutes(minutes))
}
/// What to do about that.
pub const WATCH_SHORT_NEXT: &str = "Stay, or ask someone to keep it for you. Embers do not know the time.";
/// The act.
pub const LEAVE_NOW: &str = "Leave the room";
/// Stays.
pub const STAY: &str = "Stay a little";
