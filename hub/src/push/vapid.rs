//! Who sends: RFC 8292 (voluntary application server identification), a token signed by ES256 under one key of the hub's.
//!
//! A phone's subscription is bound to that key: another key, and every phone has to be asked anew.

use p256::SecretKey;
use p256::ecdsa::signature::Signer as _;
use p256::ecdsa::{Signature, SigningKey};
use serde_json::json;
use sha2::{Digest as _, Sha256};

use shared_core::time::{Instant, Span};

use crate::secret;

/// How long a token holds; RFC 8292 section 2 allows 24 hours.
const HOLDS: Span = Span::from_minutes(12 * 60);

/// The hub's key for push services, and whom they write to if it sends too much.
pub(crate) struct PushKey {
    key: SigningKey,
    contact: Option<String>,
}

/// The key is nobody's business.
impl std::fmt::Debug for PushKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "PushKey({})", self.public())
    }
}

impl PushKey {
    /// A key; `None` for the one in 2^32 of random bytes that are none.
    pub(crate) fn new(bytes: &[u8; 32], contact: Option<String>) -> Option<Self> {
        Some(Self { key: SigningKey::from(SecretKey::from_slice(bytes).ok()?), contact })
    }

    /// As phones are given it: the uncompressed point (RFC 8292 section 3.2), base64url.
    pub(crate) fn public(&self) -> String {
        secret::base64url(self.key.verifying_key().to_encoded_point(false))
    }

    /// The `Authorization` header for a push service at `origin` (RFC 8292 sections 2 and 3).
    pub(super) fn authorization(&self, origin: &str, now: Instant) -> String {
        let head = secret::base64url(json!({ "typ": "JWT", "alg": "ES256" }).to_string());
        let mut claims = json!({ "aud": origin, "exp": (now + HOLDS).ms() / 1000 });
        if let Some(contact) = &self.contact {
            claims["sub"] = json!(contact);
        }
        let input = format!("{head}.{}", secret::base64url(claims.to_string()));
        let signature: Signature = self.key.sign(input.as_bytes());
        format!("vapid t={input}.{}, k={}", secret::base64url(signature.to_bytes()), self.public())
    }

    /// What calls about one subject of one session are told apart by: a text that means nothing to whoever lacks the
    /// key, at most 32 characters of base64url (RFC 8030 section 5.4).
    pub(super) fn topic(&self, session: &str, subject: &str) -> String {
        let hash = Sha256::new().chain_update(self.key.to_bytes()).chain_update(subject).chain_update([0]);
        secret::base64url(&hash.chain_update(session).finalize()[..18])
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use jsonwebtoken::{Algorithm, DecodingKey, Validation, decode};
    use serde_json::Value;

    use super::*;

    /// Another implementation reads a token: its signature under the key that stands beside it, and what it says.
    fn read(header: &str, audience: &str, check_end: bool) -> Value {
        let (token, key) =
            header.strip_prefix("vapid t=").and_then(|rest| rest.split_once(", k=")).expect("the scheme");
        let point = secret::from_base64url(key).expect("base64url");
        assert_eq!((point.len(), point[0]), (65, 4), "an uncompressed point");
        let key = DecodingKey::from_ec_components(&secret::base64url(&point[1..33]), &secret::base64url(&point[33..]));
        let mut asked = Validation::new(Algorithm::ES256);
        asked.set_audience(&[audience]);
        asked.validate_exp = check_end;
        decode::<Value>(token, &key.expect("a key"), &asked).expect("it holds").claims
    }

    /// RFC 8292 section 2.4: the reader that ours is held against takes the RFC's own token.
    #[test]
    fn the_example_of_rfc_8292_is_read() {
        let header = "vapid t=eyJ0eXAiOiJKV1QiLCJhbGciOiJFUzI1NiJ9.eyJhdWQiOiJodHRwczovL3B1c2guZXhhbXBsZS5uZXQiLCJle\
            HAiOjE0NTM1MjM3NjgsInN1YiI6Im1haWx0bzpwdXNoQGV4YW1wbGUuY29tIn0.i3CYb7t4xfxCDquptFOepC9GAu_HLGkMlMuCGSK2rpi\
            UfnK9ojFwDXb1JrErtmysazNjjvW2L9OkSSHzvoD1oA, k=BA1Hxzyi1RUM1b5wjxsn7nGxAszw2u61m164i3MrAIxHF6YK5h4SDYic-dR\
            uU_RCPCfA5aq9ojSwk5Y2EmClBPs";
        let claims = read(header, "https://push.example.net", false);
        let expected =
            json!({ "aud": "https://push.example.net", "exp": 1_453_523_768, "sub": "mailto:push@example.com" });
        assert_eq!(claims, expected);
    }

    #[test]
    fn another_implementation_takes_our_token() {
        let contact = Some("mailto:shop@example.com".to_owned());
        let key = PushKey::new(&[7; 32], contact).expect("a key");
        let now = crate::clock::now();
        let claims = read(&key.authorization("https://push.example.net", now), "https://push.example.net", true);
        assert_eq!(
            (&claims["sub"], &claims["exp"]),
            (&json!("mailto:shop@example.com"), &json!((now + HOLDS).ms() / 1000))
        );
        let silent = PushKey::new(&[7; 32], None).expect("a key");
        assert_eq!(
            read(&silent.authorization("https://a.example", now), "https://a.example", true)["sub"],
            Value::Null
        );
        assert!(PushKey::new(&[0; 32], None).is_none() && PushKey::new(&[0xff; 32], None).is_none());
    }

    /// RFC 8030 section 5.4.
    #[test]
    fn a_topic_is_short_and_differs_by_session_subject_and_hub() {
        let keys = [[7; 32], [8; 32]].map(|bytes| PushKey::new(&bytes, None).expect("a key"));
        let each =
            |key: &PushKey| [("s1", "fire"), ("s1", "help"), ("s2", "fire")].map(|(id, about)| key.topic(id, about));
        let topics: BTreeSet<String> = keys.iter().flat_map(each).collect();
        assert_eq!(topics.len(), 6);
        assert!(topics.iter().all(|topic| topic.len() <= 32 && secret::from_base64url(topic).is_some()), "{topics:?}");
    }
}
