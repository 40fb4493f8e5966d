//! Lengths of time, as people say them.

use super::said::time as said;

/// `7 min`, `1 h 40`: for where there is little room.
pub fn short(minutes: i64) -> String {
    if minutes < 60 {
        said::minutes_short(minutes)
    } else {
        said::hours_short(minutes / 60, &format!("{:02}", minutes % 60))
    }
}

/// `just now`, `7 min ago`, `3 days ago`.
pub fn ago(minutes: i64) -> String {
    if minutes < 1 { said::just_now().into() } else { said::ago(&length(minutes)) }
}

/// `7 min`, `1 h 40`, `3 days`.
pub fn length(minutes: i64) -> String {
    const DAY: i64 = 24 * 60;
    if minutes < 2 * DAY { short(minutes) } else { said::days(minutes / DAY) }
}

/// A number with a part: `7.85`, or `7,85` where a comma parts them.
pub fn decimal(whole: i64, part: &str) -> String {
    said::decimal(part, &whole.to_string())
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
            assert_eq!((short(count).as_str(), ago(count).as_str()), (said, how_old), "{count} minutes");
        }
    }
}
