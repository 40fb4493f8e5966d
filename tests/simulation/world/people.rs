//! What people do with their phones in one tick: open, wake, want, act, meet, hear the bell.

use shared_core::code::answer::Kind;
use shared_core::command::Command;
use shared_core::ids::MachineId;
use shared_core::standing::act::Act;

use super::World;
use crate::buddying::{self, Met};
use crate::checkers;
use crate::checkers::bells::BellWatch;
use crate::phone::{NotDone, Release};
use crate::planted::Planted;
use crate::tally::variant;
use crate::workload::{Wish, wish};

/// A clock that goes fast counts a little more than a tick between two wake-ups.
const BELL_DRIFT_MS: i64 = 1;

/// What a phone is told to do.
enum Doing {
    /// Decide this.
    Ask(Command),
    /// Say what somebody is to the shop.
    OfMember(Act),
    /// Say what only its own release knows.
    Later,
}

impl World {
    /// One phone's tick.
    pub(super) fn live(&mut self, phone: usize) {
        self.phones[phone].disk.tick(&mut self.chance);
        if self.goes_wrong(self.options.clock.jump) {
            let most = self.options.clock.jump_ms_max;
            let by_ms = self.chance.range(-most, most);
            self.phones[phone].clocks.set_wall(by_ms);
            self.note(|| format!("phone {phone}: wall clock set by {by_ms} ms"));
        }
        if self.phones[phone].page.is_none() && !self.open(phone) {
            return;
        }
        if self.phones[phone].clocks.is_asleep() {
            if !self.chance.hit(60) {
                return;
            }
            self.wake_up(phone);
        } else if self.goes_wrong(self.options.sleep) {
            self.phones[phone].clocks.sleep(self.true_ms);
            return;
        }
        let (base, true_ms) = (self.shop.base, self.true_ms);
        let reading = self.phones[phone].clocks.read(base, true_ms);
        if let Some(jump) = self.phones[phone].wake(reading) {
            self.note(|| format!("phone {phone}: {jump:?}"));
            self.tally.count("clock: jump told");
        }
        self.finish_act(phone);
        self.want(phone);
        self.ring(phone);
        self.sync(phone);
    }

    pub(super) fn wake_up(&mut self, phone: usize) {
        self.phones[phone].clocks.wake(self.true_ms);
    }

    fn open(&mut self, phone: usize) -> bool {
        if !self.healed && self.tick > 1 && !self.chance.hit(120) {
            return false;
        }
        let one = &mut self.phones[phone];
        let acked = one.disk.durable().sync.as_ref().and_then(|json| serde_json::from_str(json).ok());
        let acked = acked.map_or(0, |sync: shared_core::sync::peer::Phone| sync.acked());
        let rotten = if self.healed { None } else { one.disk.rot(&mut self.chance, acked) };
        one.clocks.begin_page(self.true_ms);
        let reading = one.clocks.read(self.shop.base, self.true_ms);
        let unreadable = one.open(reading, self.tick, &self.shop);
        if let Some(seq) = rotten {
            assert!(unreadable.contains(&seq), "entry {seq} of phone {phone} rotted and nobody noticed");
        }
        self.expected.rotten[phone].extend(&unreadable);
        let page = one.page.as_ref().expect("it has just opened");
        self.bells[phone] = BellWatch::opened(page.session.as_ref(), &page.rung);
        self.tally.count("page: opened");
        self.note(|| format!("phone {phone}: page opened, unreadable {unreadable:?}"));
        true
    }

    /// The page may die here.
    pub(super) fn dies(&mut self, phone: usize, where_: &str) -> bool {
        let dies = self.breaks(self.options.crash);
        if dies {
            self.phones[phone].die(&mut self.chance);
            self.tally.count(format!("page: died {where_}"));
            self.note(|| format!("phone {phone}: died {where_}"));
        }
        dies
    }

    fn finish_act(&mut self, phone: usize) {
        let Some(page) = &self.phones[phone].page else { return };
        let early = self.planted == Some(Planted::PhoneShowsBeforeDurable);
        if page.pending.as_ref().is_none_or(|pending| pending.due > self.tick && !early) {
            return;
        }
        if self.dies(phone, "before the write was durable") {
            return;
        }
        let lines = self.phones[phone].finish();
        self.expected.confirm(phone, lines);
        self.dies(phone, "after it was shown");
    }

