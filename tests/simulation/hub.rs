//! The shop's hub without HTTP and without a database: several processes over one [`Store`], which may die, start again, or
//! find the store put back to an older copy.
//!
//! A question is one change: it takes the store's lock, everything is judged by `shared_core::sync::hub::Intake`, it is
//! committed, and only then answered from what the store holds by then. A process that dies takes its change and its
//! unanswered questions with it.

use std::cell::RefCell;
use std::collections::{BTreeMap, VecDeque};
use std::sync::Arc;

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws;
use shared_core::members::{Member, Members};
use shared_core::rulebook::Rulebook;
use shared_core::standing::{Words, said_by};
use shared_core::sync::cursor::{Cursor, TAG_MAX};
use shared_core::sync::hub::{Intake, Push};
use shared_core::sync::message::{GoesOn, Rejected, SyncAnswer, SyncRequest};
use shared_core::time::Instant;

use crate::chance::Chance;
use crate::planted::Planted;
use crate::shop::{Book, Shop};
use crate::store::{Change, Lost, Store};

/// A question that reached a process.
#[derive(Clone, Debug)]
pub(crate) struct Question {
    pub(crate) phone: usize,
    pub(crate) number: u64,
    pub(crate) process: usize,
    pub(crate) text: String,
}

/// An answer, before it goes out.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) phone: usize,
    pub(crate) number: u64,
    pub(crate) process: usize,
    pub(crate) text: String,
}

/// Who may say what, kept up with what is taken in.
struct Gate<'a> {
    book: &'a Rulebook,
    members: Members,
    words: Words,
    /// Whether it lets everything through.
    open: bool,
}

impl Gate<'_> {
    fn may_say(&mut self, entry: &Entry) -> bool {
        if said_by(&entry.fact).is_none() {
            return true;
        }
        let may = self.open || Words::may_give(&entry.who, &entry.fact, self.book, &self.members).is_ok();
        if may {
            self.words.take(entry);
            self.words.apply(&mut self.members);
        }
        may
    }
}

/// A change under way: who asked, what was asked, and when it will be on the disk.
#[derive(Debug)]
struct Working {
    question: Question,
    from: GoesOn,
    knows_to: u64,
    change: Change,
    head: Head,
    rejected: Vec<Rejected>,
    due: usize,
}

/// Everybody, as of a state of the log's words, and a digest.
type Known = ((usize, u64, u32), Arc<Members>, String);

#[derive(Debug)]
pub(crate) struct Hub {
    pub(crate) devices: BTreeMap<DeviceId, PersonId>,
    pub(crate) store: Store,
    /// Which rulebook it serves.
    pub(crate) book: usize,
    books: Vec<Book>,
    /// The members file.
    file: Members,
    /// Everybody as the file and the log make them, for the mark of the log's words.
    known: RefCell<Option<Known>>,
    /// Whether it is of a later release, and says more than phones of today know.
    later: bool,
    planted: Option<Planted>,
    waiting: VecDeque<Question>,
    working: Vec<Working>,
    backup: Option<Store>,
    /// How often an older copy was put back.
    pub(crate) put_back: u32,
}

/// What a question came to.
#[derive(Debug)]
pub(crate) struct Outcome {
    pub(crate) rejected: Vec<Rejected>,
}

impl Hub {
    pub(crate) fn new(shop: &Shop, later: bool, planted: Option<Planted>) -> Self {
        Self {
            devices: shop.devices.clone(),
            store: Store::default(),
            book: 0,
            books: shop.books.clone(),
            file: shop.members.clone(),
            known: RefCell::default(),
            later,
            planted,
            waiting: VecDeque::new(),
            working: Vec::new(),
            backup: None,
            put_back: 0,
        }
    }

    /// Takes a question in; it waits for its turn.
    pub(crate) fn hear(&mut self, question: Question) {
        self.waiting.push_back(question);
    }

