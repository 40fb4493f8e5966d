//! The world of one seed: true time, people with phones, a hub, the network between them; a faulty phase, then a healed one.
//!
//! Every step is followed by the checkers that watch it. A failure prints the seed, the command that replays it and the
//! last things that happened.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use ed25519_dalek::SigningKey;
use shared_core::command::Command;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, PersonId, SessionId};
use shared_core::time::Instant;

use crate::adversary::{self, Adversary, Fate};
use crate::buddying::{self, Given, Met};
use crate::chance::Chance;
use crate::checkers::bells::BellWatch;
use crate::checkers::{self, Expected};
use crate::clocks::Clocks;
use crate::disk::Disk;
use crate::hub::Hub;
use crate::net::{End, Net};
use crate::options::Options;
use crate::phone::{NotDone, Phone};
use crate::shop::Shop;
use crate::tally::{Tally, variant};
use crate::workload::{Wish, wish};

/// No answer within this time is no answer (the app's own limit).
const ANSWER_MS_MAX: i64 = 15_000;
/// With nothing to send a phone asks about this often.
const ASK_EVERY_MS: i64 = 30_000;
/// Healed, everything must have come together within this time: two of the longest waits between questions.
const HEALED_MS_MAX: i64 = 660_000;
/// So many ticks apart it is looked at whether everything has come together.
const LOOKED_EVERY: usize = 5;
const MEMBERS: [&str; 9] = ["marit", "noor", "ilse", "bram", "teun", "saar", "wout", "femke", "tess"];

pub(crate) struct World {
    seed: u64,
    pub(crate) options: Options,
    chance: Chance,
    pub(crate) shop: Shop,
    pub(crate) phones: Vec<Phone>,
    pub(crate) hub: Hub,
    net: Net,
    adversary: Option<Adversary>,
    /// Whose key a twin has.
    pub(crate) twin_of: Option<usize>,
    pub(crate) given: Given,
    /// By operator: the last answer that was held up to them.
    last_answers: Vec<Option<String>>,
    pub(crate) healed: bool,
    tick: usize,
    pub(crate) true_ms: i64,
    questions: u64,
    pub(crate) expected: Expected,
    bells: Vec<BellWatch>,
    pub(crate) tally: Tally,
    trace: VecDeque<String>,
}

impl World {
    pub(crate) fn new(seed: u64) -> Self {
        let mut chance = Chance::new(seed);
        let options = Options::draw(&mut chance);
        let mut shop = Shop::demo();
        let mut members = MEMBERS.to_vec();
        let mut phones = Vec::new();
        for _ in 0..options.phones {
            let me = PersonId::from(members.remove(chance.below(members.len())));
            let key = SigningKey::from_bytes(&chance.key_bytes());
            let clocks = Clocks::new(&options.clock, &mut chance);
            let phone = Phone::new(me, key, clocks, Disk::new(options.disk.clone()));
            shop.devices.insert(phone.dev.clone(), phone.me.clone());
            phones.push(phone);
        }
        let adversary = options.malice.then(|| {
            let key = SigningKey::from_bytes(&chance.key_bytes());
            Adversary::new(PersonId::from("joris"), key, shop.book_id.clone())
        });
        shop.devices.extend(adversary.iter().map(|liar| (liar.dev.clone(), liar.who.clone())));
        let last_answers = vec![None; options.phones];
        let hub = Hub::new(shop.devices.clone());
        Self {
            seed,
            net: Net::new(options.net.clone(), options.phones),
            twin_of: options.twin.then(|| chance.below(options.phones)),
            bells: vec![BellWatch::default(); options.phones],
            expected: Expected::new(options.phones),
            options,
            chance,
            shop,
            phones,
            hub,
            adversary,
            given: Given::default(),
            last_answers,
            healed: false,
            tick: 0,
            true_ms: 0,
            questions: 0,
            tally: Tally::default(),
            trace: VecDeque::new(),
        }
    }

    /// The whole run. Panics where a checker finds something wrong.
    pub(crate) fn run(mut self) -> Tally {
        for _ in 0..self.options.faulty_ticks {
            self.step();
        }
        self.heal();
        let bound = usize::try_from(HEALED_MS_MAX / self.options.tick_ms).unwrap_or(0) + 60;
        let mut waited = 0;
        while let Err(why) = checkers::converges::converged(&self) {
            assert!(waited <= bound, "not together {waited} ticks after all faults ended: {why}");
            for _ in 0..LOOKED_EVERY {
                self.step();
            }
            waited += LOOKED_EVERY;
        }
        checkers::at_the_end(&mut self);
        self.tally.add("steps", self.tick as u64);
        self.tally.add("entries at the hub", self.hub.log.len() as u64);
        self.tally.count("runs");
        std::mem::take(&mut self.tally)
    }

