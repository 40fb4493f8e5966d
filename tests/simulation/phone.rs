//! One member's phone: decide, make durable, only then fold and show; and a page that may die between any two of these.
//!
//! What outlives a page is on the [`Disk`] alone. A page opens by reading it back, line by line, as the app does. The
//! phone knows no true time and no other phone; it sees messages, codes and its own two clocks.

mod exchange;
mod forgetting;

pub(crate) use exchange::Heard;
pub(crate) use forgetting::LetGo;

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::rc::Rc;

use ed25519_dalek::{Signer as _, SigningKey};
use shared_core::bell::{self, Rung};
use shared_core::clock::{Jump, Reading, Steady};
use shared_core::code::ask::{Ask, Nonce};
use shared_core::command::Command;
use shared_core::decide::decide;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, PersonId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, JwsFault, Link, Signed};
use shared_core::members::Members;
use shared_core::ordered::{Map, Set};
use shared_core::refusal::Refusal;
use shared_core::standing::act::{self, Act};
use shared_core::standing::said_by;
use shared_core::state::{Session, Stage, State, fold};
use shared_core::sync::message::Why;
use shared_core::sync::peer;
use shared_core::time::{Instant, Span};
use shared_core::view::Viewer;
use shared_core::view::bench::{BenchView, bench};

use crate::chance::Chance;
use crate::clocks::Clocks;
use crate::disk::{Act as Write, Disk, Full, Served};
use crate::planted::Planted;
use crate::shop::Shop;

/// No screen is older (the app's own limit).
const FRESH: Span = Span::from_ms(5_000);

pub(crate) struct Phone {
    pub(crate) me: PersonId,
    pub(crate) key: SigningKey,
    pub(crate) dev: DeviceId,
    pub(crate) clocks: Clocks,
    pub(crate) disk: Disk,
    pub(crate) page: Option<Page>,
    /// What the hub would not count, as this phone was told.
    pub(crate) told: BTreeMap<u64, Why>,
    /// Whether it was told that its story has forked.
    pub(crate) told_fork: bool,
    /// Lines that a phone of this evening has opened before: the same text is the same entry, and signatures are dear.
    opened: Opened,
    pub(crate) kind: Kind,
    planted: Option<Planted>,
    wakes: u64,
}

/// Lines that were opened, by their text; one list for all phones of an evening.
pub(crate) type Opened = Rc<RefCell<HashMap<String, Signed>>>;

/// What sort of phone it is.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Kind {
    pub(crate) release: Release,
    /// Whether it hangs on the wall: nobody acts on it.
    pub(crate) board: bool,
}

/// Which release of the app it has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Release {
    #[default]
    Today,
    /// Leaves out what may be left out.
    Earlier,
    /// Says more than a hub or a phone of today knows.
    Later,
}

/// A page's life: gone when it dies.
pub(crate) struct Page {
    pub(crate) steady: Steady,
    /// Steady time when it opened.
    pub(crate) began: Instant,
    pub(crate) state: State,
    /// What the state was folded from, in that order, and where each stands.
    pub(crate) entries: Vec<Entry>,
    pub(crate) ids: Vec<(DeviceId, u64)>,
    /// Grows whenever something else is known.
    pub(crate) news: u64,
    /// What the hub's clock is ahead.
    clock_offset: Span,
    pub(crate) session: Option<SessionId>,
    pub(crate) head: Head,
    own: Vec<(u64, String)>,
    lost: Vec<u64>,
    heard: BTreeSet<(DeviceId, u64)>,
    pub(crate) sync: peer::Phone,
    /// Which rulebook holds here, what the hub handed out with it, and who is who by that and by what was said here.
    pub(crate) book: usize,
    served: Served,
    pub(crate) members: Members,
    /// The question in flight, and since when.
    pub(crate) asking: Option<(u64, usize)>,
    pub(crate) ask_at: usize,
    pub(crate) pending: Option<Pending>,
    /// Jumps of the wall clock that are not in the log yet, in seconds.
    pub(crate) jumps: Vec<i64>,
    pub(crate) ask: Option<Ask>,
    pub(crate) used: Set<Nonce>,
    pub(crate) rung: Rung,
    /// The screen with the session, when it was made and from how many entries; its bells.
    made: Option<Made>,
}

