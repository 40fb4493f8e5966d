//! The face of a card: this phone speaks for this member, said by the hub in so few bytes that a code holds it.
//!
//! What others may see of a card, and no more: no sign-offs, no induction. Every phone is handed the faces of all, and
//! shows its own as a code to one that joined the network before this phone joined the shop. The signature covers every
//! byte before it, behind a domain of its own. Whether it counts is asked of [`super::Trust::check`].

use ed25519_dalek::{Signature, Signer as _, SigningKey};

use super::keys::HubKey;
use super::statement::thumbprint;
use super::{Card, CardFault};
use crate::base64url;
use crate::code::packed::{self, Packer, TooLong, Unpacker};
use crate::code::{FACE_BYTES_MAX, PREFIX, base45};
use crate::ids::{DeviceId, PersonId};
use crate::log::jws;
use crate::time::Instant;

/// The longest name that travels, in bytes; a longer one is cut.
pub const NAME_BYTES_MAX: usize = 48;
/// The longest member's id, in bytes; the members file keeps to it.
pub const MEMBER_BYTES_MAX: usize = 24;
/// So many bytes of the key's thumbprint name it.
const KID_BYTES: usize = 9;
/// What is signed starts with this, so that no signature of another kind can pass for a face.
const DOMAIN: &[u8] = b"sweepbell face 1\n";

/// What a card shows to others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The card's number.
    pub number: u32,
    /// Whose it is.
    pub member: PersonId,
    /// What they are called.
    pub name: String,
    /// The phone that speaks for them.
    pub dev: DeviceId,
    /// When the card was made; whole seconds travel.
    pub issued: Instant,
    /// Until when it is good; whole seconds travel.
    pub until: Instant,
}

/// A face: that, signed by the hub.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Face {
    /// What it shows.
    pub shown: Shown,
    /// The start of the name of the key that signed it, base64url.
    pub kid: String,
    signature: [u8; 64],
}

impl Face {
    /// The face of a card, signed.
    pub fn of(card: &Card, key: &SigningKey) -> Result<Self, TooLong> {
        let shown = Shown {
            number: card.number,
            member: card.member.clone(),
            name: cut(&card.name),
            dev: card.dev.clone(),
            issued: whole_seconds(card.issued),
            until: whole_seconds(card.until),
        };
        let kid = thumbprint(key.verifying_key().as_bytes()).get(..KID_BYTES / 3 * 4).unwrap_or_default().to_owned();
        let mut face = Self { shown, kid, signature: [0; 64] };
        face.signature = key.sign(&face.signed_bytes()?).to_bytes();
        Ok(face)
    }

    /// The code's text.
    pub fn write(&self) -> Result<String, TooLong> {
        let mut packer = self.pack()?;
        packer.bytes(&self.signature);
        packer.text(FACE_BYTES_MAX)
    }

    /// Reads a code's text.
    pub fn read(text: &str) -> Option<Self> {
        Self::unpack(&base45::decode(text.strip_prefix(PREFIX)?)?)
    }

    /// Whether this key signed it.
    pub(super) fn signed_by(&self, key: &HubKey) -> Result<(), CardFault> {
        let signed = self.signed_bytes().map_err(|_| CardFault::Unreadable)?;
        let signature = Signature::from_bytes(&self.signature);
        jws::verify_by(&key.public, &signed, &signature).map_err(|_| CardFault::Signature)
    }

    fn signed_bytes(&self) -> Result<Vec<u8>, TooLong> {
        let mut packer = Packer(DOMAIN.to_vec());
        packer.bytes(&self.pack()?.0);
        Ok(packer.0)
    }

    fn pack(&self) -> Result<Packer, TooLong> {
        let shown = &self.shown;
        let fits = |text: &str, max| if text.len() > max { Err(TooLong { bytes: text.len(), max }) } else { Ok(()) };
        fits(shown.member.as_str(), MEMBER_BYTES_MAX)?;
        fits(&shown.name, NAME_BYTES_MAX)?;
        let kid: Option<[u8; KID_BYTES]> = base64url::decode(&self.kid).and_then(|bytes| bytes.try_into().ok());
        let odd = |text: &str| TooLong { bytes: text.len(), max: KID_BYTES };
        let mut packer = Packer::new(packed::FACE);
        packer.bytes(&kid.ok_or_else(|| odd(&self.kid))?);
        packer.bytes(&shown.number.to_be_bytes());
        packer.bytes(&jws::key_bytes(&shown.dev).ok_or_else(|| odd(shown.dev.as_str()))?);
        packer.seconds(shown.issued);
        packer.seconds(shown.until);
        packer.id(shown.member.as_str());
        packer.id(&shown.name);
        Ok(packer)
    }

    /// Reads what [`Face::write`] packed.
    pub(crate) fn unpack(bytes: &[u8]) -> Option<Self> {
        let mut from = Unpacker::new(bytes);
        from.byte().filter(|kind| *kind == packed::FACE)?;
        let kid = base64url::encode(&from.array::<KID_BYTES>()?);
        let number = u32::from_be_bytes(from.array()?);
        let dev = jws::device_of_bytes(&from.array()?);
        let (issued, until) = (from.seconds()?, from.seconds()?);
        let member = PersonId::new(from.named_id().filter(|id| id.len() <= MEMBER_BYTES_MAX)?);
        let name = from.id().filter(|name| name.len() <= NAME_BYTES_MAX)?.to_owned();
        let signature = from.array()?;
        from.end(Self { shown: Shown { number, member, name, dev, issued, until }, kid, signature })
    }
}

/// As much of a name as fits, at the end of a character.
fn cut(name: &str) -> String {
    let end = (0..=NAME_BYTES_MAX.min(name.len())).rev().find(|end| name.is_char_boundary(*end)).unwrap_or_default();
    name.get(..end).unwrap_or_default().to_owned()
}

fn whole_seconds(at: Instant) -> Instant {
    Instant::from_ms(at.ms().div_euclid(1_000) * 1_000)
}
