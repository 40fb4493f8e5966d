//! Our log read by an independent JOSE library: header, payload and signature are what RFC 7515 and RFC 8037 say they
//! are, and what we call tampered it refuses too.
//!
//! The library is `jsonwebtoken`; it is given the public key alone (RFC 8037 `x`), which is the device's id.

use jsonwebtoken::{Algorithm, DecodingKey, Validation, decode, decode_header};
use serde_json::Value;
use shared_core::log::{jws, wire};

fn golden() -> Vec<String> {
    let lines = include_str!("../data/golden/0.1-one-of-each.jws").lines();
    let lines: Vec<String> = lines.filter(|line| !line.is_empty()).map(str::to_owned).collect();
    assert!(lines.len() >= 15, "one of each kind of entry");
    lines
}

fn independent(line: &str, x: &str) -> Result<Value, jsonwebtoken::errors::Error> {
    let mut validation = Validation::new(Algorithm::EdDSA);
    // An entry is no token: it has no expiry and no audience.
    validation.required_spec_claims.clear();
    validation.validate_exp = false;
    decode::<Value>(line, &DecodingKey::from_ed_components(x)?, &validation).map(|data| data.claims)
}

#[test]
fn an_independent_library_accepts_every_line() {
    for line in golden() {
        let signed = jws::open(&line).expect("our own reader");
        assert_eq!(decode_header(&line).expect("a JOSE header").alg, Algorithm::EdDSA);
        let claims = independent(&line, signed.dev.as_str()).expect("the independent library");
        assert_eq!(claims["dev"], signed.dev.as_str());
        assert_eq!(claims["seq"], signed.seq);
        assert_eq!(claims["prev"], signed.prev.as_str());
        assert_eq!(claims["what"], serde_json::from_str::<Value>(&wire::write(&signed.entry)).expect("JSON")["what"]);
    }
}

#[test]
fn both_refuse_a_tampered_line() {
    for line in golden().iter().take(5) {
        let dev = jws::open(line).expect("our own reader").dev;
        for place in (0..line.len()).step_by(7) {
            let mut bytes = line.clone().into_bytes();
            bytes[place] = if bytes[place] == b'A' { b'B' } else { b'A' };
            let tampered = String::from_utf8(bytes).expect("ASCII");
            assert!(jws::open(&tampered).is_err(), "byte {place}");
            assert!(independent(&tampered, dev.as_str()).is_err(), "byte {place}");
        }
    }
}
