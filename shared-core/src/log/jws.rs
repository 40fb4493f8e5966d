//! An entry, signed: JWS compact (RFC 7515 section 3.1) with `EdDSA` over Ed25519 (RFC 8037 section 3.1).
//!
//! The payload is the entry's body and its link: `dev`, `seq`, `prev`, `book`. `dev` is the public key itself, so a
//! line verifies with no list of keys. One header is written and one is read, `{"alg":"EdDSA"}`: there is nothing to
//! negotiate, hence nothing to trick. The text is hashed as it stands and never written again by a reader.
//!
//! Signing comes in two halves, [`signing_input`] and [`assemble`], because a phone's key lives where this program
//! cannot reach it and signs in its own time. Keeps no key; [`crate::log::chain`] judges the order.

use ed25519_dalek::{Signature, Signer as _, SigningKey, VerifyingKey};
use sha2::{Digest as _, Sha256};

use super::fields::{Fields, Line};
use super::wire::{self, BODY_BYTES_MAX, WireFault};
use crate::base64url;
use crate::entry::Entry;
use crate::ids::{BookId, DeviceId};

/// The longest line that is read, in bytes: the longest payload, in base64url, with header and signature.
pub const JWS_BYTES_MAX: usize = HEADER.len() + 1 + PAYLOAD_BYTES_MAX.div_ceil(3) * 4 + 1 + SIGNATURE_CHARS;
/// The longest payload in bytes: the longest body and its link, whose fields are bounded each.
pub const PAYLOAD_BYTES_MAX: usize = BODY_BYTES_MAX + 512;
/// The largest sequence number: the largest integer that every JSON reader keeps whole (RFC 8259 section 6).
pub const SEQ_MAX: u64 = (1 << 53) - 1;

/// base64url of `{"alg":"EdDSA"}`; the same in RFC 8037 Appendix A.4.
const HEADER: &str = "eyJhbGciOiJFZERTQSJ9";
/// How long a signature is in a line.
pub const SIGNATURE_CHARS: usize = 86;
const HASH_CHARS: usize = 43;

/// Where an entry stands: whose, which, after what, and under which rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The device that signs: its public key.
    pub dev: DeviceId,
    /// Its sequence number, from 1.
    pub seq: u64,
    /// [`hash`] of the device's previous line, "" for the first.
    pub prev: String,
    /// The rulebook it happened under.
    pub book: BookId,
}

/// A line of a signed log that was opened: its signature is good.
#[derive(Clone, Debug, PartialEq)]
pub struct Signed {
    /// The line as it stands.
    pub jws: String,
    /// The device that signed it.
    pub dev: DeviceId,
    /// Its sequence number, from 1.
    pub seq: u64,
    /// [`hash`] of the device's previous line, "" for the first.
    pub prev: String,
    /// The rulebook it happened under.
    pub book: BookId,
    /// What it says.
    pub entry: Entry,
}

/// A line whose signature and link are good, whatever its body says.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealed {
    /// Where it stands.
    pub link: Link,
    /// What it says, or why that cannot be read.
    pub body: Result<Entry, WireFault>,
}

/// A line taken apart: all of it is good but its signature, which nobody has checked.
#[derive(Clone, Debug)]
pub struct Unchecked<'a> {
    sealed: Sealed,
    input: &'a str,
    signature: Signature,
}

impl Unchecked<'_> {
    /// Where it says it stands.
    pub fn link(&self) -> &Link {
        &self.sealed.link
    }

    /// Checks its own signature, against the key that it names.
    pub fn check(&self) -> Result<(), JwsFault> {
        verify(&self.sealed.link.dev, self.input.as_bytes(), &self.signature)
    }

    /// What is in it, for whoever checked it, or another line that names it.
    pub fn into_sealed(self) -> Sealed {
        self.sealed
    }
}

