//! Finds: each mess with who could have left it, when footage shows it, what was ticked and what not; and what repeats.
//!
//! For a steward alone. Facts and numbers, no blame: whoever is named here is somebody to ask. What repeats is told of
//! machines and chores first; of people in the order of their names, each number with its interval, and never as a ranking.

use std::cmp::Reverse;

use crate::chores;
use crate::entry::{Condition, Matter, Of, Place};
use crate::ids::{ChoreId, MachineId, PersonId, RoomId};
use crate::interval::clopper_pearson;
use crate::ordered::Map;
use crate::state::{Found, Session};
use crate::time::{HOUR_MS, Instant, Span};
use crate::trace::{self, Seen, Trace};
use crate::view::Viewer;
use crate::view::incidents::place_name;
use crate::view::thread::{self, NoteLine};

/// So many finds are shown.
pub const FINDS_MOST: usize = 30;
/// Messes of so many days are shown, settled or not.
pub const FINDS_DAYS: i64 = 30;
/// What repeats is counted over so many days back.
pub const PATTERN_DAYS: i64 = 90;
/// Once is no pattern.
const TIMES_LEAST: u64 = 2;
const CONFIDENCE: f64 = 0.95;

/// What the page shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Finds {
    /// Messes, those that nobody has seen to first, the newest first in each.
    pub finds: Vec<Find>,
    /// Messes by machine, of its uses; the most certain first.
    pub machines: Vec<Pattern>,
    /// Chores that were not ticked, of the sessions that owed them; the most certain first.
    pub chores: Vec<Pattern>,
    /// Evenings with something not ticked, of each member's evenings; by name.
    pub people: Vec<Pattern>,
}

/// One mess.
#[derive(Clone, Debug, PartialEq)]
pub struct Find {
    /// Its line.
    pub of: Of,
    /// When it was seen.
    pub at: Instant,
    /// By whom.
    pub by: String,
    /// The name of the machine or room.
    pub place: String,
    /// In the finder's words.
    pub note: Option<String>,
    /// When it was last known to be clean.
    pub clean_at: Option<Instant>,
    /// Who could have left it, in order of time.
    pub windows: Vec<Suspect>,
    /// Minutes of footage in all windows together.
    pub footage_minutes: i64,
    /// What was said of it since.
    pub notes: Vec<NoteLine>,
    /// Whether it was seen to.
    pub seen_to: bool,
}

/// One stretch of use: somebody to ask, and what the log says of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspect {
    /// Who.
    pub name: String,
    /// From when.
    pub from: Instant,
    /// Until when.
    pub to: Instant,
    /// What was ticked.
    pub ticked: Vec<Ticked>,
    /// What was not.
    pub unticked: Vec<String>,
    /// By how much the phone's clock jumped meanwhile: so far off these times may be.
    pub clock_jumped: Span,
}

/// A chore that was ticked.
#[derive(Clone, Debug, PartialEq)]
pub struct Ticked {
    /// What was to be done.
    pub text: String,
    /// The hash of a picture of it.
    pub photo: Option<String>,
}

/// How often something was so.
#[derive(Clone, Debug, PartialEq)]
pub struct Pattern {
    /// What, or who.
    pub name: String,
    /// So often.
    pub times: u64,
    /// Of so many.
    pub of: u64,
    /// The share's interval, in percent: rounded down.
    pub low_pct: u8,
    /// Rounded up.
    pub high_pct: u8,
}

/// What a steward is shown.
pub fn finds(viewer: &Viewer) -> Finds {
    let index = Index::of(viewer);
    let since = viewer.now - Span::from_ms(FINDS_DAYS * 24 * HOUR_MS);
    let messes = viewer.state.found.iter().filter(|found| found.condition == Condition::Mess && found.at >= since);
    let mut messes: Vec<(bool, &Found)> =
        messes.map(|found| (thread::is_seen_to(viewer.state, &of(found)), found)).collect();
    messes.sort_by_key(|(seen_to, found)| (*seen_to, Reverse(found.at)));
    messes.truncate(FINDS_MOST);
    let found = messes.into_iter().map(|(seen_to, found)| find(viewer, &index, found, seen_to)).collect();
    let patterns = Patterns::of(viewer);
    Finds {
        finds: found,
        machines: patterns.machines(viewer),
        chores: patterns.chores(viewer),
        people: patterns.people(viewer),
    }
}

