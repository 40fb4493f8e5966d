//! A second, plain reading of a log: who is in, who covers whom, when sparks ended. Slow and obvious on purpose.
//!
//! Knows entries and the rulebook's numbers; asks nothing of the shipping code's state. What a session's own member says
//! about it counts, and nobody else's word does. A log is gone through once, and what each stay said is laid side by side.

use std::cell::RefCell;
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

/// A stretch in which a machine was used, an open one without an end.
type Use = (MachineId, Instant, Option<Instant>);

/// What was said of one stay by its member.
#[derive(Debug)]
struct Said<'a> {
    stay: Stay,
    /// In which room, once it has begun.
    room: Option<&'a RoomId>,
    /// From the beginning on, in order.
    entries: Vec<&'a Entry>,
    /// How much it is with what was heard before its beginning.
    heard: usize,
    /// On two phones of one member the earlier leaving, whichever was heard first.
    left: Option<Instant>,
    uses: Vec<Use>,
}

/// A log, gone through.
#[derive(Debug)]
pub(crate) struct Log<'a> {
    stays: BTreeMap<(&'a PersonId, &'a SessionId), Said<'a>>,
    /// Words by who gives them, as they lie in the log.
    words: BTreeMap<&'a PersonId, Vec<&'a Entry>>,
    /// Of those who were asked for: which of their words count, by where these lie in memory.
    counts: RefCell<BTreeMap<PersonId, BTreeSet<*const Entry>>>,
}

impl<'a> Log<'a> {
    pub(crate) fn of(entries: impl IntoIterator<Item = &'a Entry>) -> Self {
        let mut log = Self { stays: BTreeMap::new(), words: BTreeMap::new(), counts: RefCell::default() };
        for entry in entries {
            let said = log.stays.entry((&entry.who, &entry.session)).or_insert_with(|| Said {
                stay: Stay { session: entry.session.clone(), who: entry.who.clone() },
                room: None,
                entries: Vec::new(),
                heard: 0,
                left: None,
                uses: Vec::new(),
            });
            said.heard += 1;
            if let Fact::Entered { room, .. } = &entry.fact {
                said.room = said.room.or(Some(room));
            }
            if entry.fact == Fact::Left {
                said.left = Some(said.left.map_or(entry.at, |left| left.min(entry.at)));
            }
            if said.room.is_some() {
                said.entries.push(entry);
                use_of(&mut said.uses, entry);
            }
            if let Fact::BuddyConfirmed { buddy, .. } = &entry.fact {
                log.words.entry(buddy).or_default().push(entry);
            }
        }
        log
    }

