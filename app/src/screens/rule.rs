//! What is engraved on a steel rule: a session's instants with the words for them.
//!
//! Reckons nothing: the instants are a view's, the drawing is the part's.

use shared_core::time::Instant;
use shared_core::view::bench::Times;

use super::time::{offset_minutes, shop_clock};
use crate::parts::steel_rule::{Marks, Words};
use crate::store::AppView;
use crate::words::rule as say;

/// The marks of a session from its beginning to its out-by, and those of its plan where there is one.
pub fn marks(view: AppView, from: Instant, out_by: Instant, times: Option<&Times>) -> Marks {
    Marks {
        from,
        out_by,
        sweep_from: times.map(|times| times.sweep_from),
        first_bell: times.map(|times| times.first_bell),
        last_spark: times.and_then(|times| times.last_spark),
        watch: times.and_then(|times| times.watch),
        spans: None,
        left: false,
        offset_minutes: offset_minutes(view, out_by),
        words: Words {
            title: say::title().into(),
            desc: told(view, out_by, times),
            past: say::past().into(),
            work: say::work().into(),
            sweep: say::sweep().into(),
            watch: say::watch().into(),
            last_spark: say::last_spark().into(),
            out_by: say::out_by().into(),
            over: say::over().into(),
        },
    }
}

/// The same in words.
pub fn told(view: AppView, out_by: Instant, times: Option<&Times>) -> String {
    let out_by = shop_clock(view, out_by);
    times.map_or_else(
        || say::says_out_by(&out_by),
        |times| {
            let spark = times.last_spark.map(|at| shop_clock(view, at));
            say::says(
                &shop_clock(view, times.first_bell),
                &shop_clock(view, times.sweep_from),
                &out_by,
                spark.as_deref(),
            )
        },
    )
}
