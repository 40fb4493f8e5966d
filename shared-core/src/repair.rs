//! A machine that is out: since when, what was said of it since, how it stands, and for how long machines were out.
//!
//! An outage begins with a tag and ends with the next word that takes it off; a tag put on meanwhile belongs to it, and
//! undoes what was mended before it. Reads no clock; whether a machine may be started is [`crate::decide`]'s to say.

use crate::entry::{Matter, Of, Step};
use crate::ids::{MachineId, PersonId};
use crate::state::{Noted, State, Tag, TagWord};
use crate::time::{Instant, Span};

/// One stretch in which a machine was out.
#[derive(Clone, Debug, PartialEq)]
pub struct Outage<'a> {
    machine: &'a MachineId,
    /// Its tags, the first and whatever was put on later; never empty.
    pub tags: Vec<&'a Tag>,
    /// When it was given back; none while it is out.
    pub to: Option<Instant>,
    /// What was said of it, in order.
    pub notes: Vec<&'a Noted>,
}

/// How a machine that is out stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing<'a> {
    /// Nobody has said that anything is done about it.
    Out,
    /// A part is waited for.
    Waits {
        /// Until when, as far as is known.
        until: Option<Instant>,
    },
    /// Somebody says that it is mended; a second person has to check it.
    Mended {
        /// Who.
        by: &'a PersonId,
        /// When they said so.
        at: Instant,
    },
}

impl<'a> Outage<'a> {
    /// Since when it is out.
    pub fn from(&self) -> Instant {
        self.tags.first().map_or(Instant::default(), |tag| tag.since)
    }

    /// Its newest line, for more to be said of.
    pub fn newest(&self) -> Of {
        let (at, who) = self.tags.last().map_or_else(Default::default, |tag| (tag.since, tag.by.clone()));
        Of { matter: Matter::Tag(self.machine.clone()), at, who }
    }

    /// Whether a line is one of its tags.
    pub fn is_about(&self, of: &Of) -> bool {
        self.tags.iter().any(|tag| of_tag(self.machine, tag) == *of)
    }

    /// How it stands: what was said last of mending or waiting, since the last tag.
    pub fn standing(&self) -> Standing<'a> {
        let tagged = self.tags.last().map_or(Instant::default(), |tag| tag.since);
        let since = self.notes.iter().rev().filter(|noted| noted.at >= tagged);
        since
            .map(|noted| (noted, noted.step))
            .find_map(|(noted, step)| match step {
                Step::WaitsForPart { until } => Some(Standing::Waits { until }),
                Step::Mended => Some(Standing::Mended { by: &noted.by, at: noted.at }),
                _ => None,
            })
            .unwrap_or(Standing::Out)
    }
}

/// The line that put a tag on.
fn of_tag(machine: &MachineId, tag: &Tag) -> Of {
    Of { matter: Matter::Tag(machine.clone()), at: tag.since, who: tag.by.clone() }
}

/// Every outage of a machine that is known, the oldest first.
pub fn outages<'a>(state: &'a State, machine: &'a MachineId) -> Vec<Outage<'a>> {
    let words: Vec<&TagWord> = state.tag_words.get(machine).into_iter().flatten().collect();
    of_words(state, machine, &words)
}

/// The outage that a machine is in.
pub fn current<'a>(state: &'a State, machine: &'a MachineId) -> Option<Outage<'a>> {
    // Tags since it was last given back: what was before is not looked at, however long the log is.
    let newest_first = state.tag_words.get(machine)?.iter().rev();
    let mut tags: Vec<&TagWord> = newest_first.take_while(|word| word.tag.is_some()).collect();
    tags.reverse();
    of_words(state, machine, &tags).pop()
}

fn of_words<'a>(state: &'a State, machine: &'a MachineId, words: &[&'a TagWord]) -> Vec<Outage<'a>> {
    let mut outages: Vec<Outage<'a>> = Vec::new();
    for word in words {
        let open = outages.last_mut().filter(|outage| outage.to.is_none());
        match (&word.tag, open) {
            (Some(tag), Some(outage)) => outage.tags.push(tag),
            (Some(tag), None) => outages.push(Outage { machine, tags: vec![tag], to: None, notes: Vec::new() }),
            (None, Some(outage)) => outage.to = Some(word.at),
            (None, None) => {}
        }
    }
    for outage in &mut outages {
        let said = outage.tags.iter().flat_map(|tag| state.notes_of(&of_tag(machine, tag)));
        outage.notes = said.collect();
        outage.notes.sort();
    }
    outages
}

/// When the newest word about a machine's tags was said, by the clock of whoever said it: a tag, what was said of it, or that it
/// is off.
pub fn newest_word(state: &State, machine: &MachineId) -> Option<Instant> {
    let word = state.tag_words.get(machine)?.last()?;
    let noted = current(state, machine).and_then(|outage| outage.notes.last().map(|noted| noted.at));
    noted.max(Some(word.at))
}

/// For how long a machine was out between two instants, as far as is known.
pub fn time_out(state: &State, machine: &MachineId, from: Instant, to: Instant) -> Span {
    let stretch = |outage: &Outage<'_>| {
        let (begun, ended) = (outage.from().max(from), outage.to.unwrap_or(to).min(to));
        if ended > begun { ended - begun } else { Span::ZERO }
    };
    outages(state, machine).iter().map(stretch).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Fact};
    use crate::ids::SessionId;
    use crate::testing::at;

    /// Letters are tags, dashes take them off.
    #[track_caller]
    fn check(words: &str, expected: Option<&[&str]>) {
        let said = |(minute, word): (i64, char)| {
            let machine = MachineId::from("saw");
            let fact = match word {
                '-' => Fact::TagCleared { machine },
                problem => Fact::TaggedOut { machine, problem: problem.into(), photo: None },
            };
            Entry { at: at(minute), session: SessionId::outside(), who: "ilse".into(), fact }
        };
        let state = State::of(&(0..).zip(words.chars()).map(said).collect::<Vec<_>>());
        let saw = "saw".into();
        let is_out = current(&state, &saw);
        let tags = is_out.as_ref().map(|out| out.tags.iter().map(|tag| tag.problem.as_str()).collect::<Vec<_>>());
        assert_eq!(tags.as_deref(), expected, "{words}");
        assert_eq!(is_out, outages(&state, &saw).pop().filter(|out| out.to.is_none()), "{words}");
    }

    #[test]
    fn a_machine_is_out_since_it_was_last_given_back() {
        check("", None);
        check("-", None);
        check("a", Some(&["a"]));
        check("ab-", None);
        check("a--bc", Some(&["b", "c"]));
    }
}
