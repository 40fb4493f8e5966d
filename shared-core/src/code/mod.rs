//! What phones and doors show each other as QR codes, and how a scanned text is understood.
//!
//! Doors, machines, stops and rounds carry addresses that any camera app opens ([`door`]); two phones without a network show each
//! other an ask, an answer or a card's face ([`ask`], [`answer`], [`crate::card::face`]) as short binary in [`base45`] behind [`PREFIX`], small enough for
//! a code that reads at arm's length. A text is believed in nothing but its form: who answered, and whether that is
//! a confirmation, is judged by [`answer::accept`].
//!
//! Reading never panics, and what cannot be read says what to do next.

pub mod answer;
pub mod ask;
pub mod base45;
pub mod door;
pub mod line;
pub mod packed;

#[cfg(test)]
mod tests;

use crate::card::face::Face;
use crate::ids::{MachineId, RoomId, RoundId, StopId};
use crate::words::Words;
use crate::words::said::code;
use answer::Answer;
use ask::Ask;

/// Stands before the base45 of an ask or an answer: ours, version 1. All of it is in the QR alphanumeric set.
pub const PREFIX: &str = "SWB1:";
/// The most bytes of an answer: with the prefix 223 characters, which QR version 9 holds at error correction level M
/// (ISO/IEC 18004, table of capacities: 9-M takes 262 alphanumeric characters). All but one with a board's code by a buddy
/// of the longest id have 221 at most, which version 8 holds.
pub const ANSWER_BYTES_MAX: usize = 145;
/// The most bytes of an ask: with the prefix 311 characters, which QR version 10 holds at level M. Only the longest
/// ids that a rulebook may have come near it; ids of up to 48 characters stay within version 8.
pub const ASK_BYTES_MAX: usize = 204;
/// The most bytes of a card's face: the same code as an ask's.
pub const FACE_BYTES_MAX: usize = ASK_BYTES_MAX;
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
    /// A stop of the induction walk.
    Stop {
        /// Which.
        stop: StopId,
    },
    /// A round, where it is done.
    Round {
        /// Which.
        round: RoundId,
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
    /// Somebody shows their card.
    Face(Face),
}

/// A text that was not.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// It belongs to another shop.
    #[error("it belongs to another shop, {host}")]
    OtherShop {
        /// Its address, without the path.
        host: String,
    },
    /// A newer app made it.
    #[error("a newer app made it")]
    Newer,
    /// It is one of ours, but not whole.
    #[error("it is not whole")]
    Damaged,
    /// It has nothing to do with this.
    #[error("it is no code of a shop")]
    Foreign,
}

impl Unreadable {
    /// Why it cannot be used, for people.
    pub fn reason(&self, words: &Words) -> String {
        match self {
            Self::OtherShop { host } => code::other_shop(words, host),
            Self::Newer => code::newer(words).to_owned(),
            Self::Damaged => code::damaged(words).to_owned(),
            Self::Foreign => code::foreign(words).to_owned(),
        }
    }

    /// What to do, for people.
    pub fn next_step(&self, words: &Words) -> &'static str {
        match self {
            Self::OtherShop { .. } => code::next_other_shop(words),
            Self::Newer => code::next_newer(words),
            Self::Damaged => code::next_damaged(words),
            Self::Foreign => code::next_foreign(words),
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
        Some(packed::FACE) => Face::unpack(&bytes).map(Scanned::Face).ok_or(Unreadable::Damaged),
        Some(packed::HERE | packed::LEAVING | packed::HERE_BY_BOARD) => {
            Answer::unpack(&bytes).map(Scanned::Answer).ok_or(Unreadable::Damaged)
        }
        Some(_) => Err(Unreadable::Newer),
        None => Err(Unreadable::Damaged),
    }
}
