//! The loop, natively: real rules, real signatures, a journal in memory, clocks that are turned by hand.

mod bells;
mod bench;
mod buddies;
mod cards;
mod joining;
mod people;
mod retire;
mod storage;
mod syncing;
mod tally;

use std::future::Future;
use std::pin::pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

use ed25519_dalek::{Signer as _, SigningKey};
use serde_json::json;
use shared_core::clock::Reading;
use shared_core::command::Command;
use shared_core::ids::DeviceId;
use shared_core::log::jws;
use shared_core::sync::shop::ShopBundle;
use shared_core::time::{Instant, Span};
use shared_core::view::book::BookLine;

use super::extra::Book;
use super::{Desk, Moment};
use crate::intent::{Hub, Intent, Phone as Told, Ui, Wanted};
use crate::later::later;
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::journal::memory::Memory;
use crate::shell::keys::{Keeping, KeyFault, Signer};
use crate::shell::prefs::Chosen;
use crate::shell::wakeups::Wake;
use crate::store::Shown;

const ORIGIN: &str = "https://shop.test";
const START: &str = "2026-03-02T18:00:00Z";

/// Nothing in memory ever waits.
fn done<T>(work: impl Future<Output = T>) -> T {
    let mut work = pin!(work);
    match work.as_mut().poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(value) => value,
        Poll::Pending => panic!("something waited"),
    }
}

/// A key that signs, or one that the browser will not use.
#[derive(Clone)]
struct TestKey(Rc<(SigningKey, DeviceId)>, bool);

impl TestKey {
    fn of(seed: u8) -> Self {
        let key = SigningKey::from_bytes(&[seed; 32]);
        let id = jws::device_of(&key.verifying_key());
        Self(Rc::new((key, id)), false)
    }

    /// One that was made just now.
    fn new(seed: u8) -> Self {
        Self(Self::of(seed).0, true)
    }
}

impl Signer for TestKey {
    fn device_id(&self) -> &DeviceId {
        &self.0.1
    }

    fn is_new(&self) -> bool {
        self.1
    }

    fn keeping(&self) -> Keeping {
        Keeping::Seed
    }

    async fn sign(&self, bytes: &[u8]) -> Result<[u8; 64], KeyFault> {
        Ok(self.0.0.sign(bytes).to_bytes())
    }
}

/// A phone in somebody's hand.
struct Phone {
    desk: Desk<Memory, TestKey>,
    journal: Memory,
    key: TestKey,
    now: Moment,
    errands: Vec<Errand>,
}

impl Phone {
    /// A phone that has joined for the member whose seed this is, and knows the shop.
    fn joined(seed: u8) -> Self {
        let mut phone = Self::open(TestKey::of(seed), Memory::default(), at(START));
        phone.hub(Hub::Shop(Ok(text(&shop()))));
        phone
    }

    fn open(key: TestKey, journal: Memory, wall: Instant) -> Self {
        later();
        let now = Moment { reading: Reading { wall, mono_ms: 1_000, in_view: true }, chance: [seed_of(&key); 8] };
        let opened = done(Desk::open(journal.clone(), key.clone(), ORIGIN.into(), Chosen::default(), now));
        let (desk, errands) = opened.expect("a journal in memory opens");
        Self { desk, journal, key, now, errands }
    }

    /// The page is closed and opened again, `minutes` later.
    fn reopened_after(self, minutes: i64) -> Self {
        let wall = self.now.reading.wall + Span::from_minutes(minutes);
        Self::open(self.key, self.journal, wall)
    }

    fn send(&mut self, intent: Intent) -> &Shown {
        self.now.chance[0] = self.now.chance[0].wrapping_add(1);
        self.errands = match intent {
            Intent::Ui(wanted) => done(self.desk.ui(wanted, self.now)),
            Intent::Phone(told) => done(self.desk.phone(told, self.now)),
            Intent::Hub(said) => done(self.desk.hub(said, self.now)),
        };
        self.desk.shown()
    }

    fn ui(&mut self, wanted: Ui) -> &Shown {
        self.send(Intent::Ui(wanted))
    }

    fn act(&mut self, command: Command) -> &Shown {
        self.ui(Ui::Do(command))
    }

    fn hub(&mut self, said: Hub) -> &Shown {
        self.send(Intent::Hub(said))
    }

