//! The bytes inside an ask or an answer: fixed fields as they are, ids with their length before them.
//!
//! The first byte says which it is. A reader takes exactly what a writer wrote: nothing may be left over, so that
//! two different codes never mean the same. Numbers are big-endian.

use super::{PREFIX, base45};
use crate::ids::SessionId;
use crate::time::Instant;

/// An ask.
pub const ASK: u8 = 1;
/// An answer: the buddy is in the room.
pub const HERE: u8 = 2;
/// An answer: the buddy is leaving.
pub const LEAVING: u8 = 3;

/// The face of a card.
pub const FACE: u8 = 4;
/// An answer: the buddy is in the room, and has read the board's code.
pub const HERE_BY_BOARD: u8 = 5;
/// A signed line of the log.
pub const LINE: u8 = 6;

/// What is asked or answered does not fit a code that reads at arm's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the ids are too long for a code: it would take {bytes} bytes, at most {max} fit")]
pub struct TooLong {
    /// How many bytes it would take.
    pub bytes: usize,
    /// The most that fit.
    pub max: usize,
}

/// Bytes being written.
pub(crate) struct Packer(pub(crate) Vec<u8>);

impl Packer {
    pub(crate) fn new(kind: u8) -> Self {
        Self(vec![kind])
    }

    pub(crate) fn bytes(&mut self, bytes: &[u8]) {
        self.0.extend_from_slice(bytes);
    }

    /// An id with its length before it; one of 256 bytes or more can never be sent, and is caught by `text`.
    pub(crate) fn id(&mut self, id: &str) {
        self.0.push(u8::try_from(id.len()).unwrap_or(u8::MAX));
        self.bytes(id.as_bytes());
    }

    /// Whole seconds since 1970, in four bytes: enough until the year 2106.
    pub(crate) fn seconds(&mut self, at: Instant) {
        let seconds = at.ms().div_euclid(1_000).clamp(0, i64::from(u32::MAX));
        self.bytes(&u32::try_from(seconds).unwrap_or_default().to_be_bytes());
    }

    /// A code of a board: below a million, in three bytes.
    pub(super) fn figures(&mut self, code: u32) {
        let [_, rest @ ..] = code.to_be_bytes();
        self.bytes(&rest);
    }

    pub(crate) fn text(&self, max: usize) -> Result<String, TooLong> {
        if self.0.len() > max {
            return Err(TooLong { bytes: self.0.len(), max });
        }
        let mut text = String::from(PREFIX);
        base45::encode_onto(&mut text, &self.0);
        Ok(text)
    }
}

/// Bytes being read.
pub(crate) struct Unpacker<'a>(&'a [u8]);

impl<'a> Unpacker<'a> {
    pub(crate) fn new(bytes: &'a [u8]) -> Self {
        Self(bytes)
    }

    pub(crate) fn array<const N: usize>(&mut self) -> Option<[u8; N]> {
        let (taken, rest) = self.0.split_first_chunk()?;
        self.0 = rest;
        Some(*taken)
    }

    pub(crate) fn byte(&mut self) -> Option<u8> {
        self.array::<1>().map(|[byte]| byte)
    }

    pub(crate) fn id(&mut self) -> Option<&'a str> {
        let length = usize::from(self.byte()?);
        let (id, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        std::str::from_utf8(id).ok()
    }

    pub(crate) fn named_id(&mut self) -> Option<&'a str> {
        self.id().filter(|id| !id.is_empty())
    }

    pub(crate) fn seconds(&mut self) -> Option<Instant> {
        self.array().map(|bytes| Instant::from_ms(i64::from(u32::from_be_bytes(bytes)) * 1_000))
    }

    /// A code of a board; three bytes may say more than a board ever shows.
    pub(super) fn figures(&mut self) -> Option<u32> {
        let [a, b, c] = self.array()?;
        Some(u32::from_be_bytes([0, a, b, c])).filter(|code| *code < 1_000_000)
    }

    /// Gives the value only if nothing is left over.
    pub(crate) fn end<T>(&self, value: T) -> Option<T> {
        self.0.is_empty().then_some(value)
    }
}

/// The eight bytes of a session's id; one that no device made does not fit.
pub(crate) fn session_bytes(session: &SessionId) -> Result<[u8; 8], TooLong> {
    let digits = session.as_str();
    let ours = digits.len() == 16 && digits.bytes().all(|digit| matches!(digit, b'0'..=b'9' | b'a'..=b'f'));
    let bytes = ours.then(|| u64::from_str_radix(digits, 16).ok().map(u64::to_be_bytes)).flatten();
    bytes.ok_or(TooLong { bytes: digits.len(), max: 16 })
}