fn of(found: &Found) -> Of {
    thread::of(Matter::Found, found.at, &found.by)
}

/// What is about each machine and room, gathered once: a trace looks at no more.
struct Index<'a> {
    uses: Map<&'a MachineId, Vec<&'a Session>>,
    stays: Map<&'a RoomId, Vec<&'a Session>>,
    clean: Vec<&'a Found>,
}

impl<'a> Index<'a> {
    fn of(viewer: &Viewer<'a>) -> Self {
        let clean = viewer.state.found.iter().filter(|found| found.condition == Condition::Clean).collect();
        let mut index = Self { uses: Map::new(), stays: Map::new(), clean };
        // The latest first: a trace passes over what was over before it.
        for session in viewer.state.latest_first() {
            for machine in session.machines() {
                index.uses.entry(machine).or_default().push(session);
            }
            index.stays.entry(&session.room).or_default().push(session);
        }
        index
    }
}

fn find(viewer: &Viewer, index: &Index, found: &Found, seen_to: bool) -> Find {
    let nobody = Trace { from: None, to: found.at, windows: Vec::new(), footage_minutes: 0 };
    let among = |sessions: Option<&Vec<&Session>>, what: Seen| {
        let sessions = sessions.into_iter().flatten().copied();
        (trace::trace_among(index.clean.iter().copied(), sessions, &what, found.at), what.chores())
    };
    let (trace, chores) = match &found.place {
        Place::Machine(id) => viewer
            .book
            .machine(id)
            .map_or_else(|| (nobody, Vec::new()), |machine| among(index.uses.get(id), Seen::Machine(machine))),
        Place::Room(id) => viewer
            .book
            .room(id)
            .map_or_else(|| (nobody, Vec::new()), |room| among(index.stays.get(id), Seen::Room(room))),
    };
    let of = of(found);
    Find {
        at: found.at,
        by: viewer.members.name(&found.by).to_owned(),
        place: place_name(viewer, &found.place),
        note: found.note.clone(),
        clean_at: trace.from,
        windows: trace.windows.iter().map(|window| suspect(viewer, window, &chores, found.at)).collect(),
        footage_minutes: trace.footage_minutes,
        notes: thread::notes(viewer, &of),
        seen_to,
        of,
    }
}

fn suspect(viewer: &Viewer, window: &trace::Window, chores: &[ChoreId], seen: Instant) -> Suspect {
    let session = viewer.state.sessions.get(&window.session);
    let done = |chore| session.and_then(|session| session.chores.get(chore)).filter(|done| done.at <= seen);
    let (mut ticked, mut unticked) = (Vec::new(), Vec::new());
    for chore in chores {
        let text = super::book::chore_text(viewer, chore);
        match done(chore) {
            Some(done) => ticked.push(Ticked { text, photo: done.photo.clone() }),
            None => unticked.push(text),
        }
    }
    Suspect {
        name: viewer.members.name(&window.who).to_owned(),
        from: window.from,
        to: window.to,
        ticked,
        unticked,
        clock_jumped: window.clock_jumped,
    }
}

/// What was counted over [`PATTERN_DAYS`].
#[derive(Default)]
struct Patterns {
    messes: Map<MachineId, u64>,
    uses: Map<MachineId, u64>,
    /// Not ticked, and owed.
    chores: Map<ChoreId, (u64, u64)>,
    /// Evenings with something not ticked, and evenings.
    people: Map<PersonId, (u64, u64)>,
}

impl Patterns {
    fn of(viewer: &Viewer) -> Self {
        let since = viewer.now - Span::from_ms(PATTERN_DAYS * 24 * HOUR_MS);
        let mut all = Self::default();
        for found in viewer.state.found.iter().filter(|found| found.at >= since) {
            if let (Condition::Mess, Place::Machine(machine)) = (found.condition, &found.place) {
                *all.messes.entry(machine.clone()).or_default() += 1;
            }
        }
        let over = viewer.state.sessions.values().filter(|session| session.left().is_some_and(|left| left >= since));
        for session in over {
            all.take(viewer, session);
        }
        all
    }

