//! Driving sync: when to ask the hub, and what an answer changes.
//!
//! Asked at the start, after each act, when the network or the page comes back, when the hub says that there is
//! something, when its stream opens or ends, and each minute besides, unless the hub is heard to have nothing: then each ten. After
//! a failure only when the wait is over (`shared_core::sync::peer`). What the hub says counts once the journal has it. Nothing
//! here is waited for by a member, and nothing is ever dropped.

use shared_core::entry::Entry;
use shared_core::log::jws::{self, Signed};
use shared_core::log::run;
use shared_core::members::Member;
use shared_core::ordered::Map;
use shared_core::sync::message::{Rejected, SyncAnswer, Why};
use shared_core::sync::peer::{Phone, Story};
use shared_core::time::{Instant, Span};

use super::Desk;
use super::join::Joining;
use super::ledger::{is_rejected, other};
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::hub_link::{HubEvent, LinkFault};
use crate::shell::journal::{Aside, Change, Journal, Key, Standing};
use crate::shell::keys::Signer;
use crate::store::{Link, Notice};

const EVERY: Span = Span::from_minutes(1);
/// While the hub's stream is heard, nothing waits, and nobody has a reason to ask.
const QUIET: Span = Span::from_minutes(10);
/// A stream of which nothing was heard for so long is not one: the hub says at least that it is there, each 50 s.
const SILENT: Span = Span::from_ms(120_000);
/// After the stream has ended, and up to four seconds more by chance: phones do not all ask at once.
const AFTER_STREAM: Span = Span::from_ms(1_000);
/// How long another tab's turn is given.
const OTHER_TABS_TURN: Span = Span::from_ms(10_000);

/// When to ask, and what the hub last said.
#[derive(Clone, Debug, Default)]
pub struct Syncing {
    phone: Phone,
    /// Not before then; at once if never set.
    due: Option<Instant>,
    /// There was a reason to ask while a question was in flight, which did not know of it.
    again: bool,
    link: Link,
    /// When the hub last answered.
    reached: Option<Instant>,
    clock_offset: Option<Span>,
    listening: bool,
    /// When the hub last said something by itself, while its stream was there.
    told: Option<Instant>,
    /// When the last question was answered, and nobody has had a reason to ask since.
    quiet_from: Option<Instant>,
    /// Two stories are told once, not each minute.
    forked: bool,
}

impl Syncing {
    /// Takes up what was kept, unless a question is in flight.
    pub fn take_up(&mut self, kept: Option<Phone>) {
        if let Some(kept) = kept
            && !self.phone.is_asking()
        {
            self.phone = kept;
        }
    }

    /// There is a reason to ask now.
    pub fn hurry(&mut self, now: Instant) {
        self.due = Some(now);
        self.again = self.phone.is_asking();
        self.quiet_from = None;
    }

    /// Whether whatever happens at the hub would be heard, and nothing has for a while: no question is worth its wake-up.
    fn rests(&self, now: Instant) -> bool {
        let told = self.told.is_some_and(|told| now - told < SILENT);
        told && self.quiet_from.is_some_and(|from| now - from < QUIET)
    }

    /// The network came back.
    pub fn online(&mut self, now: Instant) {
        self.phone.online();
        self.hurry(now);
    }

    /// The hub could not be asked; later, then.
    pub fn wait(&mut self, now: Instant, [a, b, c, d, ..]: [u8; 8]) {
        self.due = Some(now + self.phone.failed(u32::from_be_bytes([a, b, c, d])));
    }

    /// What the hub last came to.
    pub fn fault(&mut self, fault: LinkFault) {
        self.link = Link::Fault(fault);
    }

    /// When the hub last answered, since the page was opened.
    pub fn reached(&self) -> Option<Instant> {
        self.reached
    }

    /// Whether this phone has heard the log to its end.
    pub fn heard_all(&self) -> bool {
        self.phone.heard_all()
    }

    /// Whether the hub was heard to have another story of this phone.
    pub fn is_forked(&self) -> bool {
        self.forked
    }

    /// How the hub is.
    pub fn link(&self) -> &Link {
        &self.link
    }