/// What the screen with a session showed when it was last made, and what was known then.
struct Made {
    at: Instant,
    known: u64,
    bells: Vec<bell::Set>,
}

/// An act that is written and not yet durable: nothing shows it.
pub(crate) struct Pending {
    lines: Vec<(u64, String)>,
    entries: Vec<Entry>,
    head: Head,
    pub(crate) due: usize,
}

/// Why an act was not begun.
#[derive(Debug)]
pub(crate) enum NotDone {
    Refused(Box<Refusal>),
    Full,
}

impl From<Refusal> for NotDone {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(Box::new(refusal))
    }
}

impl From<Full> for NotDone {
    fn from(_: Full) -> Self {
        Self::Full
    }
}

impl Phone {
    pub(crate) fn new(
        me: PersonId,
        key: SigningKey,
        clocks: Clocks,
        disk: Disk,
        kind: Kind,
        opened: Opened,
        planted: Option<Planted>,
    ) -> Self {
        let dev = jws::device_of(&key.verifying_key());
        let told = BTreeMap::new();
        Self { me, key, dev, clocks, disk, page: None, told, told_fork: false, opened, kind, planted, wakes: 0 }
    }

    fn read(&self, line: &str) -> Result<Signed, JwsFault> {
        read(&self.opened, line)
    }

    /// Opens the page: reads the disk back. Answers what it could not read.
    pub(crate) fn open(&mut self, reading: Reading, tick: usize, shop: &Shop) -> Vec<u64> {
        let store = self.disk.durable().clone();
        let (mut own, mut rotten, mut entries, mut ids) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for (seq, line) in store.own {
            match self.read(&line) {
                Ok(signed) if signed.dev == self.dev && signed.seq == seq => {
                    entries.push(signed.entry);
                    ids.push((signed.dev, seq));
                    own.push((seq, line));
                }
                _ => rotten.push(seq),
            }
        }
        let session = my_session(&entries);
        let last = entries.iter().map(|entry| entry.at).max();
        let mut heard = BTreeSet::new();
        for (id, line) in store.others {
            entries.push(self.read(&line).expect("it was opened before it was kept").entry);
            heard.insert(id.clone());
            ids.push(id);
        }
        let (steady, jump) = Steady::begin(reading, last);
        // A phone joins with the shop as it is then.
        let served =
            store.served.unwrap_or_else(|| Served { rev: String::new(), members: shop.members.clone().into() });
        self.page = Some(Page {
            steady,
            began: steady.now(),
            state: State::default(),
            members: Members::default(),
            served,
            entries,
            ids,
            news: 0,
            clock_offset: Span::ZERO,
            session,
            lost: forgetting::missing(&own, store.head.seq),
            head: store.head,
            own,
            heard,
            book: store.book,
            sync: store.sync.and_then(|json| serde_json::from_str(&json).ok()).unwrap_or_default(),
            asking: None,
            ask_at: tick,
            pending: None,
            jumps: jump.map(|jump| jump.by.ms() / 1000).into_iter().collect(),
            ask: None,
            used: Set::new(),
            rung: store.rung,
            made: None,
        });
        self.refold();
        if !rotten.is_empty() && self.disk.write(Write::Lost(rotten.clone())).is_ok() {
            self.disk.flush();
        }
        rotten
    }

    /// The page dies, with whatever it had not made durable.
    pub(crate) fn die(&mut self, chance: &mut Chance) {
        self.page = None;
        self.disk.crash(chance);
    }

    pub(crate) fn viewer<'a>(&'a self, shop: &'a Shop) -> Option<Viewer<'a>> {
        let page = self.page.as_ref()?;
        Some(Viewer {
            book: &shop.books[page.book].rules,
            members: &page.members,
            state: &page.state,
            me: &self.me,
            session: page.session.as_ref(),
            now: page.steady.now(),
            // The exposure of a day is no part of what is simulated: a session is one day here.
            day_from: Instant::default(),
        })
    }

    pub(crate) fn bench(&self, shop: &Shop) -> Option<BenchView> {
        bench(&self.viewer(shop)?)
    }

