//! One person's day: what noise and vibration have come to since the shop's midnight, and how long a machine has left
//! before an action value.
//!
//! Counts every session of that person which this phone knows, left or open, each use cut off at midnight and at now;
//! machines that run at once add up. Advice from typical values, never a measurement, and hearing protection is not
//! counted (2003/10/EC Art. 3(2): action values leave it out). Decides nothing, and is nobody's business but theirs.
//! Implements DESIGN.md, "Exposure".

use super::noise::{self, noise};
use super::vibration::{self, vibration};
use crate::ids::MachineId;
use crate::rulebook::{Machine, Rulebook};
use crate::state::{Session, Use};
use crate::time::{Instant, Span};
use crate::viewer::Viewer;

/// An action value is a day's: 8 h or more are not told, because the rest of a day of work is less.
const TOLD_UNDER_HOURS: f64 = 8.0;

/// What reaches its action value first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Harm {
    /// Noise: OSHA's action level (29 CFR 1910.95(c)(1)), or 85 dB(A) over 8 h (2003/10/EC Art. 3(1)(b)).
    Noise,
    /// Hand-arm vibration: 2.5 m/s² over 8 h (2002/44/EC Art. 3(1)(b)).
    Vibration,
}

/// How long is left at a machine today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Left {
    /// What reaches its action value first.
    pub harm: Harm,
    /// When that is, if the machine runs from now on together with what runs already; not after now if it is reached.
    pub until: Instant,
    /// Whole minutes until then, rounded down; 0 if it is reached.
    pub minutes: i64,
}

/// A person's day so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Day {
    noise: Vec<(f64, Span)>,
    vibration: Vec<(f64, Span)>,
    running: Vec<Level>,
}

/// A machine that runs now.
#[derive(Clone, Debug, PartialEq)]
struct Level {
    machine: MachineId,
    noise_dba: Option<f64>,
    vibration_ms2: Option<f64>,
}

impl Day {
    /// The day of this viewer, as far as this phone knows it.
    pub fn of(viewer: &Viewer) -> Self {
        let mut day = Self::default();
        // What was over before the day began adds nothing to it.
        for session in viewer.state.sessions.since(viewer.day_from) {
            if session.who == *viewer.me {
                day.add(viewer.book, session, viewer.day_from, viewer.now);
            }
        }
        day
    }

    fn add(&mut self, book: &Rulebook, session: &Session, day_from: Instant, now: Instant) {
        for use_ in &session.uses {
            let Some(machine) = book.machine(&use_.machine) else { continue };
            let (from, to) = (use_.from.max(day_from), session.use_end(use_, now).min(now));
            if to > from {
                self.noise.extend(machine.noise_dba.map(|level| (level, to - from)));
                self.vibration.extend(machine.vibration_ms2.map(|ms2| (ms2, to - from)));
            }
            if goes_on(session, use_) {
                self.running.push(Level {
                    machine: machine.id.clone(),
                    noise_dba: machine.noise_dba,
                    vibration_ms2: machine.vibration_ms2,
                });
            }
        }
    }

    /// How long `machine` has left before the first action value is reached; `None` if it adds to none, or if 8 h or
    /// more are left.
    pub fn left(&self, machine: &Machine, now: Instant) -> Option<Left> {
        let others = || self.running.iter().filter(|level| level.machine != machine.id);
        let with = |own: Option<f64>, of: fn(&Level) -> Option<f64>| {
            own.map(|own| others().filter_map(of).chain([own]).collect::<Vec<f64>>())
        };
        let by_noise = with(machine.noise_dba.filter(|level_dba| noise::counts(*level_dba)), |level| level.noise_dba)
            .and_then(|levels| noise::hours_left_before_action(&levels, &noise(&self.noise)));
        let by_vibration = with(machine.vibration_ms2.filter(|ms2| *ms2 > 0.0), |level| level.vibration_ms2)
            .and_then(|levels| vibration::hours_left_before_action(&levels, &vibration(&self.vibration)));
        let first = match (by_noise, by_vibration) {
            (Some(noise), Some(vibration)) if vibration < noise => (vibration, Harm::Vibration),
            (Some(noise), _) => (noise, Harm::Noise),
            (None, vibration) => (vibration?, Harm::Vibration),
        };
        let (hours, harm) = first;
        let minutes = super::whole_minutes_down(hours);
        #[expect(clippy::cast_possible_truncation, reason = "told under 8 h alone, and what is past is 0")]
        let seconds = (hours * 3600.0 + 1e-6).floor().max(0.0) as i64;
        (hours < TOLD_UNDER_HOURS).then(|| Left { harm, until: now + Span::from_ms(seconds * 1000), minutes })
    }
}

