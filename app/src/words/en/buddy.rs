//! Words of English: asking and answering.

/// The operator's sheet.
pub const ASK: &str = "Ask for a buddy";
/// What to do.
pub const ASK_HOW: &str =
    "Someone in this room scans this with their own phone and confirms. Then scan what their phone shows.";
/// The code.
pub const ASK_CODE: &str = "Your code for a buddy";
/// How long it is good.
pub fn good_for(minutes: i64) -> String {
    format!("Good for {} more.", crate::words::en::minutes(minutes.max(0)))
}
/// It is not.
pub const TOO_OLD: &str = "This code has run out. Go back and ask again.";
/// Who else is here.
pub const COULD_BE: &str = "Known to be in this room";
/// Asks over the network too.
pub const ASK_PHONE: &str = "Ask their phone too";
/// Handed over too.
pub fn asked_too(name: &str) -> String {
    format!("{name}'s phone was asked over the network as well.")
}
/// The act.
pub const SCAN_ANSWER: &str = "Scan their answer";
/// Show again.
pub const SHOW_CODE: &str = "Show my code again";
/// The buddy's sheet.
pub fn asks(name: &str) -> String {
    format!("{name} asks you to be their buddy")
}
/// Where.
pub fn where_(room: &str, machine: Option<&str>) -> String {
    machine.map_or_else(|| format!("In: {room}."), |machine| format!("At the {machine}, in: {room}."))
}
/// What it means.
pub fn means(minutes: u32) -> String {
    format!(
        "You are in the same room, you stay in it, and you look up now and then. Your word holds for {}; they will ask again.",
        crate::words::en::minutes(i64::from(minutes))
    )
}
/// How to come close.
pub const MANNERS: &str = "Come into view before you speak to someone at a machine.";
/// The act.
pub const HERE: &str = "I am in the room";
/// Taking it back.
pub const LEAVING: &str = "I am leaving";
/// Show it.
pub const SHOW_BACK: &str = "Show them this";
/// What to do.
pub fn show_back_how(name: &str) -> String {
    format!("{name} scans it with their phone. Then it counts.")
}
/// The code.
pub const ANSWER_CODE: &str = "Your answer";
/// On its way.
pub const CARRYING: &str = "Sending it over the network as well.";
/// There.
pub const CARRIED: &str = "It went over the network too. They may have it already.";
/// Not there.
pub const NOT_CARRIED: &str = "The network does not reach. The code does it.";
/// Done.
pub const DONE: &str = "Done";
/// Whom one covers.
pub fn covering(name: &str, clock: &str) -> String {
    format!("You are {name}'s buddy until {clock}")
}
/// What to do about it.
pub const COVERING_HOW: &str = "Leaving the room? Scan their code again and say so, and tell them.";
