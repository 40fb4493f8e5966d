//! A signed line: what opens was signed, letter for letter, by the key that it names.
//!
//! The bytes are taken three ways: as a line, as a payload that is signed here, and as a change to a line that was.

use std::sync::LazyLock;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;
use ed25519_dalek::{Signature, Signer as _, SigningKey, Verifier as _, VerifyingKey};
use shared_core::entry::{Entry, Fact, Told};
use shared_core::log::jws::{self, JwsFault, Link, PAYLOAD_BYTES_MAX};
use shared_core::time::Instant;

use super::comes_back;

/// base64url of `{"alg":"EdDSA"}` (RFC 8037 Appendix A.4).
const HEADER: &str = "eyJhbGciOiJFZERTQSJ9";

/// A key that only this file knows, and a line that it signed.
static OURS: LazyLock<(SigningKey, String)> = LazyLock::new(|| {
    let key = SigningKey::from_bytes(&[1; 32]);
    let fact = Fact::Incident { note: "a spark in the drip tray".to_owned(), told: Told::default() };
    let at = Instant::from_ms(1_759_856_400_000);
    let entry = Entry { at, session: "s1".into(), who: "p1".into(), fact };
    let link = Link { dev: jws::device_of(&key.verifying_key()), seq: 1, prev: String::new(), book: "b1".into() };
    let line = jws::sign(&entry, &link, &key).jws;
    (key, line)
});

/// Holds of any bytes.
///
/// # Panics
///
/// If it does not.
pub fn holds(bytes: &[u8]) {
    if let Ok(line) = std::str::from_utf8(bytes) {
        assert_eq!(opened_was_signed(line), jws::open(line).is_ok());
        // Whoever tells which line is damaged believes nothing, and reads no more than the link does.
        if let Ok(sealed) = jws::unseal(line) {
            assert_eq!(jws::claimed_seq(line), Some(sealed.link.seq));
        }
    }
    signed_here(bytes);
    changed(bytes);
}

/// Whether a line opens; if so, its signature is good by the library alone, and what it says can be signed again.
fn opened_was_signed(line: &str) -> bool {
    let Ok(opened) = jws::open(line) else { return false };
    let (input, signature) = line.rsplit_once('.').expect("three parts");
    let signature = BASE64URL.decode(signature).expect("base64url");
    let key = jws::key_bytes(&opened.dev).expect("a key");
    let key = VerifyingKey::from_bytes(&key).expect("a key");
    let signature = Signature::from_slice(&signature).expect("a signature");
    assert!(key.verify(input.as_bytes(), &signature).is_ok(), "opened, and not signed: {line}");
    comes_back(&opened.entry);
    true
}

/// Any payload, signed by our key: it opens only if it says that it is ours, and then says the same signed again.
fn signed_here(payload: &[u8]) {
    let (key, _) = &*OURS;
    let input = format!("{HEADER}.{}", BASE64URL.encode(payload));
    let line = jws::assemble(&input, key.sign(input.as_bytes()).to_bytes());
    let ours = jws::device_of(&key.verifying_key());
    match jws::unseal(&line) {
        Ok(sealed) => {
            assert_eq!(sealed.link.dev, ours, "opened under a key that did not sign it");
            assert!(payload.len() <= PAYLOAD_BYTES_MAX && sealed.link.seq <= jws::SEQ_MAX);
            assert_eq!(opened_was_signed(&line), sealed.body.is_ok());
            let Ok(entry) = sealed.body else { return };
            // Written out in full it may be too long; if it is not, its link and body are what they were.
            if let Ok(again) = jws::open(&jws::sign(&entry, &sealed.link, key).jws) {
                assert_eq!((again.dev, again.seq, again.prev), (ours, sealed.link.seq, sealed.link.prev));
                assert_eq!((again.book, again.entry), (sealed.link.book, super::as_written(&entry)));
            }
        }
        Err(JwsFault::Header | JwsFault::NotThreeParts | JwsFault::Base64 { .. }) => {
            panic!("the frame is ours: {line}")
        }
        Err(_) => {}
    }
}

/// A line that was signed, changed where the bytes say (place, what to add; three bytes a change): it opens only if it
/// is unchanged after all.
fn changed(bytes: &[u8]) {
    let (_, line) = &*OURS;
    let mut other = line.clone().into_bytes();
    for change in bytes.chunks_exact(3).take(8) {
        let at = usize::from(u16::from_be_bytes([change[0], change[1]])) % other.len();
        other[at] ^= change[2];
    }
    let Ok(other) = String::from_utf8(other) else { return };
    assert_eq!(jws::open(&other).is_ok(), other == *line, "changed, and it opens: {other}");
}