    fn heal(&mut self) {
        self.note(|| "healed".to_owned());
        self.healed = true;
        self.net.heal();
        for phone in 0..self.phones.len() {
            self.phones[phone].disk.heal();
            self.wake_up(phone);
            // A phone is not always told; then it asks when its own wait is over.
            if self.chance.hit(500) {
                self.network_is_back(phone);
            }
        }
    }

    fn step(&mut self) {
        self.tick += 1;
        self.true_ms += self.options.tick_ms;
        for phone in self.net.tick(&mut self.chance) {
            self.network_is_back(phone);
        }
        for phone in 0..self.phones.len() {
            self.live(phone);
        }
        for message in self.net.arriving(&mut self.chance, self.tick) {
            match message.to {
                End::Hub => self.ask_hub(message.phone, message.number, &message.text),
                End::Phone(phone) => self.answer_phone(phone, message.number, &message.text),
            }
        }
        if !self.healed {
            self.lie();
        }
        checkers::each_tick(self, self.tick);
    }

    fn note(&mut self, what: impl FnOnce() -> String) {
        if self.trace.len() == 40 {
            self.trace.pop_front();
        }
        self.trace.push_back(format!("{:>6} {}", self.tick, what()));
    }

    fn goes_wrong(&mut self, chance: i64) -> bool {
        !self.healed && self.chance.hit(chance)
    }

