//! Signatures that were found right before, or made here: for the long simulation alone, where fifty phones of one process check
//! the same line.
//!
//! Never part of the app or the hub. What was refused is checked anew each time; what is known is known by the digest of
//! key, bytes and signature together, so that no other bytes pass for it.

use std::cell::RefCell;

use ed25519_dalek::Signature;
use sha2::{Digest, Sha256};

use crate::ordered::Set;

/// So many are remembered; then it begins anew.
const KNOWN_MAX: usize = 20_000;

thread_local! {
    static KNOWN: RefCell<Set<[u8; 32]>> = const { RefCell::new(Set::new()) };
}

/// Whether this was found right before.
pub(super) fn is_known(key: &[u8; 32], signed: &[u8], signature: &Signature) -> bool {
    KNOWN.with_borrow(|known| known.contains(&digest(key, signed, signature)))
}

/// This was just made, and is right but for a fault of the curve: one in sixteen is checked all the same.
pub(super) fn made(key: &[u8; 32], signed: &[u8], signature: &Signature) {
    if digest(key, signed, signature)[0] >= 16 {
        keep(key, signed, signature);
    }
}

/// This was found right.
pub(super) fn keep(key: &[u8; 32], signed: &[u8], signature: &Signature) {
    KNOWN.with_borrow_mut(|known| {
        if known.len() >= KNOWN_MAX {
            known.clear();
        }
        known.insert(digest(key, signed, signature));
    });
}

fn digest(key: &[u8; 32], signed: &[u8], signature: &Signature) -> [u8; 32] {
    Sha256::new().chain_update(key).chain_update(signature.to_bytes()).chain_update(signed).finalize().into()
}
