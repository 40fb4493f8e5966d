//! Words of English: the places, and what surrounds every screen.

/// The app.
pub const APP: &str = "Sweepbell";
/// The row at the foot.
pub const PLACES: &str = "Places";
/// Arrive.
pub const DOOR: &str = "Door";
/// Work.
pub const BENCH: &str = "Bench";
/// Close down.
pub const SWEEP: &str = "Sweep";
/// Who is here.
pub const ROOM: &str = "Room";
/// The log.
pub const BOOK: &str = "Book";
/// The log, with how many lines wait on this phone.
pub fn book_with(waiting: usize) -> String {
    if waiting == 0 { BOOK.into() } else { format!("{BOOK} +{waiting}") }
}
/// Leaves a sheet.
pub const BACK: &str = "Back";
/// The notice was read.
pub const READ: &str = "Got it";
/// Without a session, on Bench and Sweep.
pub const NO_SESSION: &str = "No session yet";
/// What to do about that on Bench.
pub const NO_SESSION_BENCH: &str =
    "Once you are in, your machines stand here, with the time left until the sweep and until the last spark.";
/// What to do about that on Sweep.
pub const NO_SESSION_SWEEP: &str = "Once you are in, the close-down stands here, chore by chore, in the best order.";
/// To Door.
pub const TO_DOOR: &str = "To the door";
/// Demo data says so.
pub fn demo(shop: &str) -> String {
    format!("{shop} is a demo shop: its people and its log are invented.")
}
