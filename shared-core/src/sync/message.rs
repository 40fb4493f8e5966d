//! What phone and hub say to each other, as JSON.
//!
//! One question and one answer, and both may be lost, repeated or cut short without harm. Unknown fields are passed
//! over, so that either side may learn new ones; a protocol that cannot be spoken is told apart from damage, because
//! a person can do something about it (load the newer app, or update the hub).
//!
//! Carries entries as the signed lines they are. Knows no transport.

use std::fmt::Display;

use serde::{Deserialize, Serialize, de::DeserializeOwned};

use serde_json::Value;

use super::apart;
use crate::ids::DeviceId;
use crate::json::{self, FromJson, Unfit, field, field_or_default};
use crate::log::chain::Head;
use crate::time::Instant;
use crate::words::Words;
use crate::words::said::entry;

/// The protocol spoken here.
pub const PROTOCOL: u32 = 1;
/// The most entries in one message.
pub const ENTRIES_MAX: usize = 200;
/// The most bytes of entries in one message.
pub const ENTRY_BYTES_MAX: usize = 256 * 1024;
/// The longest message that is read: full of entries, with quotes, commas and the rest.
pub const MESSAGE_BYTES_MAX: usize = ENTRY_BYTES_MAX + 64 * 1024;

/// What a phone asks of its hub.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SyncRequest {
    /// [`PROTOCOL`].
    pub protocol: u32,
    /// The phone's next entries, in order.
    #[serde(default)]
    pub push: Vec<String>,
    /// Sequence numbers of entries that the phone itself can no longer read.
    #[serde(default, deserialize_with = "json::whole_numbers")]
    pub lost: Vec<u64>,
    /// The cursor of the last answer; 0 from the start.
    #[serde(default, deserialize_with = "json::whole_number")]
    pub since: u64,
    /// The last answer's `forgot`; 0 from the start.
    #[serde(default, deserialize_with = "json::whole_number")]
    pub forgot: u64,
    /// Of a phone that asks once more from the start: the cursor that it had come to before. It knows lines up to there, and of
    /// some the end may be gone. 0 of any other, and of one that has come past it.
    #[serde(default, deserialize_with = "json::whole_number", skip_serializing_if = "is_zero")]
    pub heard_to: u64,
    /// Whether lines may be taken apart on the way ([`super::apart`]); a hub that knows nothing of it passes this over.
    #[serde(default)]
    pub apart: bool,
}

/// What the hub answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SyncAnswer {
    /// [`PROTOCOL`].
    pub protocol: u32,
    /// From where the question asked to go on; a hub of before this was said leaves it out.
    pub goes_on: Option<GoesOn>,
    /// The hub's clock when it answered.
    pub hub_now: Instant,
    /// The newest entry of this device that the hub keeps; the phone goes on behind it.
    pub head: Head,
    /// Entries of this question that the hub does not count, each with the reason.
    pub rejected: Vec<Rejected>,
    /// Entries of others, oldest first.
    pub pull: Vec<String>,
    /// What to ask `since` next time.
    pub cursor: u64,
    /// Entries of others that were erased at somebody's wish: to be forgotten here too.
    pub forget: Vec<Stretch>,
    /// What to ask `forgot` next time.
    pub forgot: u64,
    /// Whether there is more to pull at once.
    pub more: bool,
    /// Asks and answers of other phones for this member, as their codes' texts.
    pub carried: Vec<String>,
    /// A tag that changes when the rulebook or the members change.
    pub shop: String,
}

impl FromJson for SyncAnswer {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self {
            protocol: field(value, "protocol")?,
            goes_on: field(value, "goes_on")?,
            hub_now: field(value, "hub_now")?,
            head: field(value, "head")?,
            rejected: field(value, "rejected")?,
            pull: apart::lines_of(value).ok_or(Unfit("lines"))?,
            cursor: field_or_default(value, "cursor")?,
            forget: field(value, "forget")?,
            forgot: field_or_default(value, "forgot")?,
            more: field(value, "more")?,
            carried: field(value, "carried")?,
            shop: field_or_default(value, "shop")?,
        })
    }
}

json::read_as_json!(SyncAnswer);

/// From where a question asks to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct GoesOn {
    /// [`SyncRequest::since`].
    pub since: u64,
    /// [`SyncRequest::forgot`].
    pub forgot: u64,
}

json::from_json! { GoesOn { since, forgot } }

/// Entries of one device, one after the other.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Stretch {
    /// The device that signed them.
    pub dev: DeviceId,
    /// The first one's sequence number.
    pub from: u64,
    /// The last one's.
    pub to: u64,
}

json::from_json! { Stretch { dev, from, to } }

/// An entry that the hub does not count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Rejected {
    /// Its sequence number; 0 when it could not even be read.
    pub seq: u64,
    /// Why.
    pub why: Why,
}

json::from_json! { Rejected { seq, why } }

/// Why an entry is not counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// The line was changed, or is no signed entry at all.
    Damaged,
    /// Another device signed it.
    OtherDevice,
    /// Entries before it are missing and were not declared lost.
    Gap,
    /// There is another entry in its place, or before it.
    Fork,
    /// It was declared lost, and the log went on without it.
    DeclaredLost,
    /// It speaks for somebody whose phone this is not.
    OtherMember,
    /// It is signed and in order, but says nothing that can be read.
    Unreadable,
    /// It says what its member may not say.
    NotAllowed,
    /// A reason of a newer hub.
    Unknown,
}

