//! What a steward's phone and the hub say to each other of who may join: one-time codes, and phones that were taken off.
//!
//! Plain JSON bodies, as in [`super::shop`]. Who may ask for what is the hub's business. A code is told once, to whoever
//! made it, and never again.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::ids::{DeviceId, PersonId};
use crate::json::{FromJson, Unfit, field, field_or_default, from_json};
use crate::time::Instant;

/// What an invite is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InviteKind {
    /// A member's first phone.
    First,
    /// One more phone.
    Another,
    /// A phone in place of one that is lost, which is taken off as soon as the new one has joined.
    Replaces,
}

const KINDS: [(InviteKind, &str); 3] =
    [(InviteKind::First, "first"), (InviteKind::Another, "another"), (InviteKind::Replaces, "replaces")];

impl InviteKind {
    /// The kind of a name.
    pub fn named(name: &str) -> Option<Self> {
        KINDS.iter().find(|(_, known)| *known == name).map(|(kind, _)| *kind)
    }

    /// Its name on the wire.
    pub fn name(self) -> &'static str {
        KINDS.iter().find(|(kind, _)| *kind == self).map_or("", |(_, name)| name)
    }
}

impl FromJson for InviteKind {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_str().and_then(Self::named).ok_or(Unfit("a kind of invite"))
    }
}

/// `POST /api/invites`: a code for this member, please.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct InviteAsked {
    /// Whom it is for.
    pub member: PersonId,
    /// What for.
    pub kind: InviteKind,
    /// In place of which phone, if so.
    #[serde(default)]
    pub replaces: Option<DeviceId>,
    /// How many hours it is good, 24 unless told, 168 at most.
    #[serde(default)]
    pub hours: Option<u32>,
}

/// The answer to [`InviteAsked`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct InviteMade {
    /// What it is called by later.
    pub id: u64,
    /// Whom it is for.
    pub member: PersonId,
    /// The code, as it is typed.
    pub code: String,
    /// The same as an address, for a code to scan.
    pub url: String,
    /// Until when it is good.
    pub until: Instant,
}

/// `GET /api/invites`: those that are open.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct OpenInvites {
    /// The oldest first.
    pub invites: Vec<OpenInvite>,
}

/// One of them; its code is told to nobody any more.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OpenInvite {
    /// What it is called by.
    pub id: u64,
    /// Whom it is for.
    pub member: PersonId,
    /// What for.
    pub kind: InviteKind,
    /// When it was made.
    pub made: Instant,
    /// Until when it is good.
    pub until: Instant,
}

/// `POST /api/invites/revoke`: nobody may use it any more. Answered with 204.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct InviteRevoked {
    /// Which.
    #[serde(deserialize_with = "crate::json::whole_number")]
    pub id: u64,
}

/// `GET /api/devices`: the phones of all members to a steward, one's own to anybody else.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Phones {
    /// In the order they joined.
    pub devices: Vec<PhoneRow>,
}

/// A phone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PhoneRow {
    /// Its id.
    pub dev: DeviceId,
    /// Whose it is.
    pub member: PersonId,
    /// When it joined.
    pub joined: Instant,
    /// When it was taken off, if it was.
    pub revoked: Option<Instant>,
    /// So many lines that it handed in since wait for a steward; told to stewards alone.
    pub late: u32,
}

/// `POST /api/devices/revoke`: this phone speaks for nobody any more. Answered with 204.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PhoneRevoked {
    /// Which.
    pub dev: DeviceId,
}

/// `POST /api/late`: what a phone had not sent when it was taken off. It needs no session: each line is signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LateLines {
    /// Its lines, in order.
    pub lines: Vec<String>,
}

/// The answer to [`LateLines`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LateKept {
    /// How many of that phone's lines lie at the hub now and wait for a steward.
    pub waiting: u64,
}

/// `POST /api/devices/admit`: what this phone handed in after it was taken off is its member's.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LateAdmit {
    /// Which phone.
    pub dev: DeviceId,
}

/// The answer to [`LateAdmit`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LateAdmitted {
    /// So many lines were taken in.
    pub taken: u32,
    /// So many did not follow what the log has of that phone, and are gone.
    pub refused: u32,
}

impl FromJson for PhoneRow {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self {
            dev: field(value, "dev")?,
            member: field(value, "member")?,
            joined: field(value, "joined")?,
            revoked: field(value, "revoked")?,
            // A hub of an earlier release does not tell.
            late: field_or_default(value, "late")?,
        })
    }
}

crate::json::read_as_json!(PhoneRow);

from_json! {
    LateAdmitted { taken, refused }
    InviteMade { id, member, code, url, until }
    OpenInvites { invites }
    OpenInvite { id, member, kind, made, until }
    Phones { devices }
    LateKept { waiting }
}
