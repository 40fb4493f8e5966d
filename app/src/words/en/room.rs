//! Words of English: who is here.

/// Heading.
pub const TITLE: &str = "Room";
/// Nobody.
pub const NOBODY: &str = "Nobody is known to be in.";
/// You.
pub fn me(name: &str) -> String {
    format!("{name} (you)")
}
/// Since and until.
pub fn since(since: &str, out_by: &str) -> String {
    format!("in since {since}, out by {out_by}")
}
/// Sweeping.
pub const SWEEPING: &str = "sweeping";
/// How old.
pub fn heard(ago: &str) -> String {
    format!("last heard of {ago}")
}
/// The main act.
pub const MUSTER: &str = "Muster";
/// The sheet.
pub const MUSTER_TITLE: &str = "Who is in";
/// How to use it.
pub const MUSTER_HOW: &str =
    "Call each name outside. This is what this phone knows; someone without a phone is not on it.";
/// How many.
pub fn count(people: usize) -> String {
    format!("{} not known to have left", crate::words::en::people(people))
}
/// The number.
pub fn call(number: &str) -> String {
    format!("Call {number}")
}
/// Without one.
pub const CALL: &str = "In danger: stop, leave, call the emergency number.";
/// Tagged out.
pub const TAGGED: &str = "Tagged out";
/// None.
pub const NONE_TAGGED: &str = "Nothing is tagged out.";
/// Since.
pub fn tagged_since(ago: &str) -> String {
    format!("tagged {ago}")
}
/// A steward's act.
pub const CLEAR_TAG: &str = "Take the tag off";
/// Tag out.
pub const TAG_OUT: &str = "Tag a machine out";
/// Which?
pub const TAG_WHICH: &str = "Which machine?";
/// What is wrong?
pub const TAG_WHAT: &str = "What is wrong with it?";
/// A hint.
pub const TAG_HINT: &str = "One sentence. The next person reads it before they reach for the switch.";
/// The act.
pub fn tag(machine: &str) -> String {
    format!("Tag out: {machine}")
}
/// Rounds.
pub const ROUNDS: &str = "Rounds";
/// Late.
pub fn round_late(minutes: i64) -> String {
    format!("Late: it was due {}.", super::ago(minutes))
}
/// Due.
pub fn round_due(minutes: i64) -> String {
    format!("Due in {}.", super::length(minutes))
}
/// Nobody has.
pub const ROUND_NEVER: &str = "Nobody has written down that it was done.";
/// By whom.
pub fn round_done(name: &str) -> String {
    format!("Last done by {name}, ")
}
/// The act.
pub const ROUND_ACT: &str = "Done";
/// Found.
pub const FOUND: &str = "How did you find it?";
/// Clean.
pub const FOUND_CLEAN: &str = "Found clean";
/// Not.
pub const FOUND_MESS: &str = "Found a mess";
/// Where?
pub const FOUND_WHERE: &str = "Where?";
/// The whole room.
pub fn whole(room: &str) -> String {
    format!("{room}: the room itself")
}
/// In words.
pub const MESS_WHAT: &str = "What did you find?";
/// A hint.
pub const MESS_HINT: &str = "What and where. No names: the log knows the times, and the steward asks kindly.";
/// First, talk.
pub const MESS_TALK: &str =
    "If you know who was here, talk first: \"What were you making? Shall we get the chips together?\"";
/// The act.
pub const MESS_TELL: &str = "Note the mess";
/// Clean, in the list.
pub const CLEAN: &str = "clean";
/// A mess, in the list.
pub const MESS: &str = "a mess";
/// An incident.
pub const INCIDENT: &str = "Tell the steward something";
/// What happened?
pub const INCIDENT_WHAT: &str = "What happened?";
/// A hint.
pub const INCIDENT_HINT: &str = "A near miss counts. If someone is hurt, call first and write later.";
/// The act.
pub const INCIDENT_TELL: &str = "Put it in the log";
/// Needs a session.
pub const NEEDS_SESSION: &str = "Start a session at the door first: every line of the log belongs to one.";