    fn take(&mut self, viewer: &Viewer, session: &Session) {
        for machine in session.machines() {
            *self.uses.entry(machine.clone()).or_default() += 1;
        }
        let mut whole = true;
        // Who was the last one out is left aside: it is nobody's habit.
        for due in chores::of_session(viewer.book, &session.room, session.machines(), false) {
            let done = session.chores.contains_key(&due.id);
            whole &= done;
            let (missing, owed) = self.chores.entry(due.id).or_default();
            (*missing, *owed) = (*missing + u64::from(!done), *owed + 1);
        }
        let (left, evenings) = self.people.entry(session.who.clone()).or_default();
        (*left, *evenings) = (*left + u64::from(!whole), *evenings + 1);
    }

    fn machines(&self, viewer: &Viewer) -> Vec<Pattern> {
        let one = |(machine, times): (&MachineId, &u64)| {
            pattern(viewer.book.machine_name(machine), *times, self.uses.get(machine).copied().unwrap_or_default())
        };
        most_certain(self.messes.iter().filter_map(one).collect())
    }

    fn chores(&self, viewer: &Viewer) -> Vec<Pattern> {
        let one = |(chore, (missing, owed)): (&ChoreId, &(u64, u64))| {
            (*missing >= TIMES_LEAST)
                .then(|| pattern(super::book::chore_text(viewer, chore), *missing, *owed))
                .flatten()
        };
        most_certain(self.chores.iter().filter_map(one).collect())
    }

    fn people(&self, viewer: &Viewer) -> Vec<Pattern> {
        // Of everybody at once: a search for each would be as long as the list.
        let names: Map<&PersonId, &str> =
            viewer.members.iter().map(|member| (&member.id, member.name.as_str())).collect();
        let one = |(who, (left, evenings)): (&PersonId, &(u64, u64))| {
            pattern(names.get(who).copied().unwrap_or(who.as_str()).to_owned(), *left, *evenings)
        };
        let mut people: Vec<Pattern> = self.people.iter().filter_map(one).collect();
        people.sort_by(|a, b| a.name.cmp(&b.name));
        people
    }
}

