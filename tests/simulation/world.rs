//! The world of one seed: true time, people with phones, a hub, the network between them; a faulty phase, then a healed one.
//!
//! Every step is followed by the checkers that watch it. A failure prints the seed, the command that replays it and the
//! last things that happened.

mod erasing;
mod exchange;
mod mischief;
mod people;

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use ed25519_dalek::SigningKey;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::time::Instant;

use crate::adversary::Adversary;
use crate::buddying::Given;
use crate::chance::Chance;
use crate::checkers::bells::BellWatch;
use crate::checkers::{self, Expected};
use crate::clocks::Clocks;
use crate::disk::Disk;
use crate::hub::Hub;
use crate::net::{End, Net};
use crate::options::Options;
use crate::phone::{Kind, Opened, Phone, Release};
use crate::planted::Planted;
use crate::shop::Shop;
use crate::tally::Tally;

/// Healed, everything must have come together within this time: two of the longest waits between questions.
const HEALED_MS_MAX: i64 = 660_000;
/// So many ticks apart it is looked at whether everything has come together.
const LOOKED_EVERY: usize = 5;
const MEMBERS: [&str; 9] = ["marit", "noor", "ilse", "bram", "teun", "saar", "wout", "femke", "tess"];

/// Which run it is to be.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Plan {
    pub(crate) seed: u64,
    /// What is done wrong on purpose.
    pub(crate) planted: Option<Planted>,
    /// A small calm evening, in which a page or the hub dies at the storage step of this number and at no other.
    pub(crate) dies_at: Option<u64>,
}

pub(crate) struct World {
    plan: Plan,
    pub(crate) options: Options,
    chance: Chance,
    /// The shop as it is.
    pub(crate) shop: Shop,
    /// The shop as phones have it: the same, unless something is planted.
    told: Shop,
    planted: Option<Planted>,
    pub(crate) phones: Vec<Phone>,
    pub(crate) hub: Hub,
    net: Net,
    adversary: Option<Adversary>,
    /// Whose key a twin has.
    pub(crate) twin_of: Option<usize>,
    pub(crate) given: Given,
    /// By operator: the last answer that was held up to them.
    last_answers: Vec<Option<String>>,
    /// The last questions that reached the hub.
    recorded: VecDeque<(usize, u64, String)>,
    pub(crate) healed: bool,
    tick: usize,
    pub(crate) true_ms: i64,
    questions: u64,
    /// Storage steps so far: moments at which a page or a process may die.
    steps: u64,
    /// When the hub next looks for what is over.
    retires_at_ms: i64,
    /// Whether a steward is about to erase what an older copy brought back.
    erases_again: bool,
    pub(crate) expected: Expected,
    bells: Vec<BellWatch>,
    pub(crate) tally: Tally,
    trace: VecDeque<String>,
}

impl World {
    pub(crate) fn new(plan: Plan) -> Self {
        let mut chance = Chance::new(plan.seed);
        let options = if plan.dies_at.is_some() { Options::calm(&mut chance) } else { Options::draw(&mut chance) };
        let (mut shop, planted) = (Shop::demo(), plan.planted);
        let phones = draw_phones(&options, &mut chance, planted);
        shop.devices.extend(phones.iter().map(|phone| (phone.dev.clone(), phone.me.clone())));
        let adversary = options.malice.then(|| {
            let key = SigningKey::from_bytes(&chance.key_bytes());
            Adversary::new(PersonId::from("joris"), key, shop.books[0].id.clone())
        });
        shop.devices.extend(adversary.iter().map(|liar| (liar.dev.clone(), liar.who.clone())));
        let later = options.releases && chance.hit(500);
        let mut hub = Hub::new(&shop, later, planted);
        hub.start(&mut chance);
        Self {
            plan,
            net: Net::new(options.net.clone(), options.phones),
            twin_of: options.twin.then(|| chance.below(options.phones)),
            bells: vec![BellWatch::default(); options.phones],
            expected: Expected::new(options.phones),
            told: shop.as_told(planted),
            last_answers: vec![None; options.phones],
            options,
            chance,
            shop,
            planted,
            phones,
            hub,
            adversary,
            given: Given::default(),
            recorded: VecDeque::new(),
            healed: false,
            tick: 0,
            true_ms: 0,
            questions: 0,
            steps: 0,
            retires_at_ms: 0,
            erases_again: false,
            tally: Tally::default(),
            trace: VecDeque::new(),
        }
    }