    /// A wake-up: the clocks are read.
    pub(crate) fn wake(&mut self, reading: Reading) -> Option<Jump> {
        let page = self.page.as_mut()?;
        if self.planted == Some(Planted::WallClockBelieved) {
            page.steady = Steady::begin(reading, None).0;
        }
        let jump = page.steady.read(reading);
        if self.planted == Some(Planted::StaleNamesDropped) {
            let now = page.steady.now();
            let heard = |session: &&Session| now - session.last_at < Span::from_minutes(120);
            page.state.sessions = page.state.sessions.values().filter(heard).cloned().collect();
        }
        page.jumps.extend(jump.map(|jump| jump.by.ms() / 1000));
        jump
    }

    /// Everything that is known is folded anew. What the hub would not take from this member is nobody's standing.
    fn refold(&mut self) {
        let Some(page) = &mut self.page else { return };
        let counts = |((dev, seq), entry): &(&(DeviceId, u64), &Entry)| {
            *dev != self.dev || said_by(&entry.fact).is_none() || self.told.get(seq).is_none_or(|why| *why == Why::Gap)
        };
        page.state = State::of(page.ids.iter().zip(&page.entries).filter(counts).map(|(_, entry)| entry));
        page.stand();
        page.news += 1;
    }

    /// Decides what somebody is to the shop, or a point of the walk.
    pub(crate) fn begin_act(&mut self, shop: &Shop, act: Act, due: usize) -> Result<(), NotDone> {
        let entries = act::decide(&self.viewer(shop).expect("a page is open"), act)?;
        self.say(shop, entries, due)?;
        Ok(())
    }

    /// Decides, signs and writes; what follows is durable at `due` and shows nowhere before.
    pub(crate) fn begin(&mut self, shop: &Shop, command: Command, due: usize) -> Result<(), NotDone> {
        let mut viewer = self.viewer(shop).expect("a page is open");
        let mut blind = State::default();
        if self.planted == Some(Planted::TaggedMachinesRun) && matches!(command, Command::StartMachine { .. }) {
            blind.clone_from(viewer.state);
            blind.tags = Map::default();
            viewer.state = &blind;
        }
        let somebody = PersonId::from("marit");
        if self.planted == Some(Planted::OneMendsAndChecks) && matches!(command, Command::ClearTag { .. }) {
            viewer.me = &somebody;
        }
        let mut entries = decide(&viewer, command)?;
        for entry in &mut entries {
            entry.who = self.me.clone();
        }
        self.say(shop, entries, due)?;
        Ok(())
    }

    /// A phone of a later release says something that nobody else knows yet.
    pub(crate) fn say_later(&mut self, shop: &Shop, due: usize) -> Result<(), Full> {
        let viewer = self.viewer(shop).expect("a page is open");
        let session = viewer.open_session().map_or_else(SessionId::outside, |session| session.id.clone());
        let fact = Fact::Unrecognised { what: "guard_fitted".into() };
        self.say(shop, vec![Entry { at: viewer.now, session, who: self.me.clone(), fact }], due)
    }

    fn say(&mut self, shop: &Shop, entries: Vec<Entry>, due: usize) -> Result<(), Full> {
        let page = self.page.as_ref().expect("a page is open");
        assert!(page.pending.is_none(), "one act at a time");
        let mut head = page.head.clone();
        let mut lines = Vec::new();
        for entry in &entries {
            let link = Link {
                dev: self.dev.clone(),
                seq: head.seq + 1,
                prev: std::mem::take(&mut head.hash),
                book: shop.books[page.book].id.clone(),
            };
            let jws = jws::sign(entry, &link, &self.key).jws;
            head = Head { seq: link.seq, hash: jws::hash(&jws) };
            lines.push((link.seq, jws));
        }
        self.disk.write(Write::Say { lines: lines.clone(), head: head.clone() })?;
        self.page.as_mut().expect("it is open").pending = Some(Pending { lines, entries, head, due });
        Ok(())
    }

