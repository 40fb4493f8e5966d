//! What may go after a while, or when its owner asks, and what must stay: everything that is still in force.
//!
//! In force are the last word on each machine's tag and on each round, on what each member is to the shop (inducted, signed off,
//! their role) and on each point of their walk, what was said of a tag that is on, and all of a session that nobody left:
//! without them a machine would look fit that is not, and somebody who may lie in the room would be on no muster list. A
//! session goes as a whole, so that none is left behind by halves; what was said outside of one goes line by line. The hub
//! erases bodies and keeps places and hashes
//! ([`crate::log::chain`]); a phone drops lines. How long is `shop.retention_days` of the rulebook.
//!
//! Reads no clock and drops nothing itself.

use crate::entry::{Entry, Fact, Matter, Point};
use crate::ids::{MachineId, PersonId, RoundId, SessionId};
use crate::ordered::{Map, Set};
use crate::time::{Instant, Span};

/// What this module needs to know of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said<'a> {
    /// Who says so.
    pub who: &'a PersonId,
    /// In which session.
    pub session: &'a SessionId,
    /// When it happened.
    pub at: Instant,
    /// When it was learned: by the hub's clock at the hub, on a phone when it happened.
    pub learned: Instant,
    /// What of it may be in force.
    pub word: Word<'a>,
}