/// Why a line is not a signed entry.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum JwsFault {
    /// It is longer than [`JWS_BYTES_MAX`].
    #[error("the line is {bytes} bytes long, at most {JWS_BYTES_MAX} are taken")]
    TooLong {
        /// Its length.
        bytes: usize,
    },
    /// It is not three parts with two dots between.
    #[error("not a JWS compact: three parts with two dots between are needed")]
    NotThreeParts,
    /// Its header is not exactly ours.
    #[error("the header is not exactly {{\"alg\":\"EdDSA\"}}")]
    Header,
    /// A part is not base64url without padding, in its one canonical form.
    #[error("the {part} is not canonical base64url without padding")]
    Base64 {
        /// Which part.
        part: &'static str,
    },
    /// The payload is not UTF-8.
    #[error("the payload is not UTF-8")]
    NotText,
    /// `dev` is not an Ed25519 public key.
    #[error("`dev` is not an Ed25519 public key")]
    Key,
    /// The signature is not this device's, over this line.
    #[error("the signature does not match: the line was changed, or another key signed it")]
    Signature,
    /// The link cannot be read.
    #[error(transparent)]
    Link(WireFault),
    /// The body cannot be read.
    #[error(transparent)]
    Body(WireFault),
}

/// The device that a signing key belongs to.
pub fn device_of(key: &VerifyingKey) -> DeviceId {
    device_of_bytes(key.as_bytes())
}

/// The device of a raw public key.
pub fn device_of_bytes(key: &[u8; 32]) -> DeviceId {
    DeviceId::new(base64url::encode(key))
}

/// The raw public key of a device, if that is what its id is.
pub fn key_bytes(dev: &DeviceId) -> Option<[u8; 32]> {
    base64url::decode(dev.as_str())?.try_into().ok()
}

/// The bytes to sign, as ASCII text: header and payload, base64url, with a dot between (RFC 7515 section 5.1).
pub fn signing_input(entry: &Entry, link: &Link) -> String {
    let mut payload = Line::reopen(wire::write(entry));
    payload.text("dev", link.dev.as_str());
    payload.raw("seq", &link.seq.to_string());
    payload.text("prev", &link.prev);
    payload.text("book", link.book.as_str());
    let mut input = String::from(HEADER);
    input.push('.');
    input.push_str(&base64url::encode(payload.close().as_bytes()));
    input
}

/// The line, from what was signed and the signature.
pub fn assemble(signing_input: &str, signature: [u8; 64]) -> String {
    let mut jws = String::with_capacity(signing_input.len() + 1 + SIGNATURE_CHARS);
    jws.push_str(signing_input);
    jws.push('.');
    jws.push_str(&base64url::encode(&signature));
    jws
}

/// What a line says, as the JSON that was signed, and its signature as it stands: believed by nobody.
pub fn text_and_signature(jws: &str) -> Option<(String, &str)> {
    let (input, signature) = jws.rsplit_once('.')?;
    let text = base64url::decode(input.strip_prefix(HEADER)?.strip_prefix('.')?)?;
    Some((String::from_utf8(text).ok()?, signature))
}

/// The line of these two.
pub fn line_of(text: &str, signature: &str) -> String {
    [HEADER, ".", &base64url::encode(text.as_bytes()), ".", signature].concat()
}

/// Signs with a key at hand. The link's device must be the key's own, or the line will not open.
pub fn sign(entry: &Entry, link: &Link, key: &SigningKey) -> Signed {
    let input = signing_input(entry, link);
    let signature = key.sign(input.as_bytes());
    #[cfg(feature = "remember-proofs")]
    super::proven::made(key.verifying_key().as_bytes(), input.as_bytes(), &signature);
    let jws = assemble(&input, signature.to_bytes());
    let Link { dev, seq, prev, book } = link.clone();
    Signed { jws, dev, seq, prev, book, entry: entry.clone() }
}

/// Opens a line: every part is checked, and the signature against the key that it names.
pub fn open(jws: &str) -> Result<Signed, JwsFault> {
    let Sealed { link: Link { dev, seq, prev, book }, body } = unseal(jws)?;
    Ok(Signed { jws: jws.to_owned(), dev, seq, prev, book, entry: body.map_err(JwsFault::Body)? })
}

/// Reads a line that was opened before, without asking its signature again.
pub fn read(jws: &str) -> Result<Signed, JwsFault> {
    let Sealed { link: Link { dev, seq, prev, book }, body } = take_apart(jws)?.into_sealed();
    Ok(Signed { jws: jws.to_owned(), dev, seq, prev, book, entry: body.map_err(JwsFault::Body)? })
}

/// Opens a line as far as its signature and link, so that a chain can go on past a body that cannot be read.
pub fn unseal(jws: &str) -> Result<Sealed, JwsFault> {
    let line = take_apart(jws)?;
    line.check()?;
    Ok(line.into_sealed())
}

