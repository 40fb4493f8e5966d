//! A day by the shop's clocks, as it is written everywhere (ISO 8601): the same in every language.

use shared_core::members::is_written_day;
use shared_core::time::Instant;

use crate::parts::figures::date;
use crate::screens::time::offset_minutes;
use crate::store::AppView;

/// The day that holds `at`, or that `at` was written as.
pub fn shop_day(view: AppView, at: Instant) -> String {
    day(at, offset_minutes(view, at))
}

fn day(at: Instant, offset_minutes: i32) -> String {
    date(at, if is_written_day(at) { 0 } else { offset_minutes })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The last moment of 1 June 2027 by UTC is `until = 2027-06-01` of a members file; what is said in a log is any other.
    #[test]
    fn a_day_is_the_shops_unless_it_was_written_as_one() {
        for (at, offset_minutes, shown) in [
            ("2027-06-01T23:59:59.999Z", 0, "2027-06-01"),
            ("2027-06-01T23:59:59.999Z", 120, "2027-06-01"),
            ("2027-06-01T23:59:59.999Z", -300, "2027-06-01"),
            ("2027-06-01T23:59:59.000Z", 120, "2027-06-02"),
            ("2027-06-02T03:00:00.000Z", -300, "2027-06-01"),
        ] {
            assert_eq!(day(Instant::parse(at).expect("an instant"), offset_minutes), shown, "{at} {offset_minutes}");
        }
    }
}
