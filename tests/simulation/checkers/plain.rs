//! A second, plain reading of a log: who is in, who covers whom, when sparks ended. Slow and obvious on purpose.
//!
//! Knows entries and the rulebook's numbers; asks nothing of the shipping code's state. What a session's own member says
//! about it counts, and nobody else's word does.

use std::collections::{BTreeMap, BTreeSet};

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

/// When a stay ended: on two phones of one member the earlier, and whichever was heard first.
pub(crate) fn left(entries: &[Entry], stay: &Stay) -> Option<Instant> {
    let said = entries.iter().filter(|entry| entry.session == stay.session && entry.who == stay.who);
    said.filter(|entry| entry.fact == Fact::Left).map(|entry| entry.at).min()
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

/// Whether a confirmation holds at `t`, the limit of operators left out.
fn holds(book: &Rulebook, entries: &[Entry], word: &Entry, t: Instant) -> bool {
    let Fact::BuddyConfirmed { buddy, .. } = &word.fact else { return false };
    let term = Span::from_minutes(i64::from(book.buddy.renew_minutes));
    if *buddy == word.who || t < word.at || t >= word.at + term {
        return false;
    }
    let operator = said_in(word);
    let told_off = of(entries, &operator)
        .any(|entry| entry.fact == Fact::BuddyLeft { buddy: buddy.clone() } && word.at <= entry.at && entry.at <= t);
    let stays = begun(entries);
    let Some(here) = stays.get(&operator) else { return false };
    let own: Vec<_> = stays.iter().filter(|(stay, _)| stay.who == *buddy).collect();
    let came = |stay: &Stay| of(entries, stay).next().map(|entered| entered.at);
    let in_by_then = |stay: &Stay| came(stay).is_some_and(|came| came <= word.at);
    let gone = own
        .iter()
        .filter(|(_, room)| *room == here)
        .any(|(stay, _)| left(entries, stay).is_some_and(|left| word.at <= left && left <= t));
    let went_over = own
        .iter()
        .filter(|(_, room)| *room != here)
        .any(|(stay, _)| came(stay).is_some_and(|came| word.at < came && came <= t));
    let open_then =
        own.iter().filter(|(stay, _)| in_by_then(stay) && left(entries, stay).is_none_or(|left| left > word.at));
    let elsewhere = open_then.max_by_key(|(stay, _)| came(stay)).is_some_and(|(_, room)| *room != here);
    let running_a_buddy_machine = |stay: &Stay| {
        uses(entries, stay).iter().any(|(used, from, to)| {
            let asks = book.machine(used).is_some_and(|machine| machine.buddy);
            asks && *from <= t && to.is_none_or(|to| to > word.at)
        })
    };
    let operates = !book.buddy.may_operate && own.iter().any(|(stay, _)| running_a_buddy_machine(stay));
    !(told_off || gone || went_over || elsewhere || operates)
}

fn said_in(word: &Entry) -> Stay {
    Stay { session: word.session.clone(), who: word.who.clone() }
}

/// Whether a buddy was free to give a word: of all they gave, in order, those count that find fewer than `covers` other
/// stays with a word that counts and holds. What was said of a stay before it began is no word.
fn was_free(book: &Rulebook, entries: &[Entry], word: &Entry) -> bool {
    let Fact::BuddyConfirmed { buddy: them, .. } = &word.fact else { return false };
    let by_them = |entry: &&Entry| matches!(&entry.fact, Fact::BuddyConfirmed { buddy, .. } if buddy == them);
    let begun = |word: &&Entry| of(entries, &said_in(word)).any(|said| std::ptr::eq(said, *word));
    let mut words: Vec<&Entry> = entries.iter().filter(by_them).filter(begun).collect();
    words.sort_by_key(|word| (word.at, said_in(word).who, said_in(word).session));
    let mut count: Vec<&Entry> = Vec::new();
    for said in words {
        let holding = count.iter().filter(|earlier| {
            let operator = said_in(earlier);
            operator != said_in(said)
                && holds(book, entries, earlier, said.at)
                && left(entries, &operator).is_none_or(|left| left > said.at)
        });
        let others: BTreeSet<Stay> = holding.map(|earlier| said_in(earlier)).collect();
        let counts = holds(book, entries, said, said.at) && others.len() < book.buddy.covers as usize;
        if std::ptr::eq(said, word) {
            return counts;
        }
        count.extend(counts.then_some(said));
    }
    false
}

/// Whether `machine` is covered in a stay at `t`, by anybody's word that holds then.
pub(crate) fn covered(book: &Rulebook, entries: &[Entry], stay: &Stay, machine: &MachineId, t: Instant) -> bool {
    of(entries, stay).any(|word| {
        let Fact::BuddyConfirmed { machine: only, .. } = &word.fact else { return false };
        let meant = only.as_ref().is_none_or(|only| only == machine);
        meant && holds(book, entries, word, t) && was_free(book, entries, word)
    })
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
