//! Challenges: something fresh for a device to sign, so that a signature heard once is worth nothing later.
//!
//! Good once, for its device alone, for a minute. Kept in memory: after a restart a phone asks again.

use std::collections::{HashMap, VecDeque};
use std::sync::{Mutex, PoisonError};

use shared_core::ids::DeviceId;
use shared_core::time::{Instant, Span};

use crate::secret;

const GOOD_FOR: Span = Span::from_minutes(1);
/// Tabs of one phone may ask at the same time.
const PER_DEVICE_MAX: usize = 4;
/// Devices that have joined are few; past this the hub forgets those that asked and never answered.
const DEVICES_MAX: usize = 10_000;

/// What was given to whom.
#[derive(Debug, Default)]
pub(crate) struct Challenges(Mutex<HashMap<DeviceId, VecDeque<(String, Instant)>>>);

impl Challenges {
    /// A new challenge for `dev`.
    pub(crate) fn give(&self, dev: &DeviceId, now: Instant) -> Result<String, getrandom::Error> {
        let challenge = secret::base64url(secret::random::<24>()?);
        let mut given = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if given.len() >= DEVICES_MAX {
            given.retain(|_, of_device| of_device.iter().any(|(_, until)| *until > now));
        }
        let of_device = given.entry(dev.clone()).or_default();
        if of_device.len() == PER_DEVICE_MAX {
            of_device.pop_front();
        }
        of_device.push_back((challenge.clone(), now + GOOD_FOR));
        Ok(challenge)
    }

    /// Whether `challenge` was given to `dev`, is unused and fresh. It is used now.
    pub(crate) fn spend(&self, dev: &DeviceId, challenge: &str, now: Instant) -> bool {
        let mut given = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let Some(of_device) = given.get_mut(dev) else { return false };
        let Some(place) = of_device.iter().position(|(one, _)| one == challenge) else { return false };
        let fresh = of_device.remove(place).is_some_and(|(_, until)| until > now);
        if of_device.is_empty() {
            given.remove(dev);
        }
        fresh
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_challenge_is_good_once_for_its_device_and_a_minute() {
        let challenges = Challenges::default();
        let (phone, start) = (DeviceId::new("phone"), Instant::from_ms(0));
        let one = challenges.give(&phone, start).expect("random bytes");
        let two = challenges.give(&phone, start).expect("random bytes");
        assert_ne!(one, two);
        for (dev, challenge, seconds, good) in [
            ("other", &one, 0, false),
            ("phone", &one, 59, true),
            ("phone", &one, 59, false),
            ("phone", &two, 60, false),
            ("phone", &"made up".to_owned(), 0, false),
        ] {
            let now = start + Span::from_ms(seconds * 1000);
            assert_eq!(challenges.spend(&dev.into(), challenge, now), good, "{dev} at {seconds} s");
        }
    }
}
