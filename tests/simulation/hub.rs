//! The shop's hub without HTTP and without a database: several processes over one [`Store`], which may die, start again, or
//! find the store put back to an older copy.
//!
//! A question is one change: it takes the store's lock, everything is judged by `shared_core::sync::hub::Intake`, it is
//! committed, and only then answered from what the store holds by then. A process that dies takes its change and its
//! unanswered questions with it.

use std::collections::{BTreeMap, VecDeque};

use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::chain::Head;
use shared_core::log::jws;
use shared_core::sync::cursor::{Cursor, TAG_MAX};
use shared_core::sync::hub::{Intake, Push};
use shared_core::sync::message::{GoesOn, Rejected, SyncAnswer, SyncRequest};
use shared_core::time::Instant;

use crate::chance::Chance;
use crate::planted::Planted;
use crate::store::{Change, Store};

/// The demo shop's steward.
const STEWARD: &str = "marit";

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

/// A change under way: who asked, what was asked, and when it will be on the disk.
#[derive(Debug)]
struct Working {
    question: Question,
    from: GoesOn,
    change: Change,
    head: Head,
    rejected: Vec<Rejected>,
    due: usize,
}

#[derive(Debug)]
pub(crate) struct Hub {
    pub(crate) devices: BTreeMap<DeviceId, PersonId>,
    pub(crate) store: Store,
    /// Which rulebook it serves.
    pub(crate) book: usize,
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
    pub(crate) fn new(devices: BTreeMap<DeviceId, PersonId>, later: bool, planted: Option<Planted>) -> Self {
        let (store, waiting, working) = (Store::default(), VecDeque::new(), Vec::new());
        Self { devices, store, book: 0, later, planted, waiting, working, backup: None, put_back: 0 }
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
        for judged in intake.take_all(Push::open(&ask.push)) {
            change.take(dev, judged, now);
        }
        if self.planted == Some(Planted::HubTearsItsChange) {
            change.tear();
        }
        let (head, rejected) = (intake.head().clone(), intake.rejected().to_vec());
        Some(Working { question, from: ask.goes_on(), change, head, rejected, due: 0 })
    }

    fn answer(&self, dev: &DeviceId, working: &Working, now: Instant) -> Answer {
        let mut answer = SyncAnswer::new(now, working.head.clone(), self.rev());
        answer.goes_on = Some(working.from);
        answer.rejected.clone_from(&working.rejected);
        let since = if self.planted == Some(Planted::HubForgetsLives) {
            Cursor { life: self.store.life(), ..Cursor::of(working.from.since) }.number()
        } else {
            working.from.since
        };
        let whole = self.devices.get(dev).is_some_and(|member| member.as_str() == STEWARD);
        self.store.pull(dev, since, whole, now, self.planted, &mut answer);
        if self.planted == Some(Planted::HubCursorRunsAhead) && answer.pull.len() > 1 {
            answer.pull.pop();
        }
        let Question { phone, number, process, .. } = working.question;
        let text = answer.write();
        let text = if self.later { text.replacen('{', "{\"later\":{\"deep\":[1,null]},", 1) } else { text };
        Answer { phone, number, process, text }
    }

    /// What changes whenever the rulebook does.
    pub(crate) fn rev(&self) -> String {
        format!("rev {}", self.book)
    }

    /// Asks and is answered at once, behind everything that waits: a liar's line is good and the hub's patience great.
    pub(crate) fn ask(&mut self, dev: &DeviceId, text: &str, now: Instant) -> Option<Outcome> {
        let question = Question { phone: 0, number: 0, process: 0, text: text.to_owned() };
        let mut working = self.judge(dev, question, now)?;
        self.store.commit(std::mem::take(&mut working.change));
        Some(Outcome { rejected: working.rejected })
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