fn goes_on(session: &Session, use_: &Use) -> bool {
    session.is_open() && use_.to.is_none()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::testing::{World, at, start, stop};

    /// The saw is at 88 dBA, which is 240 min to NIOSH's limit; the drill at 5 m/s², which is 120 min to the action
    /// value; the torch is quiet.
    fn world() -> World {
        let mut world = World::new();
        for machine in &mut world.book.machines {
            match machine.id.as_str() {
                "saw" => machine.noise_dba = Some(88.0),
                "drill" => (machine.noise_dba, machine.vibration_ms2) = (Some(60.0), Some(5.0)),
                "torch" => machine.noise_dba = Some(70.0),
                _ => machine.noise_dba = Some(91.0),
            }
        }
        world
    }

    #[track_caller]
    fn check(world: &World, who: &str, now: i64, day_from: i64, machine: &str, left: Option<(Harm, i64)>) {
        let me = PersonId::from(who);
        let viewer = Viewer { day_from: at(day_from), ..world.viewer(&me, at(now)) };
        let asked = world.book.machine(&machine.into()).expect("a machine");
        let found = Day::of(&viewer).left(asked, at(now));
        assert_eq!(found.map(|left| (left.harm, left.minutes)), left, "{machine} at {now}");
        if let Some(Left { until, minutes, .. }) = found {
            let seconds = (until - at(now)).ms() / 1000;
            assert!((minutes * 60..minutes * 60 + 60).contains(&seconds), "{seconds} s in {minutes} min");
        }
    }

    #[test]
    fn a_fresh_day_has_each_machines_whole_time() {
        let world = world();
        check(&world, "noor", 0, 0, "saw", Some((Harm::Noise, 240)));
        check(&world, "noor", 0, 0, "drill", Some((Harm::Vibration, 120)));
        check(&world, "noor", 0, 0, "lathe", Some((Harm::Noise, 120)));
        check(&world, "noor", 0, 0, "torch", None);
    }

    /// 88 dBA is 240 min, and 10 m/s² is 30 min: hands have enough long before ears.
    #[test]
    fn what_comes_first_is_told() {
        let mut world = world();
        for (ms2, left) in [(10.0, (Harm::Vibration, 30)), (2.5, (Harm::Noise, 240)), (0.0, (Harm::Noise, 240))] {
            world.book.machines.iter_mut().for_each(|machine| machine.vibration_ms2 = Some(ms2));
            check(&world, "noor", 0, 0, "saw", Some(left));
        }
        // 91 dBA and 5 m/s² are 120 min both: ears are named.
        world.book.machines.iter_mut().for_each(|one| (one.noise_dba, one.vibration_ms2) = (Some(91.0), Some(5.0)));
        check(&world, "noor", 0, 0, "saw", Some((Harm::Noise, 120)));
        // 80 dBA is 16 h: what is not told does not hide what is.
        world.book.machines.iter_mut().for_each(|one| (one.noise_dba, one.vibration_ms2) = (Some(80.0), Some(2.5)));
        check(&world, "noor", 0, 0, "saw", None);
        world.book.machines.iter_mut().for_each(|one| one.vibration_ms2 = Some(3.0));
        check(&world, "noor", 0, 0, "saw", Some((Harm::Vibration, 333)));
    }

    #[test]
    fn the_whole_day_counts_and_only_the_day() -> Result<(), crate::refusal::Refusal> {
        let mut world = world();
        world.enter("noor", 0, 200)?;
        world.act("noor", 10, start("saw"))?;
        world.act("noor", 70, stop("saw"))?;
        // Stopped, it runs down no other machine's time: 60 of 240 min are a quarter, also of 120.
        check(&world, "noor", 75, 0, "lathe", Some((Harm::Noise, 90)));
        world.act("noor", 80, Command::Leave)?;
        check(&world, "noor", 90, 0, "saw", Some((Harm::Noise, 180)));
        check(&world, "noor", 90, 40, "saw", Some((Harm::Noise, 210)));
        check(&world, "noor", 90, 70, "saw", Some((Harm::Noise, 240)));
        check(&world, "ilse", 90, 0, "saw", Some((Harm::Noise, 240)));
        // A second session of the same day goes on counting, and what runs counts until now.
        world.enter("noor", 100, 330)?;
        world.act("noor", 110, start("saw"))?;
        check(&world, "noor", 140, 0, "saw", Some((Harm::Noise, 150)));
        check(&world, "noor", 290, 0, "saw", Some((Harm::Noise, 0)));
        check(&world, "noor", 310, 0, "saw", Some((Harm::Noise, 0)));
        Ok(())
    }

    /// Two machines at 88 dBA run down the same day twice as fast.
    #[test]
    fn what_runs_at_once_adds_up() -> Result<(), crate::refusal::Refusal> {
        let mut world = world();
        world.enter("noor", 0, 200)?;
        world.act("noor", 0, start("saw"))?;
        world
            .book
            .machines
            .iter_mut()
            .filter(|one| one.id.as_str() == "torch")
            .for_each(|one| one.noise_dba = Some(88.0));
        check(&world, "noor", 0, 0, "saw", Some((Harm::Noise, 240)));
        check(&world, "noor", 0, 0, "torch", Some((Harm::Noise, 120)));
        world.act("noor", 1, start("torch"))?;
        check(&world, "noor", 1, 0, "saw", Some((Harm::Noise, 119)));
        // What does not vibrate itself takes no time from the hands, whatever shakes beside it.
        for (id, ms2) in [("saw", 0.0), ("torch", 10.0)] {
            let machine = world.book.machines.iter_mut().find(|one| one.id.as_str() == id).expect("a machine");
            machine.vibration_ms2 = Some(ms2);
        }
        check(&world, "noor", 1, 0, "saw", Some((Harm::Noise, 119)));
        check(&world, "noor", 1, 0, "torch", Some((Harm::Vibration, 30)));
        let saw = world.book.machines.iter_mut().find(|one| one.id.as_str() == "saw").expect("a saw");
        saw.noise_dba = None;
        check(&world, "noor", 1, 0, "saw", None);
        world.book.machines.iter_mut().filter(|one| one.id.as_str() == "saw").for_each(|saw| {
            (saw.noise_dba, saw.vibration_ms2) = (Some(88.0), None);
        });
        // Left without a stop: nothing goes on after that.
        world.act("noor", 60, Command::Leave)?;
        check(&world, "noor", 100, 0, "saw", Some((Harm::Noise, 121)));
        Ok(())
    }
}
