//! A hub's statements and faces of cards: what counts was signed by the hub, letter for letter, and says what it says again.
//!
//! The bytes are taken three ways: as a text, as a payload that is signed here, and as a change to a card that was.

use std::sync::LazyLock;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;
use ed25519_dalek::{Signer as _, SigningKey};
use shared_core::card::face::Face;
use shared_core::card::keys::{self, Keys};
use shared_core::card::revoked::Revoked;
use shared_core::card::{Card, Trust, open, peek};
use shared_core::log::jws;
use shared_core::members::Member;
use shared_core::time::Instant;

/// A hub's key that only this file knows, what a phone believes by it, and a card.
static OURS: LazyLock<(SigningKey, Trust, String)> = LazyLock::new(|| {
    let key = SigningKey::from_bytes(&[7; 32]);
    let began = Instant::from_ms(1_759_856_400_000);
    let member = Member { id: "p1".into(), name: "Pim".into(), ..Member::default() };
    let card = Card::of(&member, jws::device_of(&key.verifying_key()), 1, began).seal(&key);
    let keys = Keys::read(&[keys::first(&key, began)]).expect("a key");
    (key, Trust { keys, revoked: Revoked::default() }, card)
});

/// Holds of any bytes.
///
/// # Panics
///
/// If it does not.
pub fn holds(bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        never_ours(text);
    }
    signed_here(bytes);
    changed(bytes);
}

/// Whatever a stranger writes is none of the hub's.
fn never_ours(text: &str) {
    let (_, trust, card) = &*OURS;
    let now = Instant::from_ms(1_759_856_500_000);
    assert!(text == card || trust.open(text, now).is_err(), "{text}");
    assert!(Revoked::open(text, &trust.keys).is_err(), "{text}");
    if let Some(face) = Face::read(text) {
        assert_eq!(face.write().as_deref(), Ok(text));
        assert!(trust.check(&face, now).is_err(), "{text}");
    }
    // A list of keys may begin with anybody's; nobody's follows ours.
    let _ = Keys::read(&[text.to_owned()]);
    let ours = trust.keys.statements()[0].clone();
    assert!(trust.keys.clone().follow(&[ours, text.to_owned()]).is_err(), "{text}");
}

/// Any payload under our key and each header: what opens says the same when it is signed again.
fn signed_here(payload: &[u8]) {
    let (key, trust, card) = &*OURS;
    let header = card.split('.').next().expect("a header");
    let input = format!("{header}.{}", BASE64URL.encode(payload));
    let text = jws::assemble(&input, key.sign(input.as_bytes()).to_bytes());
    let now = Instant::from_ms(i64::MIN / 4);
    let Ok(card) = open(&text, &trust.keys, &trust.revoked, now) else { return };
    assert_eq!(peek(&text).map(|(card, _)| card), Some(card.clone()));
    assert_eq!(open(&card.seal(key), &trust.keys, &trust.revoked, now), Ok(card));
}

/// A card, changed where the bytes say (place, what to add; three bytes a change), opens only if it is unchanged after all.
fn changed(bytes: &[u8]) {
    let (_, trust, card) = &*OURS;
    let mut other = card.clone().into_bytes();
    for change in bytes.chunks_exact(3).take(8) {
        let at = usize::from(u16::from_be_bytes([change[0], change[1]])) % other.len();
        other[at] ^= change[2];
    }
    let Ok(other) = String::from_utf8(other) else { return };
    let now = Instant::from_ms(1_759_856_500_000);
    assert_eq!(trust.open(&other, now).is_ok(), other == *card, "changed, and it opens: {other}");
}
