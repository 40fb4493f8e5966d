//! The phone's half of sync: what to send next, what an answer means, when to try again.
//!
//! One question is in flight at a time. Of its state only `since`, `heard_to` and `shop` are worth keeping across a restart, and
//! not even they must be: the hub's head says where to go on, and what is pulled twice is the same line twice. So
//! the newest answer is believed even where it goes back, as after a hub was restored from yesterday's copy. It must go on
//! from where this phone is: an answer that comes late, to a question of before a restart, would pass over what that
//! restart has lost.
//!
//! Reads no clock and sends nothing: instants and chance are arguments. Nothing here is ever dropped from the log.

use serde::Serialize;
use serde_json::Value;

use super::cursor::Cursor;
use super::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, GoesOn, PROTOCOL, Rejected, Stretch, SyncAnswer, SyncRequest, Why};
use crate::json::{FromJson, Unfit, field, field_or_default};
use crate::log::chain::Head;
use crate::log::jws;
use crate::time::{Instant, Span};

/// The first wait after a failure, in milliseconds; it doubles each time.
pub const BACKOFF_FIRST_MS: i64 = 1_000;
/// No wait is longer, in milliseconds: five minutes.
pub const BACKOFF_MAX_MS: i64 = 300_000;
/// The most sequence numbers declared lost in one question.
const LOST_MAX: usize = 2_000;
const DOUBLINGS_MAX: u32 = 9;

/// The phone's side of the conversation with its hub.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Phone {
    /// The hub keeps this device's entries up to here.
    acked: u64,
    /// The pull cursor.
    since: u64,
    /// The cursor that it had come to before it asked once more from the start; 0 once it has heard all again.
    heard_to: u64,
    /// What was heard of entries to be forgotten.
    forgot: u64,
    /// The shop's revision as last heard.
    shop: String,
    /// It asks as a steward, who is handed the whole log.
    whole: bool,
    /// The last answer went to the end of the log.
    heard_all: bool,
    /// The hub refuses this entry: nothing behind it is sent until it got past.
    blocked_at: Option<u64>,
    /// When the question in flight was asked.
    #[serde(skip)]
    asked_at: Option<Instant>,
    /// Failures in a row.
    #[serde(skip)]
    failures: u32,
}

impl FromJson for Phone {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self {
            acked: field_or_default(value, "acked")?,
            since: field_or_default(value, "since")?,
            heard_to: field_or_default(value, "heard_to")?,
            forgot: field_or_default(value, "forgot")?,
            shop: field_or_default(value, "shop")?,
            whole: field_or_default(value, "whole")?,
            heard_all: field_or_default(value, "heard_all")?,
            blocked_at: field(value, "blocked_at")?,
            asked_at: None,
            failures: 0,
        })
    }
}

crate::json::read_as_json!(Phone);

/// What an answer means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Received {
    /// The hub keeps this device's entries up to here.
    pub acked_to: u64,
    /// Entries that it does not count, each with the reason.
    pub rejected: Vec<Rejected>,
    /// Entries of others, to be opened before they are believed.
    pub pulled: Vec<String>,
    /// Entries of others to be dropped: somebody wanted them erased.
    pub forget: Vec<Stretch>,
    /// Asks and answers for this member, as their codes' texts.
    pub carried: Vec<String>,
    /// Add this to the phone's clock to get the hub's; right to within half of `round_trip`.
    pub clock_offset: Span,
    /// How long question and answer took.
    pub round_trip: Span,
    /// The rulebook or the members changed: fetch them.
    pub shop_changed: bool,
    /// There is more to send or to pull: ask again at once.
    pub more: bool,
    /// The hub's story of this device goes on differently from the phone's own.
    pub story: Story,
}

/// Whether hub and phone tell the same story of this device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Story {
    /// As far as can be seen.
    Same,
    /// The hub has entries that this phone has not, or a different newest one: this key was used elsewhere, or the
    /// phone was put back to an older state. The phone needs a new key; its old entries stay.
    Forked,
}

impl Phone {
    /// The hub keeps this device's entries up to here, as far as the phone has heard.
    pub fn acked(&self) -> u64 {
        self.acked
    }

    /// Whether the last answer went to the end of what this phone is handed. Until one has, what is reckoned from the log
    /// here may lack what somebody has said long ago.
    pub fn heard_all(&self) -> bool {
        self.heard_all
    }

    /// Whether a question is in flight.
    pub fn is_asking(&self) -> bool {
        self.asked_at.is_some()
    }

    /// Whether this phone's member is a steward now. Who has become one asks once more from the start: of what was passed
    /// over before, more is for a steward; and the hub is told what it knows already, for some of that may be gone. Not while a
    /// question is in flight, whose answer would go on from elsewhere.
    pub fn is_stewards(&mut self, steward: bool) {
        if steward == self.whole || self.is_asking() {
            return;
        }
        self.whole = steward;
        if steward {
            if self.heard_to == 0 {
                self.heard_to = self.since;
            }
            (self.since, self.heard_all) = (0, false);
        }
    }

