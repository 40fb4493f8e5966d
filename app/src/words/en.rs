//! English. Short, kind, concrete: what to do next, never who to blame.
//!
//! Refusals, and what is wrong with a code or an answer, carry their own words in shared-core. Everything else that a
//! member reads stands here, by screen. Functions are for what has a number or a name in it.

pub mod bell;
pub mod bench;
pub mod book;
pub mod buddy;
pub mod cautions;
pub mod door;
pub mod facts;
pub mod faults;
pub mod frame;
pub mod gate;
pub mod look;
pub mod moved;
pub mod room;
pub mod rule;
pub mod scan;
pub mod signs;
pub mod sweep;
pub mod why;

/// `1 minute`, `7 minutes`.
pub fn minutes(count: i64) -> String {
    if count == 1 { "1 minute".into() } else { format!("{count} minutes") }
}

/// `7 min`, `1 h 40`: for where there is little room.
pub fn minutes_short(count: i64) -> String {
    if count < 60 { format!("{count} min") } else { format!("{} h {:02}", count / 60, count % 60) }
}

/// `just now`, `7 min ago`, `3 days ago`.
pub fn ago(minutes: i64) -> String {
    if minutes < 1 { "just now".into() } else { format!("{} ago", length(minutes)) }
}

/// `7 min`, `1 h 40`, `3 days`.
pub fn length(minutes: i64) -> String {
    const DAY: i64 = 24 * 60;
    if minutes < 2 * DAY { minutes_short(minutes) } else { format!("{} days", minutes / DAY) }
}

/// `1 person`, `3 people`.
pub fn people(count: usize) -> String {
    if count == 1 { "1 person".into() } else { format!("{count} people") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_said_as_people_say_them() {
        for (count, said, how_old) in [
            (0, "0 min", "just now"),
            (1, "1 min", "1 min ago"),
            (59, "59 min", "59 min ago"),
            (60, "1 h 00", "1 h 00 ago"),
            (2879, "47 h 59", "47 h 59 ago"),
            (4321, "72 h 01", "3 days ago"),
        ] {
            assert_eq!((minutes_short(count).as_str(), ago(count).as_str()), (said, how_old), "{count} minutes");
        }
    }
}
