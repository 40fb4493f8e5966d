//! Words of English: arriving.

/// Outside.
pub const TITLE: &str = "At the door";
/// What to do.
pub const TEACH: &str = "Scan the code by the door you are at. You will be asked a few things, one by one.";
/// The main act.
pub const SCAN: &str = "Scan the door code";
/// Without a camera.
pub const PICK: &str = "Or pick the room";
/// Nobody is known to be in.
pub const EMPTY: &str = "nobody known to be in";
/// Some are.
pub fn inside(people: usize) -> String {
    format!("{} in", crate::words::en::people(people))
}
/// Which statement.
pub fn step(room: &str, step: usize, of: usize) -> String {
    format!("{room}. {step} of {of}")
}
/// It is true.
pub const YES: &str = "Yes, it is so";
/// It is not.
pub const NOT_TODAY: &str = "Not now";
/// When out?
pub const OUT_BY: &str = "When must you be out?";
/// The room, above it.
pub fn room(room: &str) -> String {
    format!("{room}. Nearly in.")
}
/// A choice, beside its clock time.
pub fn in_hours(minutes: i64) -> String {
    format!("in {}", crate::words::en::minutes_short(minutes))
}
/// A quarter earlier.
pub const EARLIER: &str = "15 min earlier";
/// A quarter later.
pub const LATER: &str = "15 min later";
/// Begins the session.
pub fn begin(clock: &str) -> String {
    format!("Start, out by {clock}")
}
/// In a session.
pub fn in_room(room: &str) -> String {
    format!("You are in: {room}")
}
/// What there is to do at the door when in.
pub const IN_TEACH: &str = "Going out for good? Sweep first, then leave there. The door code is for arriving.";
/// To Bench.
pub const TO_BENCH: &str = "To the bench";
/// Be a buddy.
pub const BE_BUDDY: &str = "Scan to be a buddy";
/// Barred.
pub const BARRED: &str = "Not yet";
/// To the cautions.
pub const CAUTIONS: &str = "What this app cannot do";
