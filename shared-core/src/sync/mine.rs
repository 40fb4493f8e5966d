//! What the hub holds about one person: theirs to see, to take along and to have erased.
//!
//! The journal of their own phone is theirs already and is not repeated here; what was declined at the door and what noise
//! and vibration a day brought never reach the hub.

use serde::{Deserialize, Serialize};

use super::invite::PhoneRow;
use crate::ids::PersonId;
use crate::json::from_json;
use crate::members::Member;
use crate::time::Instant;

/// `GET /api/mine`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Mine {
    /// Their row of the members file, which a steward writes.
    pub member: Option<Member>,
    /// The log is kept so many days.
    pub retention_days: u32,
    /// Their phones.
    pub phones: Vec<PhoneRow>,
    /// Whether figures of theirs can be checked.
    pub figures: bool,
    /// Whether an address is kept at which a phone of theirs is rung.
    pub rung: bool,
    /// One-time codes that were made for them.
    pub codes: Vec<CodeMade>,
    /// Lines that their phones signed, oldest first.
    pub lines: Vec<String>,
    /// Lines of others that name them as a buddy.
    pub naming: Vec<String>,
    /// The hashes of pictures that their phones handed over; each at `/api/picture/` and its hash.
    pub pictures: Vec<String>,
    /// What a phone of theirs handed in after it was taken off.
    pub late: Vec<String>,
    /// So many of these lines are in force and would stay.
    pub stays: u32,
}

/// A one-time code, without the code.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CodeMade {
    /// When it was made.
    pub made: Instant,
    /// Until when it is good.
    pub until: Instant,
    /// Whether a phone joined with it.
    pub used: bool,
}

/// `POST /api/erase`: what is held about somebody is to be erased, as far as nothing of it is in force.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct EraseAsked {
    /// About whom; oneself if nobody is named. About others for a steward alone.
    #[serde(default)]
    pub member: Option<PersonId>,
    /// They are no member any more: their phones are taken off too.
    #[serde(default)]
    pub leaving: bool,
}

/// The answer to [`EraseAsked`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ErasedNow {
    /// So many lines were erased.
    pub erased: u32,
    /// So many are in force and stay.
    pub stays: u32,
}

from_json! {
    Mine { member, retention_days, phones, figures, rung, codes, lines, naming, pictures, late, stays }
    CodeMade { made, until, used }
    ErasedNow { erased, stays }
}
