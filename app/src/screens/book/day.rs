//! A day by the shop's clocks, as it is written everywhere (ISO 8601): the same in every language.

use shared_core::time::{Instant, Span};

use crate::screens::time::offset_minutes;
use crate::store::AppView;

/// The day that holds `at`.
pub fn shop_day(view: AppView, at: Instant) -> String {
    let local = at + Span::from_minutes(i64::from(offset_minutes(view, at)));
    local.to_string().chars().take(10).collect()
}