    /// The whole run. Panics where a checker finds something wrong.
    pub(crate) fn run(mut self) -> Tally {
        for _ in 0..self.options.faulty_ticks {
            self.step();
        }
        self.tally.add("storage steps", self.steps);
        self.heal();
        let bound = usize::try_from(HEALED_MS_MAX / self.options.tick_ms).unwrap_or(0) + 60;
        // A page of what is to be forgotten takes a tick there and one back.
        let bound = bound + 2 * self.hub.store.pages_to_forget();
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
        self.tally.add("entries at the hub", self.hub.store.log.len() as u64);
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
        self.look_after();
        self.erase();
        self.hub_works();
        if !self.healed {
            self.lie();
        }
        checkers::each_tick(self, self.tick);
    }

    fn true_now(&self) -> Instant {
        Instant::from_ms(self.shop.base.ms() + self.true_ms)
    }

    fn note(&mut self, what: impl FnOnce() -> String) {
        if self.trace.len() == 60 {
            self.trace.pop_front();
        }
        self.trace.push_back(format!("{:>6} {}", self.tick, what()));
    }

    fn goes_wrong(&mut self, chance: i64) -> bool {
        !self.healed && self.chance.hit(chance)
    }

    /// A storage step: whether a page or a process dies here.
    fn breaks(&mut self, chance: i64) -> bool {
        self.steps += u64::from(!self.healed);
        match self.plan.dies_at {
            Some(at) => !self.healed && self.steps == at,
            None => self.goes_wrong(chance),
        }
    }

    /// Whether nobody lies in this run.
    pub(crate) fn is_honest(&self) -> bool {
        self.adversary.is_none() && self.twin_of.is_none()
    }

    /// Who lies.
    pub(crate) fn liar(&self) -> Option<&PersonId> {
        self.adversary.as_ref().map(|liar| &liar.who)
    }

    /// Whether a device is the liar's.
    pub(crate) fn is_liars(&self, dev: &DeviceId) -> bool {
        self.adversary.as_ref().is_some_and(|liar| liar.dev == *dev)
    }
}

impl Drop for World {
    fn drop(&mut self) {
        if !std::thread::panicking() || self.planted.is_some() {
            return;
        }
        for line in &self.trace {
            eprintln!("{line}");
        }
        eprintln!("{:#?}", self.options);
        eprintln!("{:?} failed at tick {}. To replay it:", self.plan, self.tick);
        let dies_at = self.plan.dies_at.map_or_else(String::new, |at| format!(" --dies-at {at}"));
        eprintln!("cargo xtask simulate --seed {}{dies_at}", self.plan.seed);
    }
}

fn draw_phones(options: &Options, chance: &mut Chance, planted: Option<Planted>) -> Vec<Phone> {
    let mut members = MEMBERS.to_vec();
    let mut phones: Vec<Phone> = Vec::new();
    let opened = Opened::default();
    for number in 0..options.phones {
        let again = options.second_phones && number > 0 && chance.hit(400);
        let me = match phones.get(chance.below(number)).filter(|_| again) {
            Some(first) => first.me.clone(),
            None => PersonId::from(members.remove(chance.below(members.len()))),
        };
        let release = match chance.below(3) {
            1 if options.releases => Release::Earlier,
            2 if options.releases => Release::Later,
            _ => Release::Today,
        };
        let kind = Kind { release, board: options.board && number + 1 == options.phones };
        let key = SigningKey::from_bytes(&chance.key_bytes());
        let clocks = Clocks::new(&options.clock, chance);
        phones.push(Phone::new(
            me,
            key,
            clocks,
            Disk::new(options.disk.clone(), planted),
            kind,
            opened.clone(),
            planted,
        ));
    }
    phones
}

/// Runs one plan.
pub(crate) fn run(plan: Plan) -> Tally {
    World::new(plan).run()
}

/// Every line that each device signed.
pub(crate) type Signed = BTreeMap<DeviceId, BTreeSet<String>>;
