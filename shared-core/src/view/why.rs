//! Why: the reasons of every time that Bench shows, and what they take for granted.
//!
//! The reasons are [`crate::plan::explain`]'s; here they are only made to agree with [`Times`], which puts the sweep
//! after a watch that ended too late. Holds no words of its own.

use crate::decide::arrive::out_by_range_of;
use crate::plan::explain::words::Clock;
use crate::plan::explain::{Explained, Mark, Number, Rule};
use crate::refusal::Refusal;
use crate::session_plan;
use crate::state::Session;
use crate::view::Viewer;
use crate::view::bench::Times;
use crate::words::Words;

/// The reasons of Bench's times, reckoned when somebody asks.
#[derive(Clone, Debug, PartialEq)]
pub struct Reasons(Option<Explained>);

impl Reasons {
    /// Those of this viewer's session as it stands; without a plan there are none.
    pub fn of(viewer: &Viewer) -> Self {
        Self(viewer.open_session().and_then(|session| why(viewer, session).ok()))
    }

    /// The paragraphs of one time, the first bell's with the sweep's, or of all; then what they take for granted, which
    /// out-by alone does not.
    pub fn told(&self, mark: Option<Mark>, words: &Words, clock: Clock) -> Vec<String> {
        let mut told = Vec::new();
        let Some(explained) = &self.0 else { return told };
        for why in &explained.whys {
            let of = if why.mark == Mark::FirstBell { Mark::SweepFrom } else { why.mark };
            if mark.is_none_or(|mark| mark == of) {
                told.push(why.lines(words, clock).join("\n"));
            }
        }
        if mark != Some(Mark::OutBy) {
            told.extend(explained.assumed_text(words, "\n"));
        }
        told
    }
}

/// A session's plan with the reasons behind its times, or why there is no plan.
pub fn why(viewer: &Viewer, session: &Session) -> Result<Explained, Refusal> {
    session_plan::explained(viewer, session).map(|explained| as_shown(viewer, session, explained))
}

fn as_shown(viewer: &Viewer, session: &Session, mut explained: Explained) -> Explained {
    let times = Times::of(viewer.book, &explained.plan);
    let (_, latest) = out_by_range_of(viewer.book, session, viewer.now);
    for why in &mut explained.whys {
        match why.mark {
            Mark::OutBy => why.numbers.push(Number::NoLater(latest)),
            Mark::SweepFrom if why.at != times.sweep_from => {
                (why.at, why.rule) = (times.sweep_from, Rule::AfterWatch);
                why.numbers
                    .retain(|number| matches!(number, Number::Crew(_) | Number::Chore { .. } | Number::Learnt { .. }));
            }
            Mark::FirstBell => why.at = times.first_bell,
            _ => {}
        }
    }
    explained
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::PersonId;
    use crate::plan::explain::Assumed;
    use crate::testing::{World, at, start, stop};
    use crate::time::Instant;
    use crate::view::bench;

    /// What Bench shows and what is explained are the same times, whatever happened.
    #[track_caller]
    fn check(world: &World, minute: i64) -> Explained {
        let me = PersonId::from("noor");
        let viewer = world.viewer(&me, at(minute));
        let session = viewer.open_session().expect("a session");
        let explained = why(&viewer, session).expect("a plan");
        let (bench, reasons) = (bench::bench(&viewer).expect("a session"), Reasons::of(&viewer));
        let (words, clock) = (Words::english(), |at: Instant| at.to_string());
        assert_eq!(
            reasons.told(None, &words, &clock).join("\n\n"),
            explained.text(&words, &clock).replace("\n  ", "\n")
        );
        for (mark, starts) in [
            (Mark::OutBy, vec!["Out by"]),
            (Mark::SweepFrom, vec!["Sweep from", "First bell", "Taken for granted"]),
            (Mark::FreeAt, vec!["Free at", "Taken for granted"]),
        ] {
            let told = reasons.told(Some(mark), &words, &clock);
            assert!(told.iter().map(|text| text.split(':').next().expect("a name")).eq(starts), "{told:?}");
        }
        let times = bench.times.expect("a plan");
        let told = |mark: Mark| explained.whys.iter().find(|why| why.mark == mark).map(|why| why.at);
        assert_eq!(told(Mark::SweepFrom), Some(times.sweep_from));
        assert_eq!(told(Mark::FirstBell), Some(times.first_bell));
        assert_eq!(told(Mark::LastSpark), times.last_spark);
        assert_eq!(told(Mark::WatchUntil), times.watch.map(|(_, until)| until));
        assert_eq!(told(Mark::FreeAt), times.free_at);
        assert!(explained.whys.is_sorted_by_key(|why| why.mark));
        explained
    }

    #[test]
    fn what_is_explained_is_what_is_shown() {
        let mut world = World::new();
        world.enter("noor", 0, 120).expect("nobody is in");
        assert_eq!(check(&world, 1).assumed, [Assumed::LastOut, Assumed::OneSweeps]);
        world.act("noor", 5, start("torch")).expect("there is time");
        world.enter("ilse", 6, 120).expect("another may come");
        let assumed = [Assumed::OthersSweep, Assumed::OneSweeps, Assumed::RunUntilSweep];
        assert_eq!(check(&world, 7).assumed, assumed);
        world.act("noor", 60, stop("torch")).expect("it runs");
        check(&world, 61);
        // Hot work that ends when only its watch still fits: the sweep comes after, and says so.
        world.act("noor", 62, start("torch")).expect("there is time");
        world.act("noor", 100, stop("torch")).expect("it runs");
        let late = check(&world, 101);
        assert_eq!(late.whys[1].rule, Rule::AfterWatch);
        assert_eq!(late.whys[1].at, at(130));
    }
}
