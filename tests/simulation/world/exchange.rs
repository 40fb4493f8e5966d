//! Questions and answers: when phones ask, what the hub's processes do with it, what comes back.

use super::World;
use crate::checkers;
use crate::hub::Question;
use crate::net::End;
use crate::phone::Heard;

/// No answer within this time is no answer (the app's own limit).
const ANSWER_MS_MAX: i64 = 15_000;
/// With nothing to send a phone asks about this often.
const ASK_EVERY_MS: i64 = 30_000;
/// So many old questions may arrive once more.
const RECORDED_MOST: usize = 12;

impl World {
    pub(super) fn network_is_back(&mut self, phone: usize) {
        if let Some(page) = &mut self.phones[phone].page {
            page.sync.online();
            page.ask_at = self.tick;
        }
    }

    fn ticks(&self, ms: i64) -> usize {
        usize::try_from(ms / self.options.tick_ms).unwrap_or(0) + 1
    }

    pub(super) fn sync(&mut self, phone: usize) {
        let limit = self.ticks(ANSWER_MS_MAX) + 2;
        let Some(page) = &mut self.phones[phone].page else { return };
        if page.asking.is_some_and(|(_, since)| self.tick > since + limit) {
            self.unanswered(phone);
        }
        self.questions += 1;
        let (tick, number) = (self.tick, self.questions);
        if let Some(question) = self.phones[phone].question(tick, number) {
            self.net.send(&mut self.chance, tick, phone, End::Hub, number, &question);
            self.tally.count("sync: asked");
        }
    }

    fn unanswered(&mut self, phone: usize) {
        let wait = self.phones[phone].unanswered(&mut self.chance);
        let wait = wait.map_or(0, |wait| self.ticks(wait.ms()));
        if let Some(page) = &mut self.phones[phone].page {
            page.ask_at = self.tick + wait;
        }
        self.tally.count("sync: no answer");
    }

    /// A question reached the hub.
    pub(super) fn ask_hub(&mut self, phone: usize, number: u64, text: &str) {
        let process = self.chance.below(self.options.hub.processes);
        if self.breaks(self.options.hub.crash) {
            self.hub.die(process, &mut self.chance);
            return self.tally.count("hub: died before it wrote");
        }
        if self.recorded.len() == RECORDED_MOST {
            self.recorded.pop_front();
        }
        self.recorded.push_back((phone, number, text.to_owned()));
        self.hub.hear(Question { phone, number, process, text: text.to_owned() });
    }

    /// The hub's tick: changes are made one after the other, and answered.
    pub(super) fn hub_works(&mut self) {
        let now = self.true_now();
        let most = if self.healed { 0 } else { self.options.hub.commit_ticks_max };
        let (chance, phones) = (&mut self.chance, &self.phones);
        let mut takes = || usize::try_from(chance.range(0, most)).unwrap_or(0);
        let dev_of = |phone: usize| phones[phone].dev.clone();
        let (answers, no_question) = self.hub.work(self.tick, now, &mut takes, &dev_of);
        self.tally.add("hub: no question", no_question);
        let mut dead = Vec::new();
        for answer in answers {
            if dead.contains(&answer.process) {
                continue;
            }
            if self.breaks(self.options.hub.crash) {
                self.hub.die(answer.process, &mut self.chance);
                dead.push(answer.process);
                self.tally.count("hub: died before it answered");
                continue;
            }
            checkers::taken_is_kept::check(self, answer.phone, &answer.text);
            let to = End::Phone(answer.phone);
            self.net.send(&mut self.chance, self.tick, answer.phone, to, answer.number, &answer.text);
        }
        if self.hub.is_busy() && self.breaks(self.options.hub.crash) {
            let process = self.chance.below(self.options.hub.processes);
            self.hub.die(process, &mut self.chance);
            self.tally.count("hub: died while it wrote");
        }
    }

    /// The rules are fetched if they have changed; that may fail, and then they are asked for with the next answer.
    fn fetch_rules(&mut self, phone: usize) {
        if !self.goes_wrong(self.options.net.loss) && self.phones[phone].take_rules(&self.hub) {
            self.tally.count("rules: new ones taken up");
        }
    }

    pub(super) fn answer_phone(&mut self, phone: usize, number: u64, text: &str) {
        if self.phones[phone].clocks.is_asleep() {
            return;
        }
        let Some(page) = &self.phones[phone].page else { return };
        let Some((asked, _)) = page.asking else { return };
        if asked != number && !self.net.stale_answers() {
            return;
        }
        if self.dies(phone, "before it kept an answer") {
            return;
        }
        match self.phones[phone].answered(text, &self.shop) {
            Heard::Kept { more, forgotten } => {
                self.tally.add("erased: forgotten on a phone", forgotten as u64);
                let Some(page) = &self.phones[phone].page else { return };
                let soon = more || (page.waits() && !self.phones[phone].told_fork);
                let wait = if soon { 1 } else { self.ticks(ASK_EVERY_MS) };
                self.tally.count("sync: answered");
                self.fetch_rules(phone);
                if let Some(page) = &mut self.phones[phone].page {
                    page.ask_at = self.tick + wait;
                }
                if !more {
                    self.retire_daily(phone);
                }
            }
            Heard::NotOurs => self.tally.count("sync: an answer to another question"),
            Heard::Unusable => self.unanswered(phone),
        }
        self.dies(phone, "after it kept an answer");
    }
}
