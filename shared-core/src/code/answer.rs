//! The buddy's answer: "I am in the room with you", or "I am leaving", signed by the buddy's phone.
//!
//! The signature covers the answer and what it answers: session, number used once, operator and room. So an answer
//! cannot be moved to another session, room or person, nor used twice. [`accept`] says which check failed in words a
//! person can act on. DESIGN.md section 4, "Buddy".
//!
//! Proves that this phone answered this ask. That its owner held it, and looked, is what the shop asks of people.

use ed25519_dalek::Signature;

use super::ask::{Ask, Nonce};
use super::packed::{self, Packer, TooLong, Unpacker};
use super::{ANSWER_BYTES_MAX, PREFIX, base45};
use crate::entry::Given;
use crate::ids::{DeviceId, PersonId, RoomId, SessionId};
use crate::in_room::RoomKey;
use crate::log::jws;
use crate::ordered::Set;
use crate::time::Instant;
use crate::words::Words;
use crate::words::said::answer;

/// The longest id of a buddy, in bytes; the members file keeps to it.
pub const BUDDY_BYTES_MAX: usize = 24;
/// What is signed starts with this, so that no signature of another kind can pass for an answer.
const DOMAIN: &[u8] = b"sweepbell buddy answer 1\n";

/// What the buddy says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// I am in the room.
    Here,
    /// I am leaving.
    Leaving,
}

/// An answer before it is signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// What the buddy says.
    pub kind: Kind,
    /// The session it is about.
    pub session: SessionId,
    /// The ask's number.
    pub nonce: Nonce,
    /// When, by the buddy's clock; whole seconds travel. Told, never reckoned with.
    pub at: Instant,
    /// Who says so.
    pub buddy: PersonId,
    /// The phone that signs.
    pub device: DeviceId,
    /// What the room's board showed, if the buddy read it there; they are here, then, and not leaving.
    pub board: Option<u32>,
}

/// A buddy's answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// What it says.
    pub said: Draft,
    /// The phone's signature over [`Draft::signing_input`].
    pub signature: [u8; 64],
}

/// An answer that counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// Who.
    pub buddy: PersonId,
    /// What they say.
    pub kind: Kind,
    /// What shows that they are in the room.
    pub given: Given,
}

/// Why an answer does not count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AnswerFault {
    /// The ask is older than [`super::ask::ASK_MINUTES`].
    #[error("the ask has run out")]
    AskTooOld,
    /// It answers another ask.
    #[error("it answers another ask")]
    OtherAsk,
    /// It was used before.
    #[error("it was used before")]
    UsedBefore,
    /// The operator answers themself.
    #[error("the operator answers themself")]
    Oneself,
    /// The signature is not that phone's over this answer to this ask, in this room.
    #[error("the signature does not hold")]
    Signature,
    /// Nobody here knows that phone.
    #[error("the phone is unknown")]
    UnknownPhone,
    /// The board of this room did not show that code just now.
    #[error("the board did not show that code")]
    BoardCode,
    /// The phone is somebody else's.
    #[error("the phone is somebody else's")]
    OtherPerson,
}

impl AnswerFault {
    /// Why, for people.
    pub fn reason(self, words: &Words) -> &'static str {
        match self {
            Self::AskTooOld => answer::ask_too_old(words),
            Self::OtherAsk => answer::other_ask(words),
            Self::UsedBefore => answer::used_before(words),
            Self::Oneself => answer::oneself(words),
            Self::Signature => answer::signature(words),
            Self::UnknownPhone => answer::unknown_phone(words),
            Self::OtherPerson => answer::other_person(words),
            Self::BoardCode => answer::board_code(words),
        }
    }

    /// What to do, for people.
    pub fn next_step(self, words: &Words) -> &'static str {
        match self {
            Self::AskTooOld | Self::UsedBefore => answer::next_ask_too_old(words),
            Self::OtherAsk => answer::next_other_ask(words),
            Self::Oneself => answer::next_oneself(words),
            Self::Signature => answer::next_signature(words),
            Self::UnknownPhone => answer::next_unknown_phone(words),
            Self::OtherPerson => answer::next_other_person(words),
            Self::BoardCode => answer::next_board_code(words),
        }
    }
}

impl Draft {
    /// The answer to an ask, for `device` to sign.
    pub fn to(ask: &Ask, kind: Kind, at: Instant, buddy: PersonId, device: DeviceId) -> Self {
        Self { kind, session: ask.session.clone(), nonce: ask.nonce, at, buddy, device, board: None }
    }

    /// The same, with the code that the buddy read off the board.
    #[must_use]
    pub fn by_board(self, code: Option<u32>) -> Self {
        Self { board: code.filter(|_| self.kind == Kind::Here), ..self }
    }

    /// The bytes to sign: this answer, and what of the ask it does not repeat.
    pub fn signing_input(&self, ask: &Ask) -> Result<Vec<u8>, TooLong> {
        self.signed_bytes(&ask.operator, &ask.room)
    }