    /// One phone's tick.
    fn live(&mut self, phone: usize) {
        self.phones[phone].disk.tick(&mut self.chance);
        if self.goes_wrong(self.options.clock.jump) {
            let by_ms = self.chance.range(-7_200_000, 7_200_000);
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

    fn wake_up(&mut self, phone: usize) {
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
        let unreadable = one.open(reading, self.tick);
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
    fn dies(&mut self, phone: usize, where_: &str) -> bool {
        let dies = self.goes_wrong(self.options.crash);
        if dies {
            self.phones[phone].die(&mut self.chance);
            self.tally.count(format!("page: died {where_}"));
            self.note(|| format!("phone {phone}: died {where_}"));
        }
        dies
    }

    fn finish_act(&mut self, phone: usize) {
        let Some(page) = &self.phones[phone].page else { return };
        if page.pending.as_ref().is_none_or(|pending| pending.due > self.tick) {
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
            return self.act(phone, Command::NoteJump { seconds });
        }
        if self.healed || !self.chance.hit(self.options.act) {
            return;
        }
        let Some(viewer) = self.phones[phone].viewer(&self.shop) else { return };
        match wish(&viewer, &mut self.chance, self.options.nonsense) {
            Wish::Do(command) => self.act(phone, command),
            Wish::Buddy(machine) => {
                let buddy = self.chance.below(self.phones.len());
                self.meet(phone, buddy, machine, shared_core::code::answer::Kind::Here);
            }
            Wish::BuddyGoes(who) => {
                let buddy = self.phones.iter().position(|other| other.me == who);
                self.meet(phone, buddy.unwrap_or(phone), None, shared_core::code::answer::Kind::Leaving);
            }
        }
    }

    fn act(&mut self, phone: usize, command: Command) {
        let name = variant(&command);
        let due = self.tick + self.phones[phone].disk.flush_ticks(&mut self.chance);
        let done = self.phones[phone].begin(&self.shop, command, due);
        let outcome = match done {
            Ok(()) => {
                let page = self.phones[phone].page.as_ref().expect("it acted");
                let lines = page.pending.as_ref().expect("it acted").lines();
                self.expected.signed(&self.phones[phone].dev, lines);
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

    fn meet(
        &mut self,
        operator: usize,
        buddy: usize,
        machine: Option<shared_core::ids::MachineId>,
        kind: shared_core::code::answer::Kind,
    ) {
        let Some(ask) = buddying::show_ask(&mut self.phones[operator], &mut self.chance, machine) else { return };
        let given = &mut self.given;
        if let Some(old) = self.last_answers[operator].clone().filter(|_| self.chance.hit(100)) {
            // The screen of the last time is held up again.
            if let Met::Answered(command) =
                buddying::scan(&mut self.phones[operator], &self.shop, old, &mut self.chance)
            {
                return self.act(operator, command);
            }
        }
        let shown = buddying::answer(&self.phones[buddy], &self.shop, &ask, kind, &mut self.chance, given);
        let met = match shown {
            Ok(shown) => {
                self.last_answers[operator] = Some(shown.clone());
                let again = self.chance.hit(50).then(|| shown.clone());
                let met = buddying::scan(&mut self.phones[operator], &self.shop, shown, &mut self.chance);
                if let Some(again) = again {
                    let twice = buddying::scan(&mut self.phones[operator], &self.shop, again, &mut self.chance);
                    if matches!(met, Met::Answered(_)) {
                        assert!(matches!(twice, Met::Nothing(_)), "an answer counts once");
                    }
                }
                met
            }
            Err(why) => Met::Nothing(why),
        };
        match met {
            Met::Answered(command) => self.act(operator, command),
            Met::Nothing(why) => self.tally.count(format!("buddy: {why}")),
        }
    }

    fn ring(&mut self, phone: usize) {
        if self.healed && !self.tick.is_multiple_of(10) {
            return;
        }
        let bench = self.phones[phone].look(&self.shop);
        let (set, due) = self.phones[phone].ring();
        let Some(page) = &self.phones[phone].page else { return };
        self.bells[phone].woke(page.steady.now(), page.entries.len(), page.session.as_ref(), &set, &due);
        for due in &due {
            self.tally.count(format!("bell: {}", variant(&due.bell)));
        }
        if let Some(bench) = bench {
            checkers::each_look(self, phone, &bench);
        }
    }

    fn network_is_back(&mut self, phone: usize) {
        if let Some(page) = &mut self.phones[phone].page {
            page.sync.online();
            page.ask_at = self.tick;
        }
    }

    fn ticks(&self, ms: i64) -> usize {
        usize::try_from(ms / self.options.tick_ms).unwrap_or(0) + 1
    }

    fn sync(&mut self, phone: usize) {
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

    fn ask_hub(&mut self, phone: usize, number: u64, question: &str) {
        if self.goes_wrong(self.options.hub_crash) {
            return self.tally.count("hub: died before it wrote");
        }
        let now = Instant::from_ms(self.shop.base.ms() + self.true_ms);
        let dev = self.phones[phone].dev.clone();
        let Some(outcome) = self.hub.sync(&dev, question, now) else {
            return self.tally.count("hub: no question");
        };
        if self.goes_wrong(self.options.hub_crash) {
            return self.tally.count("hub: died before it answered");
        }
        self.net.send(&mut self.chance, self.tick, phone, End::Phone(phone), number, &outcome.answer);
    }

    fn answer_phone(&mut self, phone: usize, number: u64, text: &str) {
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
            Some(more) => {
                let Some(page) = &self.phones[phone].page else { return };
                let soon = more || (page.waits() && !self.phones[phone].told_fork);
                let wait = if soon { 1 } else { self.ticks(ASK_EVERY_MS) };
                self.tally.count("sync: answered");
                if let Some(page) = &mut self.phones[phone].page {
                    page.ask_at = self.tick + wait;
                }
            }
            None => self.unanswered(phone),
        }
        self.dies(phone, "after it kept an answer");
    }

    fn lie(&mut self) {
        let now = Instant::from_ms(self.shop.base.ms() + self.true_ms);
        if self.adversary.is_some() && self.chance.hit(80) {
            let Some(liar) = &self.adversary else { return };
            let lie = liar.lie(&self.hub, now, &mut self.chance);
            let (before, dev) = (self.hub.log.len(), liar.dev.clone());
            let outcome = self.hub.sync(&dev, &lie.message, now);
            checkers::forged_is_refused::fate(&lie, outcome.as_ref(), self.hub.log.len() - before);
            self.tally.count(format!("lie: {}", lie.name));
            if lie.fate == Fate::TheirOwn {
                self.note(|| format!("liar: {}", lie.name));
            }
        }
        if let Some(victim) = self.twin_of
            && self.chance.hit(10)
        {
            self.twin(victim, now);
        }
    }

    /// A copy of a member's key speaks, after what the hub has of it.
    fn twin(&mut self, victim: usize, now: Instant) {
        let (dev, who) = (self.phones[victim].dev.clone(), self.phones[victim].me.clone());
        let entry =
            Entry { at: now, session: SessionId::outside(), who, fact: Fact::Incident { note: "me too".into() } };
        let head = self.hub.head(&dev);
        let line = adversary::sign(&self.phones[victim].key, &self.shop.book_id, &entry, &head);
        self.expected.signed(&dev, &[(head.seq + 1, line.clone())]);
        self.hub.sync(&dev, &adversary::question(vec![line]), now);
        self.tally.count("lie: a twin speaks");
        self.note(|| format!("twin of phone {victim} speaks"));
    }

    /// Whether nobody lies in this run.
    pub(crate) fn is_honest(&self) -> bool {
        self.adversary.is_none() && self.twin_of.is_none()
    }

    /// Whether a device is the liar's.
    pub(crate) fn is_liars(&self, dev: &DeviceId) -> bool {
        self.adversary.as_ref().is_some_and(|liar| liar.dev == *dev)
    }
}

impl Drop for World {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            return;
        }
        for line in &self.trace {
            eprintln!("{line}");
        }
        eprintln!("{:#?}", self.options);
        eprintln!("seed {} failed at tick {}. To replay it:", self.seed, self.tick);
        eprintln!("SEED={} cargo test -p tests --test simulation one_seed", self.seed);
    }
}

/// Runs one seed.
pub(crate) fn run(seed: u64) -> Tally {
    World::new(seed).run()
}

/// Every line that each device signed.
pub(crate) type Signed = BTreeMap<DeviceId, BTreeSet<String>>;
