//! Words of English: which time is another now, and why.

use shared_core::plan::explain::Mark;
use shared_core::time::Instant;
use shared_core::view::moved::{Cause, Moved};

/// In one line, the times that matter most: `Last spark 20:35, sweep from 20:50: you started The torch.` The first bell
/// and the end of the watch go with those. `None` if only they moved.
pub fn line(moved: &Moved, clock: &dyn Fn(Instant) -> String) -> Option<String> {
    let mut line = String::new();
    for mark in [Mark::LastSpark, Mark::SweepFrom, Mark::OutBy] {
        let Some(time) = moved.times.iter().find(|time| time.mark == mark) else { continue };
        line += if line.is_empty() { "" } else { ", " };
        line += name(mark, line.is_empty());
        line += &time.to.map_or_else(|| "no more".into(), clock);
    }
    (!line.is_empty()).then(|| line + ": " + &because(&moved.cause))
}

fn name(mark: Mark, first: bool) -> &'static str {
    match (mark, first) {
        (Mark::LastSpark, _) => "Last spark ",
        (Mark::SweepFrom, true) => "Sweep from ",
        (Mark::SweepFrom, false) => "sweep from ",
        (_, true) => "Out by ",
        (_, false) => "out by ",
    }
}

fn because(cause: &Cause) -> String {
    match cause {
        Cause::Started { machine } => format!("you started {machine}."),
        Cause::Stopped { machine } => format!("you stopped {machine}."),
        Cause::OutByMoved => "you moved your out-by.".into(),
        Cause::SweepStarted { crew: 1 } => "you sweep alone.".into(),
        Cause::SweepStarted { crew } => format!("{crew} of you sweep."),
        Cause::ChoreDone { text } => format!("done: {text}"),
        Cause::OtherCame { who } => format!("{who} came in, and may be the last one out."),
        Cause::OtherLeft { who } => format!("{who} left, and the room's last chores may be yours."),
        Cause::Learned { text } => format!("it was seen how long this takes: {text}"),
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
