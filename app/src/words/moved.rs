//! Which time is another now, and why, in words.

use shared_core::plan::explain::Mark;
use shared_core::time::Instant;
use shared_core::view::moved::{Cause, Moved};

use super::said::moved as said;

/// In one line, the times that matter most: `Last spark 20:35, sweep from 20:50: you started The torch.` The first bell
/// and the end of the watch go with those. `None` if only they moved.
pub fn line(moved: &Moved, clock: &dyn Fn(Instant) -> String) -> Option<String> {
    let mut times = String::new();
    for mark in [Mark::LastSpark, Mark::SweepFrom, Mark::OutBy] {
        let Some(time) = moved.times.iter().find(|time| time.mark == mark) else { continue };
        let at = time.to.map_or_else(|| said::no_more().into(), clock);
        let say = match (mark, times.is_empty()) {
            (Mark::LastSpark, _) => said::last_spark,
            (Mark::SweepFrom, true) => said::first_sweep_from,
            (Mark::SweepFrom, false) => said::sweep_from,
            (_, true) => said::first_out_by,
            (_, false) => said::out_by,
        };
        times += if times.is_empty() { "" } else { ", " };
        times += &say(&at);
    }
    (!times.is_empty()).then(|| said::told(&because(&moved.cause), &times))
}

fn because(cause: &Cause) -> String {
    match cause {
        Cause::Started { machine } => said::started(machine),
        Cause::Stopped { machine } => said::stopped(machine),
        Cause::OutByMoved => said::out_by_moved().into(),
        Cause::SweepStarted { crew } => said::sweep_started(i64::from(*crew)),
        Cause::ChoreDone { text } => said::done(text),
        Cause::OtherCame { who } => said::other_came(who),
        Cause::OtherLeft { who } => said::other_left(who),
        Cause::Learned { text } => said::learned(text),
    }
}

#[cfg(test)]
mod tests {
    use shared_core::view::moved::MovedTime;

    use super::*;

    #[track_caller]
    fn check(marks: &[(Mark, Option<i64>)], cause: Cause, want: Option<&str>) {
        let time = |&(mark, to): &(Mark, Option<i64>)| MovedTime { mark, from: None, to: to.map(Instant::from_ms) };
        let said = line(&Moved { cause, times: marks.iter().map(time).collect() }, &|at| at.ms().to_string());
        assert_eq!(said.as_deref(), want);
    }

    #[test]
    fn a_move_is_told_in_one_line() {
        let torch = || Cause::Started { machine: "the torch".into() };
        let both = [(Mark::SweepFrom, Some(7)), (Mark::FirstBell, Some(6)), (Mark::LastSpark, Some(5))];
        check(&both, torch(), Some("Last spark 5, sweep from 7: you started the torch."));
        let gone = [(Mark::LastSpark, None), (Mark::WatchUntil, Some(9))];
        check(&gone, Cause::Stopped { machine: "it".into() }, Some("Last spark no more: you stopped it."));
        check(
            &[(Mark::OutBy, Some(9)), (Mark::SweepFrom, Some(8))],
            Cause::OutByMoved,
            Some("Sweep from 8, out by 9: you moved your out-by."),
        );
        check(&[(Mark::WatchUntil, Some(9))], torch(), None);
    }
}
