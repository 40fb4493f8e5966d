//! The operator's ask: "who stands by me?", shown by one phone and scanned by another.
//!
//! Unsigned, for it claims nothing: it carries what the answer must be about (session, operator, room, a number used
//! once) and what the buddy should read before they answer. It holds for [`ASK_MINUTES`] by the operator's own
//! clock alone, so two phones need not agree on the time. DESIGN.md section 4, "Buddy".

use super::ASK_BYTES_MAX;
use super::packed::{self, Packer, TooLong, Unpacker};
use crate::ids::{MachineId, PersonId, RoomId, SessionId};
use crate::time::Instant;

/// An ask is answered within this many minutes of being made, or made again.
pub const ASK_MINUTES: i64 = 5;

/// A number used once: eight bytes of entropy.
pub type Nonce = [u8; 8];

/// An operator asks for a buddy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The operator's session, made by [`SessionId::from_entropy`].
    pub session: SessionId,
    /// Who asks.
    pub operator: PersonId,
    /// Where they are.
    pub room: RoomId,
    /// For one machine, if said.
    pub machine: Option<MachineId>,
    /// Makes this ask unlike any other.
    pub nonce: Nonce,
    /// When it was made, by the operator's clock; whole seconds travel.
    pub issued_at: Instant,
}

impl Ask {
    /// The code's text. Refused when the ids are too long together, or the session's id is not a device's.
    pub fn write(&self) -> Result<String, TooLong> {
        let mut packer = Packer::new(packed::ASK);
        packer.bytes(&packed::session_bytes(&self.session)?);
        packer.bytes(&self.nonce);
        packer.seconds(self.issued_at);
        packer.id(self.operator.as_str());
        packer.id(self.room.as_str());
        packer.id(self.machine.as_ref().map_or("", MachineId::as_str));
        packer.text(ASK_BYTES_MAX)
    }

    /// Reads what [`Ask::write`] packed; nothing longer than it writes.
    pub(super) fn unpack(bytes: &[u8]) -> Option<Self> {
        if bytes.len() > ASK_BYTES_MAX {
            return None;
        }
        let mut from = Unpacker::new(bytes);
        from.byte().filter(|kind| *kind == packed::ASK)?;
        let session = SessionId::from_entropy(from.array()?);
        let nonce = from.array()?;
        let issued_at = from.seconds()?;
        let operator = PersonId::new(from.named_id()?);
        let room = RoomId::new(from.named_id()?);
        let machine = from.id()?;
        let machine = (!machine.is_empty()).then(|| MachineId::new(machine));
        from.end(Self { session, operator, room, machine, nonce, issued_at })
    }

    /// Whether it still holds, by the operator's clock; an ask from the future is one whose clock was set back.
    pub fn holds(&self, now: Instant) -> bool {
        (0..=ASK_MINUTES * crate::time::MINUTE_MS).contains(&(now - self.issued_at).ms())
    }
}