    /// Add this to the phone's clock for the hub's.
    pub fn clock_offset(&self) -> Option<Span> {
        self.clock_offset
    }
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Asks the hub if it is time to.
    pub(super) fn ask_hub_if_due(&mut self) {
        let now = self.clock.now();
        if self.sync.due.is_some_and(|due| now < due) || self.sync.phone.is_asking() {
            return;
        }
        // Whatever becomes of the question, there is a next one.
        self.sync.due = Some(now + EVERY);
        if self.sync.rests(now) && self.nothing_waits() {
            return;
        }
        self.sync.quiet_from = None;
        if self.shop.is_none() {
            if matches!(self.joining, Joining::Idle | Joining::Fetching(_)) {
                self.fetch_shop();
            }
            return;
        }
        let steward = self.viewer().and_then(|viewer| viewer.members.get(viewer.me)).is_some_and(|me| me.steward);
        self.sync.phone.is_stewards(steward);
        let lines: Vec<(u64, &str)> =
            self.ledger.own().iter().map(|own| (own.line.seq, own.line.jws.as_str())).collect();
        if let Some(request) = self.sync.phone.generate(now, &lines, self.ledger.lost()) {
            self.errands.push(Errand::Later(LaterErrand::Sync(Box::new(request))));
        }
    }

    /// An exchange ended.
    pub(super) async fn synced(&mut self, answer: Option<Result<Box<SyncAnswer>, LinkFault>>) {
        let now = self.clock.now();
        match answer {
            None => {
                self.sync.wait(now, self.chance);
                self.sync.phone.online();
                self.sync.due = Some(now + OTHER_TABS_TURN);
            }
            Some(Err(fault)) => {
                self.sync.wait(now, self.chance);
                if let LinkFault::TooMany { after_seconds } = fault {
                    let asked = now + Span::from_ms(i64::from(after_seconds) * 1_000);
                    self.sync.due = self.sync.due.max(Some(asked));
                }
                self.sync.listening = false;
                if fault == LinkFault::Revoked {
                    self.taken_off();
                }
                self.sync.fault(fault);
            }
            Some(Ok(answer)) => self.take_answer(*answer).await,
        }
    }

    /// The hub says that this phone was taken off: it begins nothing any more, and says so once.
    fn taken_off(&mut self) {
        if *self.sync.link() == Link::Fault(LinkFault::Revoked) {
            return;
        }
        self.stale = true;
        self.notice = Some(Notice::Link(LinkFault::Revoked));
        let now = self.clock.now();
        let me = self.viewer().and_then(|viewer| viewer.members.get(viewer.me)).cloned();
        if let (Some(shop), Some(me)) = (&mut self.shop, me) {
            shop.members.put(Member { card_until: Some(now), ..me });
        }
    }