    /// Works until the next change takes longer than now. `takes` says how many ticks one takes; `dev_of` whose phone asks.
    /// Answers what is to be sent.
    pub(crate) fn work(
        &mut self,
        tick: usize,
        now: Instant,
        takes: &mut dyn FnMut() -> usize,
        dev_of: &dyn Fn(usize) -> DeviceId,
    ) -> (Vec<Answer>, u64) {
        let (mut answers, mut no_question) = (Vec::new(), 0);
        // Behind the commit and in a change of its own: whoever dies in between leaves it to the next.
        if self.working.is_empty() {
            self.store.prove(self.planted);
        }
        loop {
            self.commit_due(tick, now, dev_of, &mut answers);
            let locked = !self.working.is_empty() && self.planted != Some(Planted::HubWithoutLock);
            let Some(question) = self.waiting.front().filter(|_| !locked).cloned() else { break };
            self.waiting.pop_front();
            let Some(mut working) = self.judge(&dev_of(question.phone), question, now) else {
                no_question += 1;
                continue;
            };
            working.due = tick + takes();
            if self.planted == Some(Planted::HubAnswersBeforeCommit) {
                answers.push(self.answer(&dev_of(working.question.phone), &working, now));
            }
            self.working.push(working);
        }
        (answers, no_question)
    }

    fn commit_due(&mut self, tick: usize, now: Instant, dev_of: &dyn Fn(usize) -> DeviceId, answers: &mut Vec<Answer>) {
        let working = std::mem::take(&mut self.working);
        for mut one in working {
            if one.due > tick {
                self.working.push(one);
                continue;
            }
            self.store.commit(std::mem::take(&mut one.change));
            if self.planted != Some(Planted::HubAnswersBeforeCommit) {
                answers.push(self.answer(&dev_of(one.question.phone), &one, now));
            }
        }
    }

    fn judge(&self, dev: &DeviceId, question: Question, now: Instant) -> Option<Working> {
        let member = self.devices.get(dev)?.clone();
        let ask = SyncRequest::read(&question.text).ok()?;
        let member = match self.planted {
            Some(Planted::HubBelievesAnyName) => {
                ask.push.first().and_then(|line| jws::open(line).ok()).map_or(member, |signed| signed.entry.who)
            }
            _ => member,
        };
        let seqs = ask.push.iter().filter_map(|line| jws::claimed_seq(line));
        let mut kept: BTreeMap<_, _> = seqs.filter_map(|seq| self.store.held(dev, seq)).collect();
        if self.planted == Some(Planted::HubForgetsRepeats) {
            kept.clear();
        }
        let kept = kept.into_iter().collect();
        let mut intake = Intake::new(dev.clone(), member, self.store.head(dev), kept, &ask.lost);
        let mut change = Change::default();
        let push = Push::open(ask.push.clone());
        let judged = if push.says(|entry| said_by(&entry.fact).is_some()) {
            let mut gate = self.gate();
            intake.take_all_asking(push, &mut |entry| gate.may_say(entry))
        } else {
            intake.take_all(push)
        };
        for judged in judged {
            change.take(dev, judged, now);
        }
        if self.planted == Some(Planted::HubTearsItsChange) {
            change.tear();
        }
        let (head, rejected) = (intake.head().clone(), intake.rejected().to_vec());
        Some(Working { question, from: ask.goes_on(), knows_to: ask.knows_to(), change, head, rejected, due: 0 })
    }

    fn answer(&self, dev: &DeviceId, working: &Working, now: Instant) -> Answer {
        let mut answer = SyncAnswer::new(now, working.head.clone(), self.rev());
        answer.goes_on = Some(working.from);
        answer.rejected.clone_from(&working.rejected);
        let of_now = |cursor: u64| {
            let forgets_lives = self.planted == Some(Planted::HubForgetsLives);
            if forgets_lives { Cursor { life: self.store.life(), ..Cursor::of(cursor) }.number() } else { cursor }
        };
        let since = of_now(working.from.since);
        let members = self.members();
        let whole = self.devices.get(dev).and_then(|who| members.get(who)).is_some_and(|member| member.steward);
        if self.planted != Some(Planted::HubForgetsWhoWasAway) {
            self.store.gone_before(dev, of_now(working.knows_to), &mut answer);
        }
        self.store.pull(dev, (since, working.knows_to > 0), whole, now, self.planted, &mut answer);
        self.store.forgotten(working.from.forgot, self.planted, &mut answer);
        if self.planted == Some(Planted::HubCursorRunsAhead) && answer.pull.len() > 1 {
            answer.pull.pop();
        }
        let Question { phone, number, process, .. } = working.question;
        let text = answer.write();
        let text = if self.later { text.replacen('{', "{\"later\":{\"deep\":[1,null]},", 1) } else { text };
        Answer { phone, number, process, text }
    }

