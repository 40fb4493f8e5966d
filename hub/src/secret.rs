//! Secrets of the hub: random bytes, base64url, digests, comparison in constant time, a device's signature.
//!
//! Nothing here logs or keeps what it is given.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use ed25519_dalek::{Signature, VerifyingKey};
use sha2::{Digest as _, Sha256};
use subtle::ConstantTimeEq as _;

use shared_core::ids::DeviceId;

/// `N` bytes from the operating system's generator.
pub(crate) fn random<const N: usize>() -> Result<[u8; N], getrandom::Error> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes)?;
    Ok(bytes)
}

/// Bytes as base64url without padding (RFC 4648 section 5).
pub(crate) fn base64url(bytes: impl AsRef<[u8]>) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}

/// The bytes of such a text, if it is one.
pub(crate) fn from_base64url(text: &str) -> Option<Vec<u8>> {
    URL_SAFE_NO_PAD.decode(text).ok()
}

/// SHA-256.
pub(crate) fn digest(bytes: impl AsRef<[u8]>) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// SHA-256 of what is written, of which nothing is kept.
#[derive(Default)]
pub(crate) struct Digest(Sha256);

impl Digest {
    /// Of all that was written.
    pub(crate) fn end(self) -> [u8; 32] {
        self.0.finalize().into()
    }
}

impl std::io::Write for Digest {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.update(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// Whether two secrets are the same; takes as long whether they differ early or late.
pub(crate) fn same(one: &str, other: &str) -> bool {
    digest(one).ct_eq(&digest(other)).into()
}

/// Whether two digests are the same; takes as long whether they differ early or late.
pub(crate) fn same_digest(one: &[u8], other: &[u8]) -> bool {
    one.ct_eq(other).into()
}

/// Whether `signature` (base64url) over `message` is by the key that `dev` names (RFC 8032, strict).
pub(crate) fn signed_by(dev: &DeviceId, message: &[u8], signature: &str) -> bool {
    let key = from_base64url(dev.as_str()).and_then(|bytes| <[u8; 32]>::try_from(bytes).ok());
    let key = key.and_then(|bytes| VerifyingKey::from_bytes(&bytes).ok());
    let signature = from_base64url(signature).and_then(|bytes| Signature::from_slice(&bytes).ok());
    matches!((key, signature), (Some(key), Some(signature)) if key.verify_strict(message, &signature).is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 8032 section 7.1, TEST 2; the same values, base64url.
    #[test]
    fn a_signature_is_checked_against_the_key_that_the_device_is() {
        let dev = DeviceId::new("PUAXw-hDiVqStwqnTRt-vJyYLM8uxJaMwM1V8Sr0Zgw");
        let good = "kqAJqfDUyrhyDoILX2QlQKKye1QWUD-Ps3YiI-vbadoIWsHkPhWZbkWPNhPQ8R2MOHsurrQwKu6wDSkWErsMAA";
        let bad = good.replacen("kqAJ", "kqAK", 1);
        for (message, signature, holds) in
            [(&b"\x72"[..], good, true), (b"\x73", good, false), (b"\x72", &bad, false), (b"\x72", "", false)]
        {
            assert_eq!(signed_by(&dev, message, signature), holds, "{message:?} {signature}");
        }
        assert!(!signed_by(&DeviceId::new("not a key"), b"\x72", good));
    }

    #[test]
    fn secrets_compare_whole() {
        assert!(same("ABCD", "ABCD"));
        assert!(!same("ABCD", "ABCE"));
        assert!(!same("ABCD", "ABC"));
    }
}