    /// What was written is durable: fold it, show it. Answers the lines.
    pub(crate) fn finish(&mut self) -> Vec<(u64, String)> {
        let Some(page) = &mut self.page else { return Vec::new() };
        let Some(Pending { lines, entries, head, .. }) = page.pending.take() else { return Vec::new() };
        if self.planted != Some(Planted::PhoneShowsBeforeDurable) {
            self.disk.flush();
        }
        let says_who_is_who = entries.iter().any(|entry| said_by(&entry.fact).is_some());
        for entry in &entries {
            fold(&mut page.state, entry);
            if matches!(entry.fact, Fact::Entered { .. }) {
                page.session = Some(entry.session.clone());
                // Which bells rang is kept with the running session.
                page.rung = Rung::default();
                page.ask = None;
            }
        }
        page.entries.extend(entries);
        page.ids.extend(lines.iter().map(|(seq, _)| (self.dev.clone(), *seq)));
        page.news += 1;
        page.own.extend(lines.iter().cloned());
        page.head = head;
        if says_who_is_who {
            page.stand();
        }
        lines
    }

    /// The screen with the session, if it is time to make it anew, as the app does: something but the time has changed,
    /// or it is five seconds old.
    pub(crate) fn look(&mut self, shop: &Shop) -> Option<BenchView> {
        let page = self.page.as_ref()?;
        let (now, known) = (page.steady.now(), page.news);
        let good = |made: &Made| made.known == known && made.at <= now && now - made.at < FRESH;
        if page.made.as_ref().is_some_and(good) {
            return None;
        }
        let bench = self.bench(shop);
        let page = self.page.as_mut()?;
        let session = page.session.as_ref().and_then(|id| page.state.sessions.get(id));
        let sweeping = session.is_some_and(|session| matches!(session.stage, Stage::Sweeping(_)));
        let bells = bench.as_ref().map_or_else(Vec::new, |bench| bell::set(bench, sweeping));
        page.made = Some(Made { at: now, known, bells });
        bench
    }

    /// The bells that are set, and those that ring now; noted as rung.
    pub(crate) fn ring(&mut self) -> (Vec<bell::Set>, Vec<bell::Due>) {
        let Some(page) = &mut self.page else { return Default::default() };
        let Some(made) = &page.made else { return Default::default() };
        self.wakes += 1;
        if self.planted == Some(Planted::BellsLookedAtSeldom) && !self.wakes.is_multiple_of(9) {
            return (made.bells.clone(), Vec::new());
        }
        let mut due = bell::due(&made.bells, &mut page.rung, page.steady.now());
        for due in due.iter().filter(|_| self.planted != Some(Planted::BellsForgotten)) {
            page.rung.note(due);
        }
        if self.planted == Some(Planted::BellsSwallowed) {
            due.clear();
        }
        if !due.is_empty() {
            // A small value of the page's own: kept at the next flush, or lost with the page.
            let _unless_full = self.disk.write(Write::Rang(page.rung.clone()));
        }
        (made.bells.clone(), due)
    }

    /// Signs any bytes, as the buddy's answer asks for.
    pub(crate) fn sign(&self, bytes: &[u8]) -> [u8; 64] {
        self.key.sign(bytes).to_bytes()
    }
}

impl Pending {
    /// What is being written.
    pub(crate) fn lines(&self) -> &[(u64, String)] {
        &self.lines
    }
}

impl Page {
    /// What is known here of who is who goes over what the hub said.
    fn stand(&mut self) {
        self.members = (*self.served.members).clone();
        self.state.standing.apply(&mut self.members);
    }

    /// Whether something is not at the hub yet, as far as this phone knows.
    pub(crate) fn waits(&self) -> bool {
        self.own.iter().any(|(seq, _)| *seq > self.sync.acked())
    }
}

/// Opens a line, unless it was opened before.
fn read(opened: &Opened, line: &str) -> Result<Signed, JwsFault> {
    if let Some(signed) = opened.borrow().get(line) {
        return Ok(signed.clone());
    }
    let signed = jws::open(line)?;
    opened.borrow_mut().insert(line.to_owned(), signed.clone());
    Ok(signed)
}

/// The session that this device began last and did not leave, from its own entries.
fn my_session<'a>(own: impl IntoIterator<Item = &'a Entry>) -> Option<SessionId> {
    let entered = own.into_iter().filter(|entry| matches!(entry.fact, Fact::Entered { .. })).last()?;
    Some(entered.session.clone())
}