    /// What changes whenever the rulebook or the members do.
    pub(crate) fn rev(&self) -> String {
        format!("rev {} {}", self.book, self.known().1)
    }

    /// Everybody, as the members file and what is handed out of the log have it.
    pub(crate) fn members(&self) -> Arc<Members> {
        self.known().0
    }

    /// Everybody as a member's phone is handed them: of others no more than their names and roles.
    pub(crate) fn members_for(&self, who: &PersonId) -> Members {
        let members = self.members();
        let all = members.get(who).is_some_and(|member| member.steward);
        let shown = |member: &Member| {
            if all || member.id == *who {
                return member.clone();
            }
            let Member { id, name, steward, signer, .. } = member.clone();
            Member { id, name, steward, signer, ..Member::default() }
        };
        members.iter().map(shown).collect()
    }

    fn known(&self) -> (Arc<Members>, String) {
        let mark = self.store.words_mark(self.store.handed_to());
        let mut known = self.known.borrow_mut();
        if let Some((of, members, digest)) = &*known
            && *of == mark
        {
            return (members.clone(), digest.clone());
        }
        let mut members = self.file.clone();
        self.store.words(self.store.handed_to()).apply(&mut members);
        let digest = jws::hash(&serde_json::to_string(&members).expect("plain data"));
        let members = Arc::new(members);
        *known = Some((mark, members.clone(), digest.clone()));
        (members, digest)
    }

    /// Who may say what of members, as a change finds it: what the hub's own gate asks.
    fn gate(&self) -> Gate<'_> {
        let (words, mut members) = (self.store.words(u64::MAX), self.file.clone());
        words.apply(&mut members);
        let open = self.planted == Some(Planted::HubTakesAnybodysWord);
        Gate { book: &self.books[self.book].rules, members, words, open }
    }

    /// Whether the gate takes somebody for a steward: by words that are not proved yet as well, unlike [`Hub::members`].
    pub(crate) fn gate_holds_a_steward(&self, who: &PersonId) -> bool {
        self.gate().members.get(who).is_some_and(|member| member.steward)
    }

    /// Asks and is answered at once, behind everything that waits: a liar's line is good and the hub's patience great.
    pub(crate) fn ask(&mut self, dev: &DeviceId, text: &str, now: Instant) -> Option<Outcome> {
        let question = Question { phone: 0, number: 0, process: 0, text: text.to_owned() };
        let mut working = self.judge(dev, question, now)?;
        self.store.commit(std::mem::take(&mut working.change));
        Some(Outcome { rejected: working.rejected })
    }

    /// Erases all about a member that is not in force.
    pub(crate) fn erase_about(&mut self, member: &PersonId, now: Instant) -> Vec<Lost> {
        self.store.erase_about(member, &self.devices, now, self.planted)
    }

    /// Whether a change is under way, which holds the lock.
    pub(crate) fn is_busy(&self) -> bool {
        !self.working.is_empty()
    }

    /// A process dies and starts again: what it was asked is never answered, what it wrote never was.
    pub(crate) fn die(&mut self, process: usize, chance: &mut Chance) {
        self.waiting.retain(|question| question.process != process);
        self.working.retain(|working| working.question.process != process);
        self.start(chance);
    }

    /// A process starts.
    pub(crate) fn start(&mut self, chance: &mut Chance) {
        let tag = u32::try_from(chance.next() >> 40).unwrap_or(0) % TAG_MAX + 1;
        self.store.begin_life(tag);
    }

    /// Somebody copies the store as it lies there.
    pub(crate) fn back_up(&mut self) {
        self.backup = Some(self.store.clone());
    }

    /// The machine is lost: all processes end, the last copy is put in its place, and they start again.
    pub(crate) fn put_back(&mut self, chance: &mut Chance) -> bool {
        let Some(backup) = self.backup.clone() else { return false };
        self.store = backup;
        (self.waiting, self.working) = Default::default();
        self.put_back += 1;
        self.start(chance);
        true
    }
}