    /// Time passes in view of the page, and a tick follows.
    fn wait(&mut self, span: Span) -> &Shown {
        self.now.reading.wall = self.now.reading.wall + span;
        self.now.reading.mono_ms += span.ms();
        self.now.reading.in_view = true;
        self.send(Intent::Phone(Told::Woke(Wake::Tick)))
    }

    /// Comes in at the forge, all attested, out in two hours.
    fn come_in(&mut self) -> &Shown {
        self.ui(Ui::ArriveAt("forge".into()));
        self.ui(Ui::Attest("eyes".into()));
        self.ui(Ui::Attest("sober".into()));
        let out_by = self.now.reading.wall + Span::from_minutes(120);
        self.ui(Ui::Begin { out_by })
    }

    /// This phone's log as Book shows it, newest first.
    fn book(&mut self) -> Vec<BookLine> {
        self.ui(Ui::Want(Wanted::Book)).extra.seen::<Book>().expect("Book was wanted").lines.clone()
    }

    fn shown(&self) -> &Shown {
        self.desk.shown()
    }

    /// What this phone's log says, each line's kind, after checking the whole chain.
    fn said(&self) -> Vec<String> {
        let kept = self.journal.kept();
        let text: Vec<&str> = kept.log.iter().map(|line| line.jws.as_str()).collect();
        let verified = shared_core::log::chain::verify_log(&text.join("\n"));
        assert_eq!(verified.problems, [], "the chain is whole");
        let entries = kept.log.iter().map(|line| jws::open(&line.jws).expect("verified").entry);
        entries.map(|entry| shared_core::log::wire::what_of(&entry.fact).to_owned()).collect()
    }
}

fn at(text: &str) -> Instant {
    Instant::parse(text).expect(text)
}

fn seed_of(key: &TestKey) -> u8 {
    key.0.0.as_bytes()[0]
}

/// Ada (seeds 1 and 4) and Ben (seed 2) are inducted and signed off; Cem (seed 3) is not inducted.
fn shop() -> ShopBundle {
    let chore = |id: &str, minutes_milli: i64, hands: u32| {
        json!({ "id": id, "text": id, "minutes_milli": minutes_milli, "per_hour_milli": 0, "cap_milli": null,
                "hands": hands, "after": [], "gear": null, "when": "always" })
    };
    let machine = |id: &str, buddy: bool, chore: serde_json::Value| {
        json!({ "id": id, "name": id, "room": "forge", "training": "basics", "buddy": buddy, "hot_work": false,
                "pedal": false, "noise_dba": 97.0, "vibration_ms2": null, "wear": ["eyes"], "never_wear": [],
                "refuses": [], "start_checks": [], "chores": [chore] })
    };
    let statement = |id: &str| json!({ "id": id, "text": id, "decline": "Another day, then." });
    let member = |id: &str, inducted: bool| {
        let until = inducted.then_some("2027-01-01T00:00:00Z");
        json!({ "id": id, "name": id, "inducted_until": until, "signed_off": { "basics": "2027-01-01T00:00:00Z" } })
    };
    let device = |seed: u8, member: &str| json!({ "dev": TestKey::of(seed).device_id(), "member": member });
    let bundle = json!({
        "rev": "1", "book": "book", "utc_offsets": [], "hub_now": START,
        "members": [member("ada", true), member("ben", true), member("cem", false)],
        "devices": [device(1, "ada"), device(2, "ben"), device(3, "cem"), device(4, "ada")],
        "rulebook": {
            "shop": { "name": "Canal Yard", "time_zone": "Etc/UTC", "session_hours_max": 12 },
            "reserve": { "floor_minutes": 10, "first_bell_minutes": 10, "quantile": 0.8, "prior_weight": 5 },
            "buddy": { "renew_minutes": 15, "covers": 1, "may_operate": false },
            "fire_watch": { "minutes": 30, "exclusive": true },
            "statements": [statement("eyes"), statement("sober")],
            "gear": [],
            "rooms": [{ "id": "forge", "name": "Forge", "chores": [chore("floor", 5_000, 1)] }],
            "machines": [machine("saw", false, chore("chips", 3_000, 1)), machine("mill", true, chore("wipe", 4_000, 1))],
            "rounds": [], "stops": []
        }
    });
    serde_json::from_value(bundle).expect("a whole bundle")
}

/// As the hub would hand it out.
fn text(shop: &ShopBundle) -> String {
    serde_json::to_string(shop).expect("plain data")
}

fn start(machine: &str) -> Command {
    Command::StartMachine { machine: machine.into(), material: None }
}