    fn signed_bytes(&self, operator: &PersonId, room: &RoomId) -> Result<Vec<u8>, TooLong> {
        let mut packer = Packer(DOMAIN.to_vec());
        packer.bytes(&self.pack()?.0);
        packer.id(operator.as_str());
        packer.id(room.as_str());
        Ok(packer.0)
    }

    /// The answer, with the signature.
    pub fn assemble(self, signature: [u8; 64]) -> Answer {
        Answer { said: self, signature }
    }

    fn pack(&self) -> Result<Packer, TooLong> {
        let mut packer = Packer::new(match (self.kind, self.board) {
            (Kind::Here, Some(_)) => packed::HERE_BY_BOARD,
            (Kind::Here, None) => packed::HERE,
            (Kind::Leaving, _) => packed::LEAVING,
        });
        packer.bytes(&packed::session_bytes(&self.session)?);
        packer.bytes(&self.nonce);
        packer.seconds(self.at);
        if let (Kind::Here, Some(code)) = (self.kind, self.board) {
            packer.figures(code);
        }
        if self.buddy.as_str().len() > BUDDY_BYTES_MAX {
            return Err(TooLong { bytes: self.buddy.as_str().len(), max: BUDDY_BYTES_MAX });
        }
        packer.id(self.buddy.as_str());
        packer.bytes(&jws::key_bytes(&self.device).ok_or(TooLong { bytes: self.device.as_str().len(), max: 43 })?);
        Ok(packer)
    }
}

impl Answer {
    /// The code's text.
    pub fn write(&self) -> Result<String, TooLong> {
        let mut packer = self.said.pack()?;
        packer.bytes(&self.signature);
        packer.text(ANSWER_BYTES_MAX)
    }

    /// Reads a code's text, as the log keeps it for proof.
    pub fn read(text: &str) -> Option<Self> {
        Self::unpack(&base45::decode(text.strip_prefix(PREFIX)?)?)
    }

    /// Whether its phone signed it for that operator in that room: what can still be asked of an answer that a log
    /// keeps as proof, when the ask is gone. Whose phone it is, and which session it is about, stand in `said`.
    pub fn is_signed_for(&self, operator: &PersonId, room: &RoomId) -> bool {
        let signature = Signature::from_bytes(&self.signature);
        let signed = |input: Vec<u8>| jws::verify(&self.said.device, &input, &signature).is_ok();
        self.said.signed_bytes(operator, room).is_ok_and(signed)
    }

    /// Reads what [`Answer::write`] packed.
    pub(super) fn unpack(bytes: &[u8]) -> Option<Self> {
        let mut from = Unpacker::new(bytes);
        let (kind, by_board) = match from.byte()? {
            packed::HERE => (Kind::Here, false),
            packed::HERE_BY_BOARD => (Kind::Here, true),
            packed::LEAVING => (Kind::Leaving, false),
            _ => return None,
        };
        let session = SessionId::from_entropy(from.array()?);
        let nonce = from.array()?;
        let at = from.seconds()?;
        let board = if by_board { Some(from.figures()?) } else { None };
        let buddy = from.named_id().filter(|buddy| buddy.len() <= BUDDY_BYTES_MAX)?;
        let device = jws::device_of_bytes(&from.array()?);
        let signature = from.array()?;
        let said = Draft { kind, session, nonce, at, buddy: PersonId::new(buddy), device, board };
        from.end(Self { said, signature })
    }
}

/// Judges an answer to an ask of one's own. `person_of` knows whose each phone is; `used` are the numbers of answers
/// accepted before, to which the caller adds this one's when it counts. `board` is the key of the room's board, if one
/// hangs there, and what the hub's clock says now as far as this phone knows; without it a code that was read off one is nothing but the buddy's word.
pub fn accept(
    answer: &Answer,
    ask: &Ask,
    now: Instant,
    me: &PersonId,
    person_of: &dyn Fn(&DeviceId) -> Option<PersonId>,
    used: &Set<Nonce>,
    board: Option<(&RoomKey, Instant)>,
) -> Result<Accepted, AnswerFault> {
    let said = &answer.said;
    if said.session != ask.session || said.nonce != ask.nonce {
        return Err(AnswerFault::OtherAsk);
    }
    if used.contains(&said.nonce) {
        return Err(AnswerFault::UsedBefore);
    }
    if !ask.holds(now) {
        return Err(AnswerFault::AskTooOld);
    }
    if said.buddy == *me || said.buddy == ask.operator {
        return Err(AnswerFault::Oneself);
    }
    if !answer.is_signed_for(&ask.operator, &ask.room) {
        return Err(AnswerFault::Signature);
    }
    let buddy = match person_of(&said.device) {
        None => return Err(AnswerFault::UnknownPhone),
        Some(person) if person != said.buddy => return Err(AnswerFault::OtherPerson),
        Some(buddy) => buddy,
    };
    let given = match (said.board, board) {
        (Some(code), Some((key, hub_now))) if key.showed(code, hub_now) => Given::InTheRoom,
        (Some(_), Some(_)) => return Err(AnswerFault::BoardCode),
        _ => Given::OnTheirWord,
    };
    Ok(Accepted { buddy, kind: said.kind, given })
}