/// A share with its interval, if it is often enough to be looked at.
fn pattern(name: String, times: u64, of: u64) -> Option<Pattern> {
    if times < TIMES_LEAST {
        return None;
    }
    let of = of.max(times);
    let (low, high) = clopper_pearson(times, of, CONFIDENCE);
    Some(Pattern { name, times, of, low_pct: percent(low * 100.0), high_pct: percent(libm::ceil(high * 100.0)) })
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share's percent, 0 to 100")]
fn percent(share: f64) -> u8 {
    share.clamp(0.0, 100.0) as u8
}

/// So many of machines and chores are shown.
const PATTERNS_MOST: usize = 10;

fn most_certain(mut patterns: Vec<Pattern>) -> Vec<Pattern> {
    patterns.sort_by(|a, b| {
        b.low_pct.cmp(&a.low_pct).then_with(|| b.times.cmp(&a.times)).then_with(|| a.name.cmp(&b.name))
    });
    patterns.truncate(PATTERNS_MOST);
    patterns
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::entry::Step;
    use crate::testing::{World, arrive, at, start, stop};

    fn found(world: &mut World, who: &str, minute: i64, place: Place, condition: Condition) {
        world.act(who, minute, Command::ReportFound { place, condition, note: None }).expect("allowed");
    }

    /// Noor and ilse use the saw one after the other; ilse brushes it. Teun sees a mess on it, and one in the room.
    fn two_uses() -> World {
        let mut world = World::new();
        let saw = || Place::Machine("saw".into());
        found(&mut world, "bram", 0, saw(), Condition::Clean);
        for (who, minute, command) in [
            ("noor", 1, arrive("noor", "forge", 1, 200)),
            ("noor", 5, start("saw")),
            ("noor", 9, stop("saw")),
            ("noor", 20, Command::Leave),
            ("bram", 30, arrive("bram", "forge", 30, 200)),
            ("bram", 31, start("saw")),
            ("bram", 40, stop("saw")),
        ] {
            assert_eq!(world.act(who, minute, command), Ok(()), "{who} {minute}");
        }
        found(&mut world, "teun", 50, saw(), Condition::Mess);
        found(&mut world, "teun", 51, Place::Room("forge".into()), Condition::Mess);
        world
    }

    #[test]
    fn who_could_have_left_it_is_told_with_what_was_ticked() {
        let world = two_uses();
        let me = PersonId::from("bram");
        let all = finds(&world.viewer(&me, at(60)));
        let places: Vec<&str> = all.finds.iter().map(|find| find.place.as_str()).collect();
        assert_eq!(places, ["Room forge", "The saw"]);
        let told = |find: &Find| -> Vec<(String, Instant, Instant, usize, usize)> {
            let one = |s: &Suspect| (s.name.clone(), s.from, s.to, s.ticked.len(), s.unticked.len());
            find.windows.iter().map(one).collect()
        };
        let saw = &all.finds[1];
        assert_eq!((saw.clean_at, saw.footage_minutes), (Some(at(0)), 15 + 19));
        assert_eq!(told(saw), [("NOOR".into(), at(5), at(20), 0, 1), ("BRAM".into(), at(31), at(50), 0, 1)]);
        // Of the room, whoever was in it.
        assert_eq!(told(&all.finds[0]), [("NOOR".into(), at(1), at(20), 0, 1), ("BRAM".into(), at(30), at(51), 0, 1)]);
    }

    #[test]
    fn what_was_seen_to_goes_below() {
        let mut world = two_uses();
        let me = PersonId::from("bram");
        let of = finds(&world.viewer(&me, at(60))).finds[0].of.clone();
        for step in [Step::Asked, Step::SeenTo] {
            world.act("bram", 61, Command::Note { of: of.clone(), step, note: None }).expect("allowed");
        }
        let all = finds(&world.viewer(&me, at(62))).finds;
        assert_eq!(
            all.iter().map(|find| (find.place.as_str(), find.seen_to)).collect::<Vec<_>>(),
            [("The saw", false), ("Room forge", true)]
        );
        assert_eq!(all[1].notes.len(), 2);
        assert_eq!(finds(&world.viewer(&me, at(FINDS_DAYS * 24 * 60 + 52))).finds, []);
    }

    #[test]
    fn what_repeats_is_a_share_with_its_interval_and_people_stand_by_name() {
        let mut world = World::new();
        for evening in 0..6 {
            let minute = evening * 100;
            // Noor never brushes the saw; ilse does, but for once each forgets the floor.
            for (who, brushes) in [("noor", false), ("ilse", true)] {
                let from = minute + i64::from(brushes) * 50;
                let mut acts = vec![
                    (from, arrive(who, "forge", from, from + 40)),
                    (from + 1, start("saw")),
                    (from + 5, stop("saw")),
                ];
                acts.push((from + 6, Command::StartSweep { crew: 1 }));
                if brushes {
                    acts.push((from + 8, Command::FinishChore { chore: "saw/brush".into(), photo: None }));
                    acts.push((from + 9, Command::FinishChore { chore: "forge/floor".into(), photo: None }));
                }
                acts.push((from + 10, Command::Leave));
                for (minute, command) in acts {
                    assert_eq!(world.act(who, minute, command), Ok(()), "{who} {minute}");
                }
            }
        }
        for minute in [610, 620] {
            found(&mut world, "teun", minute, Place::Machine("saw".into()), Condition::Mess);
        }
        let me = PersonId::from("bram");
        let all = finds(&world.viewer(&me, at(700)));
        let told = |patterns: &[Pattern]| -> Vec<(String, u64, u64, u8, u8)> {
            patterns.iter().map(|p| (p.name.clone(), p.times, p.of, p.low_pct, p.high_pct)).collect()
        };
        // scipy 1.17, binomtest(2, 12) and (6, 12) and (6, 6), exact: 0.0209 to 0.4841, 0.2109 to 0.7891, 0.5407 to 1.
        assert_eq!(told(&all.machines), [("The saw".into(), 2, 12, 2, 49)]);
        let chore = |name: &str| (name.to_owned(), 6, 12, 21, 79);
        assert_eq!(told(&all.chores), [chore("Room forge: Do floor."), chore("The saw: Do brush.")]);
        assert_eq!(told(&all.people), [("NOOR".into(), 6, 6, 54, 100)]);
    }
}
