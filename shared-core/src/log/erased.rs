//! What is left of an entry whose body was erased: its place and its hash, so that the chain before and behind it stays whole.
//!
//! In an exported log it stands where the line stood, as `{"erased":{"dev":..,"seq":..,"hash":..}}`. The hash is that of
//! the whole signed line; the signature in it is the salt: whoever guesses what the line said cannot make sure without it.
//! That an entry stood there is vouched for by the next one of its device, which names it by its hash; by nobody but the
//! hub if it was the last.

use serde::{Deserialize, Serialize};

use crate::ids::{DeviceId, SessionId};

/// What is left of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Erased {
    /// The device that signed it.
    pub dev: DeviceId,
    /// Its sequence number, from 1.
    pub seq: u64,
    /// Its [`super::jws::hash`].
    pub hash: String,
    /// Its session, where it is somebody else's and was erased because it named a person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub session: Option<SessionId>,
}

/// Such a line, as it is written.
#[derive(Serialize, Deserialize)]
struct Line {
    erased: Erased,
}

impl Erased {
    /// As a line of a log.
    pub fn line(&self) -> String {
        serde_json::to_string(&Line { erased: self.clone() }).unwrap_or_default()
    }

    /// Reads a line of a log; nothing if it is not one of these.
    pub fn read(line: &str) -> Option<Self> {
        serde_json::from_str::<Line>(line).ok().map(|line| line.erased)
    }
}