    /// The next question, unless one is in flight. `waiting` are the phone's own entries in order (those that the
    /// hub has are passed over); `lost` the sequence numbers that it can no longer read. With nothing waiting it
    /// still asks for what others said.
    pub fn generate(&mut self, now: Instant, waiting: &[(u64, &str)], lost: &[u64]) -> Option<SyncRequest> {
        if self.is_asking() {
            return None;
        }
        self.asked_at = Some(now);
        let mut bytes = 0;
        let push = waiting
            .iter()
            .filter(|(seq, _)| *seq > self.acked)
            .take_while(|(seq, _)| self.blocked_at.is_none_or(|blocked| *seq <= blocked))
            .take(ENTRIES_MAX)
            .take_while(|(_, jws)| {
                bytes += jws.len();
                bytes <= ENTRY_BYTES_MAX
            })
            .map(|(_, jws)| (*jws).to_owned())
            .collect();
        let lost = lost.iter().copied().filter(|seq| *seq > self.acked).take(LOST_MAX).collect();
        let Self { since, forgot, heard_to, .. } = *self;
        Some(SyncRequest { protocol: PROTOCOL, push, lost, since, forgot, heard_to, apart: true })
    }

    /// Takes the answer to the question in flight; an answer to none (a repeat) changes nothing, nor does one that goes on
    /// from elsewhere: the question stays in flight. `own` is the newest entry that this phone signed.
    pub fn receive(&mut self, now: Instant, answer: SyncAnswer, own: &Head) -> Option<Received> {
        let here = GoesOn { since: self.since, forgot: self.forgot };
        if answer.goes_on.is_some_and(|from| from != here) {
            return None;
        }
        let asked_at = self.asked_at.take()?;
        let round_trip = now - asked_at;
        let halfway = asked_at + Span::from_ms(round_trip.ms() / 2);
        let forked = answer.head.seq > own.seq || (answer.head.seq == own.seq && answer.head.hash != own.hash);
        let moved = answer.head.seq != self.acked;
        let shop_changed = answer.shop != self.shop;
        self.failures = 0;
        self.acked = answer.head.seq;
        self.since = answer.cursor;
        self.forgot = answer.forgot;
        self.heard_all = !answer.more;
        // Behind what it knew before, it asks as everybody does.
        if self.heard_all || Cursor::of(self.since).covers(Cursor::of(self.heard_to)) {
            self.heard_to = 0;
        }
        self.shop = answer.shop;
        // What the hub keeps and found to be unsigned later does not stand in the way of what comes after it.
        let is_kept = |entry: &Rejected| entry.why == Why::Damaged && (1..=answer.head.seq).contains(&entry.seq);
        let blocking = |entry: &&Rejected| !entry.why.set_aside() && entry.why != Why::Gap && !is_kept(entry);
        self.blocked_at =
            answer.rejected.iter().find(blocking).map(|entry| entry.seq.max(self.acked.saturating_add(1)));
        // What is erased while the answer is made may stand in both: it is not taken up to be kept for good.
        let forget = answer.forget;
        let mut pulled = answer.pull;
        pulled.retain(|line| forget.is_empty() || !is_in(&forget, line));
        Some(Received {
            acked_to: self.acked,
            rejected: answer.rejected,
            pulled,
            forget,
            carried: answer.carried,
            clock_offset: answer.hub_now - halfway,
            round_trip,
            shop_changed,
            more: answer.more || (moved && self.acked < own.seq && self.blocked_at.is_none()),
            story: if forked { Story::Forked } else { Story::Same },
        })
    }

    /// The question in flight came to nothing. Gives the wait before the next: anything up to a bound that doubles
    /// with each failure, so that phones do not return in step. `jitter` is any 32 bits of chance.
    pub fn failed(&mut self, jitter: u32) -> Span {
        self.asked_at = None;
        let bound = (BACKOFF_FIRST_MS << self.failures.min(DOUBLINGS_MAX)).min(BACKOFF_MAX_MS);
        self.failures = self.failures.saturating_add(1);
        Span::from_ms((bound * i64::from(jitter)) >> 32)
    }

    /// The network came back: the next failure waits as briefly as the first.
    pub fn online(&mut self) {
        self.failures = 0;
    }
}

/// Whether a line says that it stands in one of these stretches.
fn is_in(stretches: &[Stretch], line: &str) -> bool {
    let Ok(apart) = jws::take_apart(line) else { return false };
    let claimed = apart.into_sealed().link;
    let mut of_dev = stretches.iter().filter(|stretch| stretch.dev == claimed.dev);
    of_dev.any(|stretch| (stretch.from..=stretch.to).contains(&claimed.seq))
}
