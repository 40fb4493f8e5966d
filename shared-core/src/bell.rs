//! Which bell is due: a question asked of stored instants at every wake-up, never of a running timer.
//!
//! A bell rings once for the instant it was set to. Moved later it rings again at the later instant; moved earlier than
//! one that rang already it stays silent. A bell that was missed is due at once and says by how much it is late.
//! Of several due bells of the session the latest in the evening is the one that matters; the rest count as rung.

use serde::Serialize;
use serde_json::Value;

use crate::ids::MachineId;
use crate::json::{FromJson, Unfit};
use crate::time::{Instant, Span};
use crate::view::bench::{BenchView, Cover, Standing};

/// The alarm before a buddy's word lapses.
pub const LAPSE_WARNING_MINUTES: i64 = 2;

/// What rings.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bell {
    /// Finish the pass you are on.
    First,
    /// Start to sweep now.
    Sweep,
    /// You are past out-by.
    Last,
    /// Hot work must end now.
    LastSpark,
    /// Somebody calls everybody out of the room.
    Clear,
    /// The buddy's word for a running machine ends in two minutes.
    BuddyLapsing(MachineId),
    /// The buddy's word for a running machine has ended.
    BuddyLapsed(MachineId),
}

/// A bell and the instant it is set to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Set {
    /// Which.
    pub bell: Bell,
    /// When.
    pub at: Instant,
}

/// A bell that is due.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// Which.
    pub bell: Bell,
    /// When it was set to ring.
    pub at: Instant,
    /// By how much it is late.
    pub late: Span,
}

/// Which bells rang, and for which instant. Kept with the running session.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Rung(Vec<(Bell, Instant)>);

impl FromJson for Rung {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        let pair = |pair: &Value| Ok((Bell::from_json(&pair[0])?, Instant::from_json(&pair[1])?));
        let pairs = value.as_array().ok_or(Unfit("a list of bells"))?;
        pairs.iter().map(pair).collect::<Result<_, _>>().map(Self)
    }
}

impl FromJson for Bell {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        let plain = match value.as_str() {
            Some("first") => Some(Self::First),
            Some("sweep") => Some(Self::Sweep),
            Some("last") => Some(Self::Last),
            Some("last_spark") => Some(Self::LastSpark),
            Some("clear") => Some(Self::Clear),
            _ => None,
        };
        let buddy = |key: &str| value[key].as_str().map(MachineId::from);
        plain
            .or_else(|| buddy("buddy_lapsing").map(Self::BuddyLapsing))
            .or_else(|| buddy("buddy_lapsed").map(Self::BuddyLapsed))
            .ok_or(Unfit("a bell"))
    }
}

crate::json::read_as_json!(Rung, Bell);

impl Rung {
    fn for_bell(&self, bell: &Bell) -> Option<Instant> {
        self.0.iter().find(|(known, _)| known == bell).map(|(_, at)| *at)
    }

    /// Takes down that a bell rang for the instant it was set to.
    pub fn note(&mut self, due: &Due) {
        match self.0.iter_mut().find(|(known, _)| *known == due.bell) {
            Some((_, at)) => *at = (*at).max(due.at),
            None => self.0.push((due.bell.clone(), due.at)),
        }
    }
}

/// The bells of a session that works (`sweeping` false) or sweeps.
pub fn set(bench: &BenchView, sweeping: bool) -> Vec<Set> {
    let mut bells = Vec::new();
    if let Ok(times) = &bench.times
        && !sweeping
    {
        bells.push(Set { bell: Bell::First, at: times.first_bell });
        bells.push(Set { bell: Bell::Sweep, at: times.sweep_from });
        if let Some(at) = times.last_spark {
            bells.push(Set { bell: Bell::LastSpark, at });
        }
    }
    bells.push(Set { bell: Bell::Last, at: bench.out_by });
    if let Some(at) = bench.clear_called {
        bells.push(Set { bell: Bell::Clear, at });
    }
    for row in &bench.machines {
        match &row.standing {
            Standing::Running { covered_until: Some(Cover::Until(at)), .. } => {
                let warning = *at - Span::from_minutes(LAPSE_WARNING_MINUTES);
                bells.push(Set { bell: Bell::BuddyLapsing(row.id.clone()), at: warning });
                bells.push(Set { bell: Bell::BuddyLapsed(row.id.clone()), at: *at });
            }
            Standing::Running { covered_until: Some(Cover::GapSince(at)), .. } => {
                bells.push(Set { bell: Bell::BuddyLapsed(row.id.clone()), at: *at });
            }
            _ => {}
        }
    }
    bells
}

