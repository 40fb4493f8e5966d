//! Signing where the browser has no Ed25519 of its own (RFC 8032). Of the later part: see `crate::later`.

use ed25519_dalek::{Signer as _, SigningKey};

/// The public key of a seed.
pub fn public_of(seed: &[u8; 32]) -> [u8; 32] {
    SigningKey::from_bytes(seed).verifying_key().to_bytes()
}

/// A signature of `bytes`.
pub fn sign(seed: &[u8; 32], bytes: &[u8]) -> [u8; 64] {
    SigningKey::from_bytes(seed).sign(bytes).to_bytes()
}
