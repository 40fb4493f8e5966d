//! Fire watch: who must still be looking for embers, and until when.
//!
//! A new spark starts the watch again. It is kept until it is over or its keeper leaves, whichever is first; the
//! difference is "cut short" and is reported, never hidden. See DESIGN.md section 4, "Fire watch"; thirty minutes at
//! least after welding or cutting: 29 CFR 1910.252(a)(2)(iii)(B).
//!
//! Knows nothing of the screen or of what time it is: instants are arguments.

use crate::rulebook::Rulebook;
use crate::state::Session;
use crate::time::{Instant, Span};

/// A session's fire watch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watch {
    /// Where it stands.
    pub stage: WatchStage,
    /// When the hot-work place was walked.
    pub rounds: Vec<Instant>,
}

/// Where a watch stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WatchStage {
    /// Hot work goes on: the watch begins when it stops.
    Sparking,
    /// Embers may be glowing.
    Watching {
        /// The last spark.
        from: Instant,
        /// Until when to look.
        until: Instant,
    },
    /// It was kept to its end.
    Over {
        /// When.
        at: Instant,
    },
}

/// The watch of an open session at `now`; `None` without hot work.
pub fn watch(book: &Rulebook, session: &Session, now: Instant) -> Option<Watch> {
    let stage = match last_spark(book, session, now)? {
        Spark::Now => WatchStage::Sparking,
        Spark::Ended(from) => {
            let until = from + Span::from_minutes(i64::from(book.fire_watch.minutes));
            if now < until { WatchStage::Watching { from, until } } else { WatchStage::Over { at: until } }
        }
    };
    Some(Watch { stage, rounds: session.watch_rounds.clone() })
}

/// How a watch was kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Until when it was needed.
    pub needed_until: Instant,
    /// Until when it was kept.
    pub kept_until: Instant,
    /// The difference in minutes, rounded up.
    pub cut_short_minutes: i64,
}

/// How the watch of a session was kept, judged by its log: an open session is judged at its last entry.
pub fn kept(book: &Rulebook, session: &Session) -> Option<Kept> {
    let end = session.left().unwrap_or(session.last_at);
    let from = match last_spark(book, session, end)? {
        Spark::Now => end,
        Spark::Ended(at) => at,
    };
    let needed_until = from + Span::from_minutes(i64::from(book.fire_watch.minutes));
    let kept_until = needed_until.min(end);
    Some(Kept { needed_until, kept_until, cut_short_minutes: (needed_until - kept_until).minutes_up() })
}

/// The last spark of a session.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spark {
    /// Hot work goes on.
    Now,
    /// It ended then.
    Ended(Instant),
}

/// The last spark of a session, uses that still go on counted up to `open_end`; `None` without hot work.
pub fn last_spark(book: &Rulebook, session: &Session, open_end: Instant) -> Option<Spark> {
    let mut hot = session
        .uses
        .iter()
        .filter(|use_| book.machine(&use_.machine).is_some_and(|machine| machine.hot_work))
        .peekable();
    hot.peek()?;
    let mut last = Instant::from_ms(i64::MIN);
    for use_ in hot {
        if use_.to.is_none() && session.is_open() {
            return Some(Spark::Now);
        }
        last = last.max(session.use_end(use_, open_end));
    }
    Some(Spark::Ended(last))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::testing::{World, at, start, stop};

    /// Runs acts of one person; the watch is 30 minutes, the least that 29 CFR 1910.252(a)(2)(iii)(B) asks for.
    #[track_caller]
    fn check(acts: &[(i64, Command)], now: i64, stage: Option<WatchStage>, kept_minutes: Option<(i64, i64, i64)>) {
        let mut world = World::new();
        assert_eq!(world.enter("noor", 0, 300), Ok(()));
        for (minute, command) in acts {
            assert_eq!(world.act("noor", *minute, command.clone()), Ok(()));
        }
        let session = world.state.sessions.values().next().expect("one session");
        assert_eq!(watch(&world.book, session, at(now)).map(|watch| watch.stage), stage);
        let minutes = |at_: Instant| (at_ - at(0)).minutes_up();
        let kept = kept(&world.book, session);
        let told = kept.map(|kept| (minutes(kept.needed_until), minutes(kept.kept_until), kept.cut_short_minutes));
        assert_eq!(told, kept_minutes);
    }

    #[test]
    fn it_runs_from_the_last_spark_for_its_minutes() {
        let torch = |from, to| [(from, start("torch")), (to, stop("torch"))];
        check(&[(5, start("saw"))], 10, None, None);
        check(&[(5, start("torch"))], 10, Some(WatchStage::Sparking), Some((35, 5, 30)));
        let watching = Some(WatchStage::Watching { from: at(20), until: at(50) });
        check(&torch(5, 20), 49, watching, Some((50, 20, 30)));
        check(&torch(5, 20), 50, Some(WatchStage::Over { at: at(50) }), Some((50, 20, 30)));
        // A new spark in the watch starts it again.
        let again = [torch(5, 20), torch(40, 45)].concat();
        check(&again, 60, Some(WatchStage::Watching { from: at(45), until: at(75) }), Some((75, 45, 30)));
        // Leaving cuts it short.
        check(
            &[&torch(5, 20)[..], &[(38, Command::Leave)]].concat(),
            60,
            Some(WatchStage::Over { at: at(50) }),
            Some((50, 38, 12)),
        );
        check(
            &[&torch(5, 20)[..], &[(58, Command::Leave)]].concat(),
            60,
            Some(WatchStage::Over { at: at(50) }),
            Some((50, 50, 0)),
        );
    }
}