    async fn take_answer(&mut self, answer: SyncAnswer) {
        let now = self.clock.now();
        let rev = answer.shop.clone();
        let mut phone = self.sync.phone.clone();
        let Some(received) = phone.receive(now, answer, self.ledger.head()) else {
            // It answers another question, and this exchange brings no other answer.
            return self.sync.wait(now, self.chance);
        };
        let standings = self.ledger.standings(received.acked_to, &reasons(&received.rejected));
        let mut changes: Vec<Change> = standings.iter().cloned().map(Change::Line).collect();
        let (pulled, unreadable) = self.opened(received.pulled, &mut changes);
        let forget = self.to_forget(&received.forget);
        let forgets = !forget.is_empty();
        changes.extend(forget);
        let state = serde_json::to_string(&phone).expect("the phone's half is plain data");
        changes.push(Change::Value(Key::Sync, state));
        if self.journal.change(&changes).await.is_err() {
            // The answer is forgotten as if it had been lost on the way; the hub gives the same one again. Nothing that
            // the member did has failed, so there is no notice: their next act will say what is wrong with the phone.
            self.sync.wait(now, self.chance);
            return;
        }
        let news = !standings.is_empty() || !pulled.is_empty();
        self.sync.phone = phone;
        // What was not taken is folded no longer where it says what somebody is to the shop.
        let anew = forgets || standings.iter().any(is_rejected);
        self.ledger.stand(standings);
        let before = self.marks();
        for signed in &pulled {
            self.ledger.learn(signed);
        }
        let heard: Vec<Entry> = pulled.into_iter().map(|signed| signed.entry).collect();
        if let Some(moved) = self.moved_by(before, &heard) {
            self.moved = Some(moved);
        }
        self.ledger.put_aside(unreadable);
        self.sync.link = Link::Reached(now);
        self.sync.reached = Some(now);
        self.sync.clock_offset = Some(received.clock_offset);
        let again = std::mem::take(&mut self.sync.again);
        let more = received.more || again;
        self.sync.due = Some(if more { now } else { now + EVERY });
        self.sync.quiet_from = (!more).then_some(now);
        if received.story == Story::Forked && !std::mem::replace(&mut self.sync.forked, true) {
            self.notice = Some(Notice::Forked);
        }
        if news {
            self.errands.push(Errand::TellTabs);
        }
        if !self.sync.listening {
            self.sync.listening = true;
            self.errands.push(Errand::Later(LaterErrand::Listen));
        }
        if self.shop.as_ref().is_some_and(|shop| shop.rev != rev) {
            self.fetch_shop();
        }
        for text in received.carried {
            self.handed_over(text).await;
        }
        if anew {
            self.reload().await;
        }
        if !received.more {
            if self.nothing_waits() {
                self.errands.push(Errand::Later(LaterErrand::Pictures));
            }
            self.retire_daily().await;
        }
    }

    /// Lines of others, as far as they open, and how many do not; what is to be written of them.
    fn opened(&self, lines: Vec<String>, changes: &mut Vec<Change>) -> (Vec<Signed>, u32) {
        let mut pulled = Vec::new();
        let mut unreadable = 0;
        // One signature for each run of a phone's lines; what comes alone has its own.
        let opened = run::open_runs(lines.iter().map(String::as_str));
        for (line, opened) in lines.into_iter().zip(opened) {
            match opened.and_then(|opened| opened.signed(&line)) {
                Ok(signed) if signed.dev == *self.signer.device_id() => {}
                Ok(signed) => {
                    changes.push(Change::Other(other(&signed)));
                    pulled.push(signed);
                }
                Err(why) => {
                    let id = format!("pulled {}", jws::hash(&line));
                    changes.push(Change::OtherAside(Aside { id, jws: line, why: why.to_string() }));
                    unreadable += 1;
                }
            }
        }
        (pulled, unreadable)
    }

    fn nothing_waits(&self) -> bool {
        self.ledger.own().iter().all(|own| own.line.standing != Standing::Waiting)
    }

    /// The hub said something by itself.
    pub(super) async fn heard(&mut self, event: HubEvent) {
        let now = self.clock.now();
        self.sync.told = (event != HubEvent::Closed).then_some(now);
        match event {
            // What happened before it opened was not told.
            HubEvent::Log | HubEvent::Open => self.sync.hurry(now),
            HubEvent::Carry(carried) => self.handed_over(carried.text).await,
            HubEvent::Shop { rev } => {
                if self.shop.as_ref().is_none_or(|shop| shop.rev != rev) {
                    self.fetch_shop();
                }
            }
            // What the log had gained would have been told before.
            HubEvent::Still if self.sync.quiet_from.is_some() => {
                self.sync.link = Link::Reached(now);
                self.sync.reached = Some(now);
            }
            HubEvent::Still => {}
            HubEvent::Closed => {
                self.sync.hurry(now + AFTER_STREAM + Span::from_ms(i64::from(self.chance[0]) * 16));
                self.sync.listening = false;
            }
        }
    }
}

/// What the hub will not count, in its words. A gap closes by itself with the next question.
fn reasons(rejected: &[Rejected]) -> Map<u64, String> {
    let lasting = rejected.iter().filter(|entry| entry.seq > 0 && entry.why != Why::Gap);
    lasting.map(|entry| (entry.seq, entry.why.name().to_owned())).collect()
}
