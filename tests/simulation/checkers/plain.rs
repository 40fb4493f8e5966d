//! A second, plain reading of a log: who is in, who covers whom, when sparks ended. Slow and obvious on purpose.
//!
//! Knows entries and the rulebook's numbers; asks nothing of the shipping code's state. What a session's own member says
//! about it counts, and nobody else's word does.

use std::collections::BTreeMap;

use shared_core::entry::{Entry, Fact};
use shared_core::ids::{MachineId, PersonId, RoomId, SessionId};
use shared_core::rulebook::Rulebook;
use shared_core::time::{Instant, Span};

/// One person's stay: a session's name as it was said, and whose it is. A name that is borrowed is another stay.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Stay {
    pub(crate) session: SessionId,
    pub(crate) who: PersonId,
}

impl Stay {
    /// The stay behind a session of the state, which marks a borrowed name with the borrower's.
    pub(crate) fn of(id: &SessionId, who: &PersonId) -> Self {
        let said = id.as_str().strip_suffix(who.as_str()).and_then(|said| said.strip_suffix(' '));
        Self { session: said.map_or_else(|| id.clone(), SessionId::from), who: who.clone() }
    }
}

/// What was said about a stay by its member, from the beginning on, in order.
pub(crate) fn of<'a>(entries: &'a [Entry], stay: &'a Stay) -> impl Iterator<Item = &'a Entry> + Clone {
    let own = entries.iter().filter(|entry| entry.session == stay.session && entry.who == stay.who);
    own.skip_while(|entry| !matches!(entry.fact, Fact::Entered { .. }))
}

/// Stays that began, and where.
pub(crate) fn begun(entries: &[Entry]) -> BTreeMap<Stay, RoomId> {
    let mut stays = BTreeMap::new();
    for entry in entries {
        if let Fact::Entered { room, .. } = &entry.fact {
            let stay = Stay { session: entry.session.clone(), who: entry.who.clone() };
            stays.entry(stay).or_insert_with(|| room.clone());
        }
    }
    stays
}

/// When a stay ended.
pub(crate) fn left(entries: &[Entry], stay: &Stay) -> Option<Instant> {
    of(entries, stay).find(|entry| entry.fact == Fact::Left).map(|entry| entry.at)
}

/// Stretches in which a session used machines, open ones without an end; in order of start.
pub(crate) fn uses(entries: &[Entry], stay: &Stay) -> Vec<(MachineId, Instant, Option<Instant>)> {
    let mut uses: Vec<(MachineId, Instant, Option<Instant>)> = Vec::new();
    for entry in of(entries, stay) {
        match &entry.fact {
            Fact::MachineStarted { machine, .. }
                if !uses.iter().any(|(used, _, to)| used == machine && to.is_none()) =>
            {
                uses.push((machine.clone(), entry.at, None));
            }
            Fact::MachineStopped { machine } => {
                let open = uses.iter_mut().find(|(used, _, to)| used == machine && to.is_none());
                if let Some((_, from, to)) = open {
                    *to = Some(entry.at.max(*from));
                }
            }
            _ => {}
        }
    }
    uses
}

/// Whether a confirmation covers `machine` at `t`.
fn covers(book: &Rulebook, entries: &[Entry], word: &Entry, machine: &MachineId, t: Instant) -> bool {
    let Fact::BuddyConfirmed { buddy, machine: only, .. } = &word.fact else { return false };
    let term = Span::from_minutes(i64::from(book.buddy.renew_minutes));
    if *buddy == word.who || only.as_ref().is_some_and(|only| only != machine) || t < word.at || t >= word.at + term {
        return false;
    }
    let operator = Stay { session: word.session.clone(), who: word.who.clone() };
    let told_off = of(entries, &operator)
        .any(|entry| entry.fact == Fact::BuddyLeft { buddy: buddy.clone() } && word.at <= entry.at && entry.at <= t);
    let stays = begun(entries);
    let own: Vec<_> = stays.iter().filter(|(stay, _)| stay.who == *buddy).collect();
    let gone = own.iter().filter(|(_, room)| **room == stays[&operator]).any(|(stay, _)| {
        let in_by_then = of(entries, stay).next().is_some_and(|entered| entered.at <= word.at);
        in_by_then && left(entries, stay).is_some_and(|left| word.at <= left && left <= t)
    });
    let running_a_buddy_machine = |stay: &Stay| {
        uses(entries, stay).iter().any(|(used, from, to)| {
            let asks = book.machine(used).is_some_and(|machine| machine.buddy);
            asks && *from <= t && to.is_none_or(|to| to > word.at)
        })
    };
    let operates = !book.buddy.may_operate && own.iter().any(|(stay, _)| running_a_buddy_machine(stay));
    !told_off && !gone && !operates
}

/// Whether `machine` is covered in a stay at `t`, by anybody's word that holds then.
pub(crate) fn covered(book: &Rulebook, entries: &[Entry], stay: &Stay, machine: &MachineId, t: Instant) -> bool {
    of(entries, stay).any(|word| covers(book, entries, word, machine, t))
}

/// Every instant at which the cover of a session can change: each entry's, and the end of each word's term.
pub(crate) fn moments(book: &Rulebook, entries: &[Entry]) -> Vec<Instant> {
    let term = Span::from_minutes(i64::from(book.buddy.renew_minutes));
    let words = entries.iter().filter(|entry| matches!(entry.fact, Fact::BuddyConfirmed { .. }));
    let mut moments: Vec<Instant> =
        words.map(|word| word.at + term).chain(entries.iter().map(|entry| entry.at)).collect();
    moments.sort_unstable();
    moments.dedup();
    moments
}

/// When the last spark of a session flew: its last hot-work machine's stop, or `now` while one runs.
pub(crate) fn last_spark(book: &Rulebook, entries: &[Entry], stay: &Stay, now: Instant) -> Option<Instant> {
    let uses = uses(entries, stay);
    let hot = uses.iter().filter(|(machine, ..)| book.machine(machine).is_some_and(|machine| machine.hot_work));
    hot.map(|(_, _, to)| to.unwrap_or(now)).max()
}