/// All of them, each with the name that it has on the wire and in a phone's journal.
const WHYS: [(Why, &str); 9] = [
    (Why::Damaged, "damaged"),
    (Why::OtherDevice, "other_device"),
    (Why::Gap, "gap"),
    (Why::Fork, "fork"),
    (Why::DeclaredLost, "declared_lost"),
    (Why::OtherMember, "other_member"),
    (Why::Unreadable, "unreadable"),
    (Why::NotAllowed, "not_allowed"),
    (Why::Unknown, "unknown"),
];

impl FromJson for Why {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self::named(value.as_str().ok_or(Unfit("a reason"))?).unwrap_or(Self::Unknown))
    }
}

json::read_as_json!(Why);

impl Why {
    /// The reason of a name.
    pub fn named(name: &str) -> Option<Self> {
        WHYS.iter().find(|(_, known)| *known == name).map(|(why, _)| *why)
    }

    /// Its name.
    pub fn name(self) -> &'static str {
        WHYS.iter().find(|(why, _)| *why == self).map_or("", |(_, name)| name)
    }

    /// Whether the hub keeps the entry all the same and the log goes on behind it.
    pub const fn set_aside(self) -> bool {
        matches!(self, Self::OtherMember | Self::Unreadable | Self::NotAllowed)
    }

    /// The reason, for people.
    pub fn reason(self, words: &Words) -> &'static str {
        match self {
            Self::Damaged => entry::damaged(words),
            Self::OtherDevice => entry::other_device(words),
            Self::Gap => entry::gap(words),
            Self::Fork => entry::fork(words),
            Self::DeclaredLost => entry::declared_lost(words),
            Self::OtherMember => entry::other_member(words),
            Self::Unreadable => entry::unreadable(words),
            Self::NotAllowed => entry::not_allowed(words),
            Self::Unknown => entry::unknown(words),
        }
    }

    /// The next step, for people.
    pub fn next_step(self, words: &Words) -> &'static str {
        match self {
            Self::Damaged | Self::DeclaredLost | Self::OtherMember => entry::next_damaged(words),
            Self::OtherDevice => entry::next_other_device(words),
            Self::Gap => entry::next_gap(words),
            Self::Fork => entry::next_fork(words),
            Self::NotAllowed => entry::next_not_allowed(words),
            Self::Unreadable | Self::Unknown => entry::next_unreadable(words),
        }
    }
}

/// Why a message cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MessageFault {
    /// It is longer than [`MESSAGE_BYTES_MAX`].
    #[error("the message is {bytes} bytes long, at most {MESSAGE_BYTES_MAX} are taken")]
    TooLong {
        /// Its length.
        bytes: usize,
    },
    /// The other side speaks a newer protocol.
    #[error("the other side speaks protocol {theirs}, this one {PROTOCOL}: update this side")]
    Newer {
        /// Theirs.
        theirs: u32,
    },
    /// The other side speaks a protocol that is no longer spoken.
    #[error("the other side speaks protocol {theirs}, this one {PROTOCOL}: update the other side")]
    Older {
        /// Theirs.
        theirs: u32,
    },
    /// It was cut short, or is something else.
    #[error("not a sync message: {why}")]
    Damaged {
        /// What the JSON reader says.
        why: String,
    },
}

/// For serde: what is not written.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_zero(number: &u64) -> bool {
    *number == 0
}

impl SyncRequest {
    /// Reads a phone's question.
    pub fn read(json: &str) -> Result<Self, MessageFault> {
        read(json)
    }

    /// Writes it.
    pub fn write(&self) -> String {
        write(self)
    }

    /// The cursor up to which this phone knows the log, from wherever it asks.
    pub fn knows_to(&self) -> u64 {
        if self.heard_to > 0 { self.heard_to } else { self.since }
    }

    /// From where it asks to go on, for the answer.
    pub fn goes_on(&self) -> GoesOn {
        GoesOn { since: self.since, forgot: self.forgot }
    }
}

impl SyncAnswer {
    /// An answer with nothing in it yet.
    pub fn new(hub_now: Instant, head: Head, shop: impl Into<String>) -> Self {
        Self {
            protocol: PROTOCOL,
            goes_on: None,
            hub_now,
            head,
            rejected: Vec::new(),
            pull: Vec::new(),
            cursor: 0,
            forget: Vec::new(),
            forgot: 0,
            more: false,
            carried: Vec::new(),
            shop: shop.into(),
        }
    }

    /// Reads a hub's answer.
    pub fn read(json: &str) -> Result<Self, MessageFault> {
        read(json)
    }

    /// Writes it.
    pub fn write(&self) -> String {
        write(self)
    }
}

/// Only the protocol is read first: the rest of another protocol's message may be anything.
struct Opening {
    protocol: u32,
}

json::from_json! { Opening { protocol } }

fn read<T: DeserializeOwned>(json: &str) -> Result<T, MessageFault> {
    if json.len() > MESSAGE_BYTES_MAX {
        return Err(MessageFault::TooLong { bytes: json.len() });
    }
    let message: Value = serde_json::from_str(json).map_err(damaged)?;
    let Opening { protocol: theirs } = Opening::from_json(&message).map_err(damaged)?;
    if theirs > PROTOCOL {
        return Err(MessageFault::Newer { theirs });
    }
    if theirs < PROTOCOL {
        return Err(MessageFault::Older { theirs });
    }
    serde_json::from_value(message).map_err(damaged)
}

fn write<T: Serialize>(message: &T) -> String {
    serde_json::to_string(message).expect("a message is always JSON")
}

fn damaged(fault: impl Display) -> MessageFault {
    MessageFault::Damaged { why: fault.to_string() }
}