    fn stay<'b>(&'b self, stay: &'b Stay) -> Option<&'b Said<'a>> {
        self.stays.get(&(&stay.who, &stay.session)).filter(|said| said.room.is_some())
    }

    /// The stay that an entry was said in, if it had begun by then.
    fn of_entry<'b>(&'b self, entry: &'b Entry) -> Option<&'b Said<'a>> {
        self.stays.get(&(&entry.who, &entry.session)).filter(|said| said.room.is_some())
    }

    /// Stays that began, and where.
    pub(crate) fn begun(&self) -> impl Iterator<Item = (&Stay, &'a RoomId)> {
        self.stays.values().filter_map(|said| Some((&said.stay, said.room?)))
    }

    /// Stays that began and were not left, and how much was heard of each, in whichever order.
    pub(crate) fn inside(&self) -> impl Iterator<Item = (&Stay, &'a RoomId, usize)> {
        let open = self.stays.values().filter(|said| said.left.is_none());
        open.filter_map(|said| Some((&said.stay, said.room?, said.heard)))
    }

    /// What was said about a stay by its member, from the beginning on, in order.
    pub(crate) fn said_in<'b>(&'b self, stay: &'b Stay) -> &'b [&'a Entry] {
        self.stay(stay).map_or(&[], |said| &said.entries)
    }

    /// Stretches in which a stay used machines, in order of start.
    pub(crate) fn uses<'b>(&'b self, stay: &'b Stay) -> &'b [Use] {
        self.stay(stay).map_or(&[], |said| &said.uses)
    }

    /// Whether a confirmation holds at `t`, the limit of operators left out.
    fn holds(&self, book: &Rulebook, word: &Entry, t: Instant) -> bool {
        let Fact::BuddyConfirmed { buddy, .. } = &word.fact else { return false };
        let term = Span::from_minutes(i64::from(book.buddy.renew_minutes));
        if *buddy == word.who || t < word.at || t >= word.at + term {
            return false;
        }
        let Some(operator) = self.of_entry(word) else { return false };
        let left = Fact::BuddyLeft { buddy: buddy.clone() };
        let told_off = operator.entries.iter().any(|said| word.at <= said.at && said.at <= t && said.fact == left);
        let here = operator.room;
        let first = SessionId::from("");
        let theirs: Vec<&Said> = (self.stays.range((buddy, &first)..))
            .take_while(|((who, _), _)| *who == buddy)
            .map(|(_, said)| said)
            .filter(|said| said.room.is_some())
            .collect();
        let came = |said: &Said| said.entries.first().map(|entered| entered.at);
        let in_by_then = |said: &Said| came(said).is_some_and(|came| came <= word.at);
        let gone = theirs.iter().filter(|said| said.room == here);
        let gone = gone.filter_map(|said| said.left).any(|left| word.at <= left && left <= t);
        let elsewhere = theirs.iter().filter(|said| said.room != here);
        let went_over = elsewhere.filter_map(|said| came(said)).any(|came| word.at < came && came <= t);
        let open_then = theirs.iter().filter(|said| in_by_then(said) && said.left.is_none_or(|left| left > word.at));
        let was_elsewhere = open_then.max_by_key(|said| came(said)).is_some_and(|said| said.room != here);
        let running_a_buddy_machine = |said: &&Said| {
            said.uses.iter().any(|(used, from, to)| {
                let asks = book.machine(used).is_some_and(|machine| machine.buddy);
                // Left from another phone, nothing says that it was stopped.
                asks && *from <= t && to.or(said.left).is_none_or(|to| to > word.at)
            })
        };
        let operates = !book.buddy.may_operate && theirs.iter().any(running_a_buddy_machine);
        !(told_off || gone || went_over || was_elsewhere || operates)
    }

    /// Whether a buddy was free to give a word: of all they gave, in order, those count that find fewer than `covers` other
    /// stays with a word that counts and holds. What was said of a stay before it began is no word.
    fn was_free(&self, book: &Rulebook, word: &'a Entry) -> bool {
        let Fact::BuddyConfirmed { buddy: them, .. } = &word.fact else { return false };
        if let Some(counts) = self.counts.borrow().get(them) {
            return counts.contains(&std::ptr::from_ref(word));
        }
        let begun = |word: &&'a Entry| self.said_in(&said_in(word)).iter().any(|said| std::ptr::eq(*said, *word));
        let mut words: Vec<&Entry> = self.words.get(them).into_iter().flatten().copied().filter(begun).collect();
        words.sort_by_key(|word| (word.at, said_in(word).who, said_in(word).session));
        let mut count: Vec<&Entry> = Vec::new();
        for said in words {
            let holding = count.iter().filter(|earlier| {
                let operator = said_in(earlier);
                operator != said_in(said)
                    && self.holds(book, earlier, said.at)
                    && self.stay(&operator).is_some_and(|stay| stay.left.is_none_or(|left| left > said.at))
            });
            let others: BTreeSet<Stay> = holding.map(|earlier| said_in(earlier)).collect();
            let counts = self.holds(book, said, said.at) && others.len() < book.buddy.covers as usize;
            count.extend(counts.then_some(said));
        }
        let counts: BTreeSet<*const Entry> = count.into_iter().map(std::ptr::from_ref).collect();
        let was_free = counts.contains(&std::ptr::from_ref(word));
        self.counts.borrow_mut().insert(them.clone(), counts);
        was_free
    }

    /// Whether `machine` is covered in a stay at `t`, by anybody's word that holds then. Of one log always asked by one book.
    pub(crate) fn covered(&self, book: &Rulebook, stay: &Stay, machine: &MachineId, t: Instant) -> bool {
        self.said_in(stay).iter().any(|word| {
            let Fact::BuddyConfirmed { machine: only, .. } = &word.fact else { return false };
            let meant = only.as_ref().is_none_or(|only| only == machine);
            meant && self.holds(book, word, t) && self.was_free(book, word)
        })
    }

    /// When the last spark of a stay flew: its last hot-work machine's stop, or `now` while one runs.
    pub(crate) fn last_spark(&self, book: &Rulebook, stay: &Stay, now: Instant) -> Option<Instant> {
        let uses = self.uses(stay).iter();
        let hot = uses.filter(|(machine, ..)| book.machine(machine).is_some_and(|machine| machine.hot_work));
        hot.map(|(_, _, to)| to.unwrap_or(now)).max()
    }
}

fn said_in(word: &Entry) -> Stay {
    Stay { session: word.session.clone(), who: word.who.clone() }
}

fn use_of(uses: &mut Vec<Use>, entry: &Entry) {
    match &entry.fact {
        Fact::MachineStarted { machine, .. } if !uses.iter().any(|(used, _, to)| used == machine && to.is_none()) => {
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
