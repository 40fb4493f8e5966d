//! What is sent, and to which phone: a word for the phone to say in its own language, without any name.

use p256::PublicKey;
use serde_json::json;
use shared_core::call::Call;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::time::Instant;

use crate::secret;

/// Bytes of a phone's secret (RFC 8291 section 3.2).
pub(crate) const AUTH_BYTES: usize = 16;

/// Where one phone is reached, as its browser made it.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Subscription {
    /// Which phone.
    pub(crate) dev: DeviceId,
    /// Whose.
    pub(crate) member: PersonId,
    /// The push service's address for it. Whoever has it can send something to that phone.
    pub(crate) endpoint: String,
    /// The phone's key for this, base64url.
    pub(crate) p256dh: String,
    /// Its secret, base64url.
    pub(crate) auth: String,
}

/// Address and secret are nobody's business.
impl std::fmt::Debug for Subscription {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Subscription({})", self.dev)
    }
}

/// A phone's key and secret, if they are such (RFC 8291 section 3.1: an uncompressed point of P-256).
pub(crate) fn read_key(p256dh: &str, auth: &str) -> Option<(PublicKey, [u8; AUTH_BYTES])> {
    let point = secret::from_base64url(p256dh).filter(|bytes| bytes.len() == 65)?;
    Some((PublicKey::from_sec1_bytes(&point).ok()?, secret::from_base64url(auth)?.try_into().ok()?))
}

/// A call as its phone is told it. `tag`: what takes its place there, as on the way.
pub(super) fn text(call: &Call, tag: &str) -> String {
    let late_minutes = call.late.ms() / 60_000;
    json!({ "what": call.said.what, "at": call.said.at.ms(), "late_minutes": late_minutes, "tag": tag }).to_string()
}

/// A try, as its phone is told it.
pub(super) fn text_of_try(now: Instant, tag: &str) -> String {
    json!({ "what": "try", "at": now.ms(), "late_minutes": 0, "tag": tag }).to_string()
}

#[cfg(test)]
mod tests {
    use shared_core::call::{Said, What};
    use shared_core::ordered::Set;
    use shared_core::time::Span;

    use super::*;
    use crate::push::seal::FILLED_BYTES;

    #[test]
    fn nothing_in_it_is_anybodys_and_the_longest_fits() {
        for what in What::ALL {
            let (session, at) = ("5b1f2c3d4e5f6071".into(), Instant::from_ms(253_402_300_799_999));
            let said = Said { session, what, at, nth: 2, out_by: at };
            let to = Set::from(["ada".into()]);
            let text = text(&Call { said, to, late: Span::from_minutes(100_000), until: at }, &"x".repeat(32));
            assert!(text.len() <= FILLED_BYTES, "{text}");
            assert!(!text.contains("ada") && !text.contains("5b1f"), "{text}");
        }
    }

    #[test]
    fn a_key_is_a_point_of_the_curve() {
        let good = "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4";
        let (off, secret) = (good.replacen("BCVx", "BCVy", 1), "BTBZMqHH6r4Tts7J_aSIgg");
        for (key, auth, fits) in
            [(good, secret, true), (&off, secret, false), ("", secret, false), (good, "AAAA", false)]
        {
            assert_eq!(read_key(key, auth).is_some(), fits, "{key} {auth}");
        }
    }
}
