//! What phones and doors show each other as QR codes, and how a scanned text is understood.
//!
//! Doors and machines carry addresses that any camera app opens ([`door`]); two phones without a network show each
//! other an ask and an answer ([`ask`], [`answer`]) as short binary in [`base45`] behind [`PREFIX`], small enough for
//! a code that reads at arm's length. A text is believed in nothing but its form: who answered, and whether that is
//! a confirmation, is judged by [`answer::accept`].
//!
//! Reading never panics, and what cannot be read says what to do next.

pub mod answer;
pub mod ask;
pub mod base45;
pub mod door;
pub mod packed;

#[cfg(test)]
mod tests;

use crate::ids::{MachineId, RoomId};
use answer::Answer;
use ask::Ask;

/// Stands before the base45 of an ask or an answer: ours, version 1. All of it is in the QR alphanumeric set.
pub const PREFIX: &str = "SWB1:";
/// The most bytes of an answer: with the prefix 221 characters, which QR version 8 holds at error correction level M
/// (ISO/IEC 18004, table of capacities: 8-M takes 221 alphanumeric characters).
pub const ANSWER_BYTES_MAX: usize = 144;
/// The most bytes of an ask: with the prefix 311 characters, which QR version 10 holds at level M. Only the longest
/// ids that a rulebook may have come near it; ids of up to 48 characters stay within version 8.
pub const ASK_BYTES_MAX: usize = 204;
/// The longest text that is looked at, in bytes.
pub const TEXT_BYTES_MAX: usize = 1_024;
const FAMILY: &str = "SWB";

/// A text that was understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Scanned {
    /// A room's door.
    Door {
        /// Which room.
        room: RoomId,
        /// A join code that the door hands out along with it.
        join: Option<String>,
    },
    /// A machine.
    Machine {
        /// Which.
        machine: MachineId,
    },
    /// An invitation to join the shop.
    Join {
        /// The join code.
        code: String,
    },
    /// An operator asks for a buddy.
    Ask(Ask),
    /// A buddy answers.
    Answer(Answer),
}

/// A text that was not.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// It belongs to another shop.
    #[error("{}", self.reason())]
    OtherShop {
        /// Its address, without the path.
        host: String,
    },
    /// A newer app made it.
    #[error("{}", self.reason())]
    Newer,
    /// It is one of ours, but not whole.
    #[error("{}", self.reason())]
    Damaged,
    /// It has nothing to do with this.
    #[error("{}", self.reason())]
    Foreign,
}

impl Unreadable {
    /// Why it cannot be used, for people.
    pub fn reason(&self) -> String {
        match self {
            Self::OtherShop { host } => format!("This code belongs to another shop ({host})."),
            Self::Newer => "This code was made by a newer app.".to_owned(),
            Self::Damaged => "This code did not come across whole.".to_owned(),
            Self::Foreign => "This is not a code of this shop.".to_owned(),
        }
    }

    /// What to do, for people.
    pub const fn next_step(&self) -> &'static str {
        match self {
            Self::OtherShop { .. } => "Scan a code that hangs in this shop.",
            Self::Newer => "Load the newest app, then scan again.",
            Self::Damaged => "Clean the lens, hold still, scan again.",
            Self::Foreign => "Scan the code at the door, or the one on the other phone.",
        }
    }
}

/// Understands a scanned or carried text. `origin` is this shop's address: scheme, host, port if any, no slash at
/// the end.
pub fn read(text: &str, origin: &str) -> Result<Scanned, Unreadable> {
    let text = text.trim();
    if text.len() > TEXT_BYTES_MAX {
        return Err(Unreadable::Foreign);
    }
    match text.strip_prefix(FAMILY) {
        Some(rest) => read_packed(text, rest),
        None => door::read(text, origin),
    }
}

fn read_packed(text: &str, rest: &str) -> Result<Scanned, Unreadable> {
    let Some(body) = text.strip_prefix(PREFIX) else {
        let version = rest.split_once(':').and_then(|(version, _)| version.parse::<u32>().ok());
        return Err(if version.is_some_and(|version| version > 1) { Unreadable::Newer } else { Unreadable::Foreign });
    };
    let bytes = base45::decode(body).ok_or(Unreadable::Damaged)?;
    match bytes.first().copied() {
        Some(packed::ASK) => Ask::unpack(&bytes).map(Scanned::Ask).ok_or(Unreadable::Damaged),
        Some(packed::HERE | packed::LEAVING) => Answer::unpack(&bytes).map(Scanned::Answer).ok_or(Unreadable::Damaged),
        Some(_) => Err(Unreadable::Newer),
        None => Err(Unreadable::Damaged),
    }
}
