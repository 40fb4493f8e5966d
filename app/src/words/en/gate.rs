//! Words of English: before the app can be used.

/// The log is being read.
pub const STARTING: &str = "Reading this phone's log";
/// With a running session.
pub const RESUMING: &str = "Your session goes on";
/// Out-by of the running session.
pub const OUT_BY: &str = "Out by";
/// Sweep of the running session.
pub const SWEEP_FROM: &str = "Sweep from";
/// No storage.
pub const NO_STORAGE: &str = "This browser keeps nothing here, so no session can be logged.";
/// What to do about it.
pub const NO_STORAGE_NEXT: &str =
    "Open Sweepbell in an ordinary window, not a private one. The shop's paper rules hold meanwhile.";
/// The key is damaged.
pub const NO_KEY: &str = "This phone's key cannot be read, so nothing can be signed.";
/// What to do about it.
pub const NO_KEY_NEXT: &str =
    "Close other tabs and reload. If that does not help, ask the steward to let this phone join again.";
/// Joining.
pub const JOIN: &str = "Join the shop";
/// What joining is.
pub const JOIN_WHY: &str = "Once, with the network on. After that, everything works without it.";
/// The field.
pub const JOIN_CODE: &str = "Join code";
/// Where it is.
pub const JOIN_HINT: &str = "The steward has it, or it hangs by the door.";
/// The act.
pub const JOIN_ACT: &str = "Join";
/// Instead of typing.
pub const JOIN_SCAN: &str = "Scan it instead";
/// Being checked.
pub const CHECKING: &str = "Asking the shop";
/// Who are you?
pub fn who(shop: &str) -> String {
    format!("{shop}. Who are you?")
}
/// Under it.
pub const WHO_WHY: &str = "Pick your own name: this phone signs for you from now on.";
/// Not to join after all.
pub const STOP_JOINING: &str = "Back";
/// The rules come.
pub const FETCHING: &str = "Fetching the shop's rules";
/// Joining needs the network.
pub const OFFLINE_NEXT: &str = "Joining needs the network this once. Check it, then try again.";
/// Try once more.
pub const AGAIN: &str = "Try again";