/// What of an entry may be in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Word<'a> {
    /// A session begins.
    Entered,
    /// It is left.
    Left,
    /// A machine's tag is put on.
    Tag(&'a MachineId),
    /// A machine's tag is taken off.
    TagOff(&'a MachineId),
    /// Something is said of a machine's tag.
    OfTag(&'a MachineId),
    /// On a round.
    Round(&'a RoundId),
    /// On what somebody is to the shop, or on their walk.
    Of(About, &'a PersonId, &'a str),
    /// Anything else.
    Other,
}

/// What a word on a member is about, besides the name of a training or a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// Their induction.
    Induction,
    /// A sign-off.
    SignOff,
    /// Their role.
    Role,
    /// A stop of their walk.
    Stop,
    /// A statement of it.
    Statement,
    /// All of it.
    Walk,
}

impl<'a> Said<'a> {
    /// What an entry says of itself, learned as it happened.
    pub fn of(entry: &'a Entry) -> Self {
        let word = match &entry.fact {
            Fact::Entered { .. } => Word::Entered,
            Fact::Left => Word::Left,
            Fact::TaggedOut { machine, .. } => Word::Tag(machine),
            Fact::TagCleared { machine } => Word::TagOff(machine),
            Fact::Noted { of, .. } => match &of.matter {
                Matter::Tag(machine) => Word::OfTag(machine),
                Matter::Found | Matter::Incident | Matter::Session => Word::Other,
            },
            Fact::RoundDone { round } => Word::Round(round),
            fact => Word::of_member(&entry.who, fact),
        };
        Self { who: &entry.who, session: &entry.session, at: entry.at, learned: entry.at, word }
    }
}

impl<'a> Word<'a> {
    /// What a fact says of a member that may be in force.
    pub fn of_member(who: &'a PersonId, fact: &'a Fact) -> Self {
        match fact {
            Fact::Inducted { person, .. } => Self::Of(About::Induction, person, ""),
            Fact::SignedOff { person, training, .. } => Self::Of(About::SignOff, person, training),
            Fact::RoleGiven { person, .. } => Self::Of(About::Role, person, ""),
            Fact::Walked { point: Point::Stop(stop), .. } => Self::Of(About::Stop, who, stop.as_str()),
            Fact::Walked { point: Point::Statement(statement), .. } => {
                Self::Of(About::Statement, who, statement.as_str())
            }
            Fact::WalkDone { .. } => Self::Of(About::Walk, who, ""),
            _ => Self::Other,
        }
    }
}

/// What is in force, learned from all that is known. Of two words of one instant both stay: which of them holds is not for
/// this module to say.
#[derive(Clone, Debug, Default)]
pub struct InForce {
    tags: Map<MachineId, Instant>,
    tags_off: Map<MachineId, Instant>,
    rounds: Map<RoundId, Instant>,
    members: Map<(About, PersonId, String), Instant>,
    stays: Map<(PersonId, SessionId), Stay>,
}

#[derive(Clone, Copy, Debug, Default)]
struct Stay {
    entered: bool,
    left: bool,
    /// A line of it is not held by the hub.
    waits: bool,
    last: Instant,
}

impl InForce {
    /// Takes note of an entry. Every one that is known must be noted before anything is asked.
    pub fn note(&mut self, said: &Said<'_>) {
        let stay = self.stays.entry((said.who.clone(), said.session.clone())).or_default();
        stay.last = stay.last.max(said.learned);
        let last = match said.word {
            Word::Entered => return stay.entered = true,
            Word::Left => return stay.left = true,
            Word::Tag(machine) => self.tags.entry(machine.clone()).or_insert(said.at),
            Word::TagOff(machine) => {
                let off = self.tags_off.entry(machine.clone()).or_insert(said.at);
                *off = said.at.max(*off);
                self.tags.entry(machine.clone()).or_insert(said.at)
            }
            Word::Round(round) => self.rounds.entry(round.clone()).or_insert(said.at),
            Word::Of(about, person, name) => {
                self.members.entry((about, person.clone(), name.to_owned())).or_insert(said.at)
            }
            Word::OfTag(_) | Word::Other => return,
        };
        *last = said.at.max(*last);
    }

    /// Takes note of an entry that a phone has said and its hub does not hold: of no use to what is in force there, and no line of
    /// its stay is over before it is held. A member's other phone may have said that the stay is left; without that half it would be
    /// under way again.
    pub fn note_waiting(&mut self, said: &Said<'_>) {
        self.stays.entry((said.who.clone(), said.session.clone())).or_default().waits = true;
    }

    /// Whether an entry is in force.
    pub fn holds(&self, said: &Said<'_>) -> bool {
        let in_stay = self.stay(said).is_some_and(|stay| stay.entered && !stay.left);
        let last = match said.word {
            Word::OfTag(machine) => return self.tags_off.get(machine).is_none_or(|off| *off <= said.at) || in_stay,
            Word::Tag(machine) | Word::TagOff(machine) => self.tags.get(machine),
            Word::Round(round) => self.rounds.get(round),
            Word::Of(about, person, name) => self.members.get(&(about, person.clone(), name.to_owned())),
            Word::Entered | Word::Left | Word::Other => None,
        };
        in_stay || last == Some(&said.at)
    }

    /// Whether an entry is not in force, and nothing of its session was learned since `limit`.
    pub fn is_over(&self, said: &Said<'_>, limit: Instant) -> bool {
        let alone = *said.session == SessionId::outside();
        let stay = self.stay(said).filter(|_| !alone);
        let last = stay.map_or(said.learned, |stay| stay.last);
        !self.holds(said) && last < limit && !stay.is_some_and(|stay| stay.waits)
    }

    fn stay(&self, said: &Said<'_>) -> Option<&Stay> {
        self.stays.get(&(said.who.clone(), said.session.clone()))
    }
}

/// What was learned before this is kept no longer. `days` is `shop.retention_days`; a day is 24 hours.
pub fn limit(now: Instant, days: u32) -> Instant {
    now - Span::from_minutes(i64::from(days) * 24 * 60)
}

/// Whom an entry names besides who says it: that is about them as well.
pub fn named(fact: &Fact) -> Set<&PersonId> {
    match fact {
        Fact::BuddyConfirmed { buddy, .. } | Fact::BuddyLeft { buddy } => Set::from([buddy]),
        Fact::Inducted { person, .. } | Fact::SignedOff { person, .. } | Fact::RoleGiven { person, .. } => {
            Set::from([person])
        }
        Fact::Noted { of, .. } => Set::from([&of.who]),
        _ => Set::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Condition, Of, Place, Step};
    use crate::testing::at;

    /// Entries as `session who minute what`, in the order of the log; those that stay are marked `*`, those that are over
    /// at `limit` minutes `-`, others nothing.
    fn check(limit: i64, log: &[(&str, &str, i64, Fact)], expected: &str) {
        let entries: Vec<Entry> = (log.iter())
            .map(|(session, who, minute, fact)| Entry {
                at: at(*minute),
                session: (*session).into(),
                who: (*who).into(),
                fact: fact.clone(),
            })
            .collect();
        let mut in_force = InForce::default();
        for entry in &entries {
            in_force.note(&Said::of(entry));
        }
        let marks: String = (entries.iter().map(Said::of))
            .map(|said| match (in_force.holds(&said), in_force.is_over(&said, at(limit))) {
                (true, false) => '*',
                (false, true) => '-',
                (false, false) => ' ',
                (true, true) => '!',
            })
            .collect();
        assert_eq!(marks, expected, "{log:?}");
    }

    fn entered() -> Fact {
        Fact::Entered { room: "hall".into(), out_by: at(500) }
    }

    fn tag() -> Fact {
        Fact::TaggedOut { machine: "mill".into(), problem: "belt".into(), photo: None }
    }

    fn clear() -> Fact {
        Fact::TagCleared { machine: "mill".into() }
    }

    fn round() -> Fact {
        Fact::RoundDone { round: "bin".into() }
    }

    #[test]
    fn what_is_in_force_stays_and_the_rest_goes_by_whole_sessions() {
        check(100, &[], "");
        check(100, &[("s", "ada", 1, entered()), ("s", "ada", 2, Fact::Left)], "--");
        check(2, &[("s", "ada", 1, entered()), ("s", "ada", 2, Fact::Left)], "  ");
        check(100, &[("s", "ada", 1, entered()), ("s", "ada", 2, Fact::WatchRound)], "**");
        // Nobody leaves for another.
        check(100, &[("s", "ada", 1, entered()), ("s", "bo", 2, Fact::Left)], "*-");
        let left = |session: &'static str, minute| (session, "ada", minute, Fact::Left);
        check(100, &[("s", "ada", 1, entered()), ("s", "ada", 2, tag()), left("s", 3)], "-*-");
        check(100, &[("s", "ada", 1, tag()), ("t", "bo", 5, clear()), ("u", "bo", 4, tag())], "-*-");
        let off = |until| Fact::SignedOff { person: "cy".into(), training: "mill".into(), until };
        check(
            100,
            &[("o", "ada", 1, off(Some(at(9)))), ("o", "bo", 2, off(None)), ("o", "bo", 2, Fact::WatchRound)],
            "-*-",
        );
        check(100, &[("o", "ada", 2, off(Some(at(9)))), ("o", "bo", 2, off(None))], "**");
        let walked = || Fact::Walked { point: Point::Stop("bin".into()), mark: "k".into() };
        check(100, &[("o", "ada", 1, walked()), ("o", "bo", 2, walked()), ("o", "ada", 3, walked())], "-**");
        // Two at one instant are both the last word.
        check(100, &[("s", "ada", 1, tag()), ("t", "bo", 1, clear())], "**");
        check(100, &[("s", "ada", 1, round()), ("t", "bo", 9, round()), ("t", "bo", 10, Fact::WatchRound)], "-*-");
        check(10, &[("s", "ada", 1, round()), ("t", "bo", 9, round()), ("t", "bo", 10, Fact::WatchRound)], "-* ");
    }

    #[test]
    fn what_was_said_of_a_tag_stays_as_long_as_the_tag() {
        let said = |step| {
            let of = Of { matter: Matter::Tag("mill".into()), at: at(1), who: "ada".into() };
            Fact::Noted { of, step, note: None }
        };
        let (waits, mended) = (|| said(Step::WaitsForPart { until: None }), || said(Step::Mended));
        check(100, &[("s", "ada", 1, tag()), ("t", "bo", 2, waits()), ("u", "bo", 3, mended())], "***");
        check(100, &[("s", "ada", 1, tag()), ("t", "bo", 2, waits()), ("u", "bo", 3, clear())], "--*");
        check(100, &[("s", "ada", 1, clear()), ("t", "bo", 2, tag()), ("u", "bo", 3, mended())], "-**");
    }

    /// A stay begun on one phone, which waits to be held, and left on another.
    #[test]
    fn no_half_of_a_stay_goes_while_the_other_waits() {
        let entries = ["s", "t", "outside"].map(|session| Entry {
            at: at(1),
            session: session.into(),
            who: "ada".into(),
            fact: Fact::Left,
        });
        for (waits, goes) in
            [(None, [true, true, true]), (Some("s"), [false, true, true]), (Some("outside"), [true, true, true])]
        {
            let mut in_force = InForce::default();
            for entry in &entries {
                in_force.note(&Said::of(entry));
            }
            if let Some(session) = waits {
                in_force.note_waiting(&Said::of(&Entry {
                    session: session.into(),
                    fact: entered(),
                    ..entries[0].clone()
                }));
            }
            assert_eq!(entries.each_ref().map(|entry| in_force.is_over(&Said::of(entry), at(100))), goes, "{waits:?}");
        }
    }

    #[test]
    fn outside_a_session_each_line_has_its_own_time() {
        let found = || Fact::Found { place: Place::Room("hall".into()), condition: Condition::Clean, note: None };
        let outside = SessionId::outside();
        check(10, &[(outside.as_str(), "ada", 1, found()), (outside.as_str(), "ada", 20, found())], "- ");
    }

    #[test]
    fn a_day_is_24_hours() {
        assert_eq!(limit(at(90 * 24 * 60), 90), at(0));
    }

    #[test]
    fn an_entry_is_about_the_buddy_too() {
        let left = Fact::BuddyLeft { buddy: "bo".into() };
        assert_eq!(named(&left), Set::from([&PersonId::from("bo")]));
        assert_eq!(named(&Fact::Left), Set::new());
    }
}