/// The bells that are due at `now` and have not rung, most pressing first. Of first, sweep and last only the furthest
/// in the evening is answered; the others are noted as rung.
pub fn due(bells: &[Set], rung: &mut Rung, now: Instant) -> Vec<Due> {
    let mut due: Vec<Due> = bells
        .iter()
        .filter(|set| set.at <= now && rung.for_bell(&set.bell).is_none_or(|at| at < set.at))
        .map(|set| Due { bell: set.bell.clone(), at: set.at, late: now - set.at })
        .collect();
    due.sort_by_key(|due| std::cmp::Reverse(pressing(&due.bell)));
    let mut told = false;
    due.retain(|due| {
        if !matches!(due.bell, Bell::First | Bell::Sweep | Bell::Last) {
            return true;
        }
        if told {
            rung.note(due);
        }
        !std::mem::replace(&mut told, true)
    });
    due
}

/// When the next bell that has not rung is set to ring, for a timer that merely wakes.
pub fn next(bells: &[Set], rung: &Rung, now: Instant) -> Option<Instant> {
    bells
        .iter()
        .filter(|set| set.at > now && rung.for_bell(&set.bell).is_none_or(|at| at < set.at))
        .map(|set| set.at)
        .min()
}

fn pressing(bell: &Bell) -> u8 {
    match bell {
        Bell::Clear => 6,
        Bell::BuddyLapsed(_) => 5,
        Bell::LastSpark => 4,
        Bell::Last => 3,
        Bell::Sweep => 2,
        Bell::BuddyLapsing(_) => 1,
        Bell::First => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::at;

    /// Bells as (bell, minute), the minutes of wake-ups, and what is due at each as (bell, minutes late).
    #[track_caller]
    fn check(bells: &[(Bell, i64)], wakes: &[(i64, &[(Bell, i64)])]) -> Rung {
        let set: Vec<Set> = bells.iter().map(|(bell, minute)| Set { bell: bell.clone(), at: at(*minute) }).collect();
        let mut rung = Rung::default();
        wake(&set, &mut rung, wakes);
        rung
    }

    #[track_caller]
    fn wake(set: &[Set], rung: &mut Rung, wakes: &[(i64, &[(Bell, i64)])]) {
        for (minute, expected) in wakes {
            let due = due(set, rung, at(*minute));
            let told: Vec<(Bell, i64)> = due.iter().map(|due| (due.bell.clone(), due.late.minutes_up())).collect();
            assert_eq!(told, *expected, "at {minute}");
            for due in &due {
                rung.note(due);
            }
        }
    }

    const EVENING: [(Bell, i64); 3] = [(Bell::First, 60), (Bell::Sweep, 70), (Bell::Last, 90)];

    #[test]
    fn each_bell_rings_once_at_its_instant() {
        check(
            &EVENING,
            &[
                (59, &[]),
                (60, &[(Bell::First, 0)]),
                (61, &[]),
                (70, &[(Bell::Sweep, 0)]),
                (89, &[]),
                (90, &[(Bell::Last, 0)]),
                (500, &[]),
            ],
        );
    }

    #[test]
    fn a_bell_slept_through_says_how_late_and_the_furthest_speaks_for_the_rest() {
        check(&EVENING, &[(75, &[(Bell::Sweep, 5)]), (76, &[]), (100, &[(Bell::Last, 10)])]);
        check(&EVENING, &[(300, &[(Bell::Last, 210)]), (301, &[])]);
    }

    #[test]
    fn moved_later_it_rings_again_and_moved_earlier_it_does_not() {
        let mut rung = check(&EVENING, &[(60, &[(Bell::First, 0)]), (70, &[(Bell::Sweep, 0)])]);
        let earlier = [Set { bell: Bell::Sweep, at: at(65) }];
        wake(&earlier, &mut rung, &[(71, &[])]);
        let later = [Set { bell: Bell::Sweep, at: at(130) }];
        assert_eq!(next(&later, &rung, at(72)), Some(at(130)));
        wake(&later, &mut rung, &[(129, &[]), (130, &[(Bell::Sweep, 0)]), (131, &[])]);
    }

    #[test]
    fn a_lapse_is_told_beside_the_evening() {
        let lathe = || MachineId::from("lathe");
        let bells = [(Bell::BuddyLapsing(lathe()), 68), (Bell::BuddyLapsed(lathe()), 70), (Bell::Sweep, 70)];
        check(
            &bells,
            &[
                (68, &[(Bell::BuddyLapsing(lathe()), 0)]),
                (70, &[(Bell::BuddyLapsed(lathe()), 0), (Bell::Sweep, 0)]),
                (71, &[]),
            ],
        );
    }
}