    /// What the phone must say, else what its owner wants.
    fn want(&mut self, phone: usize) {
        let Some(page) = &mut self.phones[phone].page else { return };
        if page.pending.is_some() {
            return;
        }
        if !page.jumps.is_empty() {
            let seconds = page.jumps.remove(0);
            return self.act(phone, Doing::Ask(Command::NoteJump { seconds }));
        }
        let kind = self.phones[phone].kind;
        if self.healed || kind.board || !self.chance.hit(self.options.act) {
            return;
        }
        if kind.release == Release::Later && self.chance.hit(50) {
            return self.act(phone, Doing::Later);
        }
        let Some(viewer) = self.phones[phone].viewer(&self.told) else { return };
        match wish(&viewer, &mut self.chance, self.options.nonsense) {
            Wish::Do(command) => self.act(phone, Doing::Ask(command)),
            Wish::OfMember(act) => self.act(phone, Doing::OfMember(act)),
            Wish::Buddy(machine) => {
                let buddy = self.chance.below(self.phones.len());
                self.meet(phone, buddy, machine, Kind::Here);
            }
            Wish::BuddyGoes(who) => {
                let buddy = self.phones.iter().position(|other| other.me == who);
                self.meet(phone, buddy.unwrap_or(phone), None, Kind::Leaving);
            }
        }
    }

    fn act(&mut self, phone: usize, doing: Doing) {
        let name = match &doing {
            Doing::Ask(command) => variant(command),
            Doing::OfMember(act) => variant(act),
            Doing::Later => "SayLater".to_owned(),
        };
        let command = if let Doing::Ask(command) = &doing { Some(command.clone()) } else { None };
        let due = self.tick + self.phones[phone].disk.flush_ticks(&mut self.chance);
        let done = match doing {
            Doing::Ask(command) => self.phones[phone].begin(&self.told, command, due),
            Doing::OfMember(act) => self.phones[phone].begin_act(&self.told, act, due),
            Doing::Later => self.phones[phone].say_later(&self.told, due).map_err(NotDone::from),
        };
        let outcome = match done {
            Ok(()) => {
                if name == "Leave" && self.options.tick_ms == 1_000 {
                    self.tally.count("sessions: left, by the second");
                }
                let page = self.phones[phone].page.as_ref().expect("it acted");
                let lines = page.pending.as_ref().expect("it acted").lines();
                self.expected.signed(&self.phones[phone].dev, lines);
                if let Some(command) = &command {
                    checkers::mended_is_checked::acted(self, phone, command);
                }
                "done".to_owned()
            }
            Err(NotDone::Refused(refusal)) => format!("refused {}", variant(&refusal)),
            Err(NotDone::Full) => "no room".to_owned(),
        };
        self.note(|| format!("phone {phone}: {name}: {outcome}"));
        self.tally.count(format!("act: {name} {outcome}"));
        if !self.dies(phone, "after it wrote") {
            self.finish_act(phone);
        }
    }

    fn meet(&mut self, operator: usize, buddy: usize, machine: Option<MachineId>, kind: Kind) {
        let Some(ask) = buddying::show_ask(&mut self.phones[operator], &mut self.chance, machine) else { return };
        let given = &mut self.given;
        if let Some(old) = self.last_answers[operator].clone().filter(|_| self.chance.hit(100)) {
            // The screen of the last time is held up again.
            if let Met::Answered(command) =
                buddying::scan(&mut self.phones[operator], &self.told, old, &mut self.chance)
            {
                return self.act(operator, Doing::Ask(command));
            }
        }
        let shown = buddying::answer(&self.phones[buddy], &self.told, &ask, kind, &mut self.chance, given);
        let met = match shown {
            Ok(shown) => {
                self.last_answers[operator] = Some(shown.clone());
                let again = self.chance.hit(50).then(|| shown.clone());
                let met = buddying::scan(&mut self.phones[operator], &self.told, shown, &mut self.chance);
                if let Some(again) = again {
                    let twice = buddying::scan(&mut self.phones[operator], &self.told, again, &mut self.chance);
                    if matches!(met, Met::Answered(_)) {
                        assert!(matches!(twice, Met::Nothing(_)), "an answer counts once");
                    }
                }
                met
            }
            Err(why) => Met::Nothing(why),
        };
        match met {
            Met::Answered(command) => self.act(operator, Doing::Ask(command)),
            Met::Nothing(why) => self.tally.count(format!("buddy: {why}")),
        }
    }

    fn ring(&mut self, phone: usize) {
        if self.healed && !self.tick.is_multiple_of(10) {
            return;
        }
        let bench = self.phones[phone].look(&self.told);
        let (set, due) = self.phones[phone].ring();
        let Some(page) = &self.phones[phone].page else { return };
        self.bells[phone].woke(page.steady.now(), page.news, page.session.as_ref(), &set, &due);
        for due in &due {
            self.tally.count(format!("bell: {}", variant(&due.bell)));
            // Else it was set for before it was set at all, or the phone had slept.
            let in_time = due.late.ms() <= self.options.tick_ms + BELL_DRIFT_MS;
            self.tally.count(match (in_time, self.options.tick_ms) {
                (true, 1_000) => "bells: within the second",
                (true, _) => "bells: within a wake-up",
                (false, _) => "bells: due before they could ring",
            });
        }
        if let Some(bench) = bench {
            checkers::each_look(self, phone, &bench);
        }
    }
}
