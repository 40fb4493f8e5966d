//! Challenges: something fresh for a device to sign, so that a signature heard once is worth nothing later.
//!
//! Good for its device alone and for a minute, at every process of the hub: a challenge carries its own end and an
//! authenticator (HMAC, RFC 2104, with SHA-256) under a key that the processes share, so that nothing is kept of one
//! that nobody answers. That it is good once is the doing of the store, where the answer spends it.

use hmac::{Hmac, Mac as _};
use sha2::Sha256;
use shared_core::ids::DeviceId;
use shared_core::time::{Instant, Span};

use crate::secret;

const GOOD_FOR: Span = Span::from_minutes(1);
const NONCE_BYTES: usize = 16;
const END_BYTES: usize = 8;

/// Makes challenges and knows its own.
pub(crate) struct Challenges {
    key: [u8; 32],
}

/// The key is nobody's business.
impl std::fmt::Debug for Challenges {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Challenges")
    }
}

impl Challenges {
    /// Under a key that all processes of the hub share.
    pub(crate) fn new(key: [u8; 32]) -> Self {
        Self { key }
    }

    /// A new challenge for `dev`.
    pub(crate) fn give(&self, dev: &DeviceId, now: Instant) -> Result<String, getrandom::Error> {
        let mut bytes = secret::random::<NONCE_BYTES>()?.to_vec();
        bytes.extend((now + GOOD_FOR).ms().to_be_bytes());
        let tag = self.authenticator(dev, &bytes).finalize().into_bytes();
        bytes.extend(tag);
        Ok(secret::base64url(bytes))
    }

    /// Until when `challenge` is good, if it was given to `dev` and still is.
    pub(crate) fn good_until(&self, dev: &DeviceId, challenge: &str, now: Instant) -> Option<Instant> {
        let bytes = secret::from_base64url(challenge)?;
        let (said, tag) = bytes.split_at_checked(NONCE_BYTES + END_BYTES)?;
        self.authenticator(dev, said).verify_slice(tag).ok()?;
        let end: [u8; END_BYTES] = said.get(NONCE_BYTES..)?.try_into().ok()?;
        Some(Instant::from_ms(i64::from_be_bytes(end))).filter(|until| *until > now)
    }

    /// Over nonce and end, which have a fixed length, and then the device.
    fn authenticator(&self, dev: &DeviceId, said: &[u8]) -> Hmac<Sha256> {
        // A key that is shorter than a block is filled up with zeros (RFC 2104 section 2).
        let mut block = [0; 64];
        block[..self.key.len()].copy_from_slice(&self.key);
        let mut mac = Hmac::<Sha256>::new((&block).into());
        mac.update(said);
        mac.update(dev.as_str().as_bytes());
        mac
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_challenge_is_good_for_its_device_and_a_minute_at_every_process() {
        let (here, there, elsewhere) = (Challenges::new([1; 32]), Challenges::new([1; 32]), Challenges::new([2; 32]));
        let (phone, start) = (DeviceId::new("phone"), Instant::from_ms(0));
        let one = here.give(&phone, start).expect("random bytes");
        assert_ne!(one, here.give(&phone, start).expect("random bytes"));
        let mut changed = secret::from_base64url(&one).expect("base64url");
        changed[NONCE_BYTES + END_BYTES - 1] ^= 0x40;
        let changed = secret::base64url(changed);
        for (process, dev, challenge, seconds, good) in [
            (&here, "phone", one.as_str(), 59, true),
            (&there, "phone", &one, 59, true),
            (&elsewhere, "phone", &one, 59, false),
            (&here, "other", &one, 0, false),
            (&here, "phone", &one, 60, false),
            (&here, "phone", &changed, 0, false),
            (&here, "phone", "made up", 0, false),
            (&here, "phone", "", 0, false),
        ] {
            let now = start + Span::from_ms(seconds * 1000);
            let found = process.good_until(&dev.into(), challenge, now).is_some();
            assert_eq!(found, good, "{dev} at {seconds} s: {challenge}");
        }
    }
}