/// Reads a line without asking its signature: it is believed by nobody yet.
pub fn take_apart(jws: &str) -> Result<Unchecked<'_>, JwsFault> {
    if jws.len() > JWS_BYTES_MAX {
        return Err(JwsFault::TooLong { bytes: jws.len() });
    }
    let (input, signature) = jws.rsplit_once('.').ok_or(JwsFault::NotThreeParts)?;
    let (header, payload) = input.split_once('.').ok_or(JwsFault::NotThreeParts)?;
    if payload.contains('.') {
        return Err(JwsFault::NotThreeParts);
    }
    if header != HEADER {
        return Err(JwsFault::Header);
    }
    let signature = base64url::decode(signature).ok_or(JwsFault::Base64 { part: "signature" })?;
    let signature = Signature::from_slice(&signature).map_err(|_| JwsFault::Signature)?;
    let payload = base64url::decode(payload).ok_or(JwsFault::Base64 { part: "payload" })?;
    let payload = std::str::from_utf8(&payload).map_err(|_| JwsFault::NotText)?;
    let fields = Fields::read(payload, PAYLOAD_BYTES_MAX).map_err(JwsFault::Link)?;
    Ok(Unchecked { sealed: Sealed { link: link_of(&fields)?, body: wire::entry_of(&fields) }, input, signature })
}

/// What a line claims to be and to say, believed by nobody: for lines that were proved before.
pub fn unproved(jws: &str) -> Option<(Link, Entry)> {
    let payload = base64url::decode(jws.split('.').nth(1)?)?;
    let fields = Fields::read(std::str::from_utf8(&payload).ok()?, PAYLOAD_BYTES_MAX).ok()?;
    Some((link_of(&fields).ok()?, wire::entry_of(&fields).ok()?))
}

/// The sequence number that a line claims, believed by nobody: for telling which line is damaged.
pub fn claimed_seq(jws: &str) -> Option<u64> {
    if jws.len() > JWS_BYTES_MAX {
        return None;
    }
    let payload = base64url::decode(jws.split('.').nth(1)?)?;
    Fields::read(std::str::from_utf8(&payload).ok()?, PAYLOAD_BYTES_MAX).ok()?.count("seq").ok()
}

/// The hash by which the next line names this one: base64url SHA-256 of its ASCII.
pub fn hash(jws: &str) -> String {
    base64url::encode(&Sha256::digest(jws))
}

/// Checks a device's signature over any bytes; keys of small order and signatures of two forms are refused.
pub(crate) fn verify(dev: &DeviceId, signed: &[u8], signature: &Signature) -> Result<(), JwsFault> {
    verify_by(&key_bytes(dev).ok_or(JwsFault::Key)?, signed, signature)
}

/// The same, for a key of any kind.
pub(crate) fn verify_by(key: &[u8; 32], signed: &[u8], signature: &Signature) -> Result<(), JwsFault> {
    #[cfg(feature = "remember-proofs")]
    if super::proven::is_known(key, signed, signature) {
        return Ok(());
    }
    let point = VerifyingKey::from_bytes(key).map_err(|_| JwsFault::Key)?;
    point.verify_strict(signed, signature).map_err(|_| JwsFault::Signature)?;
    #[cfg(feature = "remember-proofs")]
    super::proven::keep(key, signed, signature);
    Ok(())
}

fn link_of(fields: &Fields<'_>) -> Result<Link, JwsFault> {
    let link = |fault| JwsFault::Link(fault);
    let seq = fields.count("seq").map_err(link)?;
    if seq > SEQ_MAX {
        return Err(JwsFault::Link(WireFault::Wrong { field: "seq", wanted: "a whole number below 2^53" }));
    }
    let prev = fields.short("prev").map_err(link)?;
    let first = seq == 1;
    if first != prev.is_empty() || !(first || prev.len() == HASH_CHARS) {
        let wanted = "empty for the first entry, and a SHA-256 in base64url for all others";
        return Err(JwsFault::Link(WireFault::Wrong { field: "prev", wanted }));
    }
    Ok(Link {
        dev: fields.device("dev").map_err(link)?,
        seq,
        prev: prev.to_owned(),
        book: BookId::new(fields.short("book").map_err(link)?),
    })
}
