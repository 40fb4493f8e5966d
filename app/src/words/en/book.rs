//! Words of English: the log.

/// Heading.
pub const TITLE: &str = "Book";
/// Nothing waits.
pub const ALL_HELD: &str = "Everything is with the hub.";
/// Something waits.
pub fn waiting(count: usize) -> String {
    if count == 1 { "1 line waits on this phone.".into() } else { format!("{count} lines wait on this phone.") }
}
/// What that means.
pub const WAITING_NEXT: &str = "Safe here. They go when there is a network.";
/// Syncs.
pub const SYNC: &str = "Send now";
/// Reached.
pub fn reached(ago: &str) -> String {
    format!("Hub reached {ago}.")
}
/// Not asked yet.
pub const NOT_ASKED: &str = "The hub has not been asked yet.";
/// Rejected.
pub fn rejected(count: usize) -> String {
    if count == 1 { "The hub would not take 1 line.".into() } else { format!("The hub would not take {count} lines.") }
}
/// What to do.
pub const REJECTED_NEXT: &str = "They are kept here with the reason. Show them to the steward.";
/// Aside.
pub fn aside(count: u32) -> String {
    if count == 1 {
        "1 line could not be read again.".into()
    } else {
        format!("{count} lines could not be read again.")
    }
}
/// What to do.
pub const ASIDE_NEXT: &str = "They lie aside untouched; the rest of the log goes on. Tell the steward.";
/// The lines.
pub const LINES: &str = "This phone's log";
/// None.
pub const NO_LINES: &str =
    "Nothing yet. What you do in a session is written here, line by line, and signed by this phone.";
/// Only so many are shown.
pub fn more(count: usize) -> String {
    format!("Show {count} earlier lines")
}
/// Waits.
pub const LINE_WAITS: &str = "waits";
/// Held.
pub const LINE_HELD: &str = "with the hub";
/// Rejected, and why.
pub fn line_rejected(why: &str) -> String {
    format!("not taken: {why}")
}
/// The phone.
pub const PHONE: &str = "This phone";
/// Whose.
pub fn signs_for(name: &str, shop: &str) -> String {
    format!("Signs for {name} at {shop}.")
}
/// The key is sealed.
pub const KEY_SEALED: &str = "Its key is sealed in the browser.";
/// The key is a seed.
pub const KEY_SEED: &str = "Its key lies in the browser's storage; this browser cannot seal it.";
/// The clocks differ.
pub fn clock_offset(minutes: i64) -> String {
    format!("Its clock is {} off the hub's.", crate::words::en::minutes(minutes))
}
/// Theme.
pub const THEME: &str = "Look";
/// As the phone.
pub const THEME_PHONE: &str = "As the phone";
/// Dark.
pub const THEME_DARK: &str = "Dark steel";
/// Light.
pub const THEME_LIGHT: &str = "Paper";
/// Notices.
pub const NOTICES: &str = "Let the bells show on the locked phone";
/// They may.
pub const NOTICES_ON: &str = "Bells may show on the locked phone.";
/// They may not.
pub const NOTICES_OFF: &str = "Bells may not show on the locked phone; its settings for this page decide that.";
/// And their limit.
pub const NOTICES_WHY: &str = "A locked phone may still stay silent. Set its own timer as well.";
/// Update.
pub const UPDATE_WAITS: &str = "A new version stands ready.";
/// What to do.
pub const UPDATE_NEXT: &str = "It waits until no session is open.";
/// Update now.
pub const UPDATE: &str = "Change to it now";
