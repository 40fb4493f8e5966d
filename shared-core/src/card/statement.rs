//! A statement of the hub's: JWS compact (RFC 7515 section 3.1) with `EdDSA` over Ed25519 (RFC 8037 section 3.1).
//!
//! The header is exactly `{"alg":"EdDSA","typ":TYP,"kid":KID}`: `typ` (RFC 7515 section 4.1.9) keeps one kind from passing
//! for another, and no entry of a phone has one; `kid` is the thumbprint (RFC 7638) of the key, so that nothing is
//! negotiated and no key has two names. Knows no clock and judges nothing but form and signature.

use ed25519_dalek::{Signature, Signer as _, SigningKey};
use serde::Serialize;
use serde_json::Value;
use sha2::{Digest as _, Sha256};

use super::CardFault;
use super::keys::HubKey;
use crate::base64url;
use crate::log::jws;

/// The longest statement that is read, in bytes: a list of some three thousand phones that were taken off.
pub const STATEMENT_BYTES_MAX: usize = 512 * 1024;
/// A SHA-256 in base64url.
const KID_CHARS: usize = 43;

/// What a statement is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A member's card.
    Card,
    /// A key of the hub's.
    Key,
    /// The phones that were taken off.
    Revoked,
}

impl Kind {
    /// Its `typ`.
    pub const fn typ(self) -> &'static str {
        match self {
            Self::Card => "sweepbell-card",
            Self::Key => "sweepbell-key",
            Self::Revoked => "sweepbell-revoked",
        }
    }
}

/// A statement that was read; whose it is has not been asked yet.
pub(super) struct Statement<'a> {
    /// The key that it names.
    pub(super) kid: String,
    /// What it says.
    pub(super) payload: Value,
    input: &'a str,
    signature: Signature,
}

/// Signs a statement.
pub(super) fn seal(about: Kind, key: &SigningKey, says: &impl Serialize) -> String {
    let header = header(about, &thumbprint(key.verifying_key().as_bytes()));
    let payload = serde_json::to_vec(says).expect("plain data");
    let mut input = base64url::encode(header.as_bytes());
    input.push('.');
    input.push_str(&base64url::encode(&payload));
    jws::assemble(&input, key.sign(input.as_bytes()).to_bytes())
}

/// Reads a statement of one kind as far as can be done without the key.
pub(super) fn read(text: &str, about: Kind) -> Result<Statement<'_>, CardFault> {
    parts(text, about).ok_or(CardFault::Unreadable)
}

impl Statement<'_> {
    /// Whether this key signed it.
    pub(super) fn signed_by(&self, key: &HubKey) -> Result<(), CardFault> {
        jws::verify_by(&key.public, self.input.as_bytes(), &self.signature).map_err(|_| CardFault::Signature)
    }
}

fn parts(text: &str, about: Kind) -> Option<Statement<'_>> {
    if text.len() > STATEMENT_BYTES_MAX {
        return None;
    }
    let (input, signature) = text.rsplit_once('.')?;
    let (head, payload) = input.split_once('.')?;
    let head = base64url::decode(head)?;
    let (start, end) = (start(about), "\"}");
    let kid = std::str::from_utf8(&head).ok()?.strip_prefix(&*start)?.strip_suffix(end)?;
    if kid.len() != KID_CHARS || kid.bytes().any(|byte| matches!(byte, b'"' | b'\\')) {
        return None;
    }
    let signature = Signature::from_slice(&base64url::decode(signature)?).ok()?;
    // Read as text, as everything else here is: a reader of bytes would be a second one on each phone.
    let payload = base64url::decode(payload)?;
    let payload = serde_json::from_str(std::str::from_utf8(&payload).ok()?).ok()?;
    Some(Statement { kid: kid.to_owned(), payload, input, signature })
}

fn header(about: Kind, kid: &str) -> String {
    start(about) + kid + "\"}"
}

fn start(about: Kind) -> String {
    let mut start = String::from("{\"alg\":\"EdDSA\",\"typ\":\"");
    start.push_str(about.typ());
    start.push_str("\",\"kid\":\"");
    start
}

/// The name of a key: the SHA-256 of its required members in order (RFC 7638 section 3, RFC 8037 Appendix A.3), base64url.
pub fn thumbprint(public: &[u8; 32]) -> String {
    let mut digest = Sha256::new();
    digest.update("{\"crv\":\"Ed25519\",\"kty\":\"OKP\",\"x\":\"");
    digest.update(base64url::encode(public));
    digest.update("\"}");
    base64url::encode(&digest.finalize())
}
