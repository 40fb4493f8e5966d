//! Cards, keys and lists of phones that were taken off, read by an independent JOSE library: RFC 7515 and RFC 8037 as others
//! read them; what we call tampered it refuses too.
//!
//! The library is `jsonwebtoken`; it is given the hub's public key alone. The vectors are RFC 8037 Appendix A.

use ed25519_dalek::SigningKey;
use jsonwebtoken::{Algorithm, DecodingKey, Validation, decode, decode_header};
use serde_json::Value;
use shared_core::card::keys::{self, Keys};
use shared_core::card::revoked::{Revoked, TakenOff};
use shared_core::card::statement::thumbprint;
use shared_core::card::{Card, open};
use shared_core::ids::DeviceId;
use shared_core::log::jws;
use shared_core::members::Member;
use shared_core::ordered::Map;
use shared_core::time::{Instant, Span};

/// RFC 8037 Appendix A.1: the private key of the examples (`d`), and its public key (`x`).
const D: &str = "nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A";
const X: &str = "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo";
/// RFC 8037 Appendix A.3: that key's thumbprint.
const THUMBPRINT: &str = "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k";

fn hub() -> SigningKey {
    let seed = jws::key_bytes(&DeviceId::from(D)).expect("32 bytes, as a key is");
    SigningKey::from_bytes(&seed)
}

fn day(days: i64) -> Instant {
    Instant::from_ms(1_777_000_000_000) + Span::from_minutes(days * 24 * 60)
}

fn card() -> Card {
    let member = Member {
        id: "ada".into(),
        name: "Ada \"\u{1f9f9}\" L\u{f6}ve".into(),
        inducted_until: Some(day(300)),
        signed_off: Map::from([("lathe".into(), day(200))]),
        steward: true,
        signer: false,
        ..Member::default()
    };
    Card::of(&member, DeviceId::from(X), 7, day(0))
}

fn independent(text: &str, x: &str) -> Result<Value, jsonwebtoken::errors::Error> {
    let mut validation = Validation::new(Algorithm::EdDSA);
    // A card is no token: its words for until when are its own.
    validation.required_spec_claims.clear();
    validation.validate_exp = false;
    decode::<Value>(text, &DecodingKey::from_ed_components(x)?, &validation).map(|data| data.claims)
}

#[test]
fn the_hubs_key_is_named_as_rfc_8037_names_it() {
    assert_eq!(jws::device_of(&hub().verifying_key()).as_str(), X);
    assert_eq!(thumbprint(hub().verifying_key().as_bytes()), THUMBPRINT);
}

/// Each kind of statement, its `typ`, and something that it says.
#[test]
fn an_independent_library_reads_each_statement() {
    let (key, next) = (hub(), SigningKey::from_bytes(&[2; 32]));
    let taken_off = vec![TakenOff { dev: DeviceId::from(X), since: day(3) }];
    let list = Revoked { number: 3, issued: day(4), devices: taken_off };
    for (text, typ, field, says) in [
        (card().seal(&key), "sweepbell-card", "name", Value::from("Ada \"\u{1f9f9}\" L\u{f6}ve")),
        (keys::first(&key, day(0)), "sweepbell-key", "key", X.into()),
        (keys::next(&key, &next, day(1), day(2)), "sweepbell-key", "before_until", day(2).to_string().into()),
        (list.seal(&key), "sweepbell-revoked", "number", 3.into()),
    ] {
        let header = decode_header(&text).expect("a JOSE header");
        assert_eq!(header.alg, Algorithm::EdDSA);
        assert_eq!((header.typ.as_deref(), header.kid.as_deref()), (Some(typ), Some(THUMBPRINT)));
        assert_eq!(independent(&text, X).expect("the independent library")[field], says, "{typ}");
    }
}

#[test]
fn both_refuse_a_tampered_card() {
    let (text, keys) = (card().seal(&hub()), Keys::read(&[keys::first(&hub(), day(0))]).expect("a key"));
    let opens = |text: &str| open(text, &keys, &Revoked::default(), day(1)).is_ok();
    assert!(opens(&text));
    for place in 0..text.len() {
        let mut bytes = text.clone().into_bytes();
        bytes[place] = if bytes[place] == b'A' { b'B' } else { b'A' };
        let tampered = String::from_utf8(bytes).expect("ASCII");
        assert!(!opens(&tampered), "byte {place}");
        assert!(independent(&tampered, X).is_err(), "byte {place}");
    }
}
