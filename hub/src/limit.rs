//! How much one device or one address may ask: token buckets, and a count of wrong join codes.
//!
//! A device that floods is refused before any work is done for it, so that another is still served. Buckets live in
//! memory, are bounded in number, and are forgotten when full: a restart forgives.
//!
//! Time is an argument, in milliseconds of any steady clock.

use std::collections::HashMap;
use std::hash::Hash;
use std::net::IpAddr;
use std::sync::{Mutex, PoisonError};
use std::time::Instant as Steady;

use shared_core::ids::DeviceId;

use crate::problem::Problem;

/// How much a bucket holds and how fast it fills.
#[derive(Clone, Copy, Debug)]
struct Rate {
    /// Requests that a full bucket is good for.
    burst: u64,
    /// After this many milliseconds one more is.
    each_ms: u64,
}

/// A signed-in device: a phone syncs at most about once a second, with some haste after a long silence.
const DEVICE: Rate = Rate { burst: 120, each_ms: 50 };
/// An address without a session: joining and signing in, for a room full of phones behind one address.
const ADDRESS: Rate = Rate { burst: 120, each_ms: 50 };
/// The app's own files, by address: one visit asks for a few dozen.
const FILES: Rate = Rate { burst: 2_000, each_ms: 2 };
/// Wrong join codes by address: five, and five a minute.
const JOIN: Rate = Rate { burst: 5, each_ms: 12_000 };
/// More buckets than this are not kept; the fullest say least and go first.
const BUCKETS_MAX: usize = 20_000;

/// Every bucket of the hub.
#[derive(Debug)]
pub(crate) struct Limits {
    began: Steady,
    devices: Mutex<Buckets<DeviceId>>,
    addresses: Mutex<Buckets<IpAddr>>,
    files: Mutex<Buckets<IpAddr>>,
    joins: Mutex<Buckets<IpAddr>>,
}

impl Limits {
    /// Full buckets.
    pub(crate) fn new() -> Self {
        Self {
            began: Steady::now(),
            devices: Mutex::new(Buckets::new(DEVICE)),
            addresses: Mutex::new(Buckets::new(ADDRESS)),
            files: Mutex::new(Buckets::new(FILES)),
            joins: Mutex::new(Buckets::new(JOIN)),
        }
    }

    /// One request of a signed-in device.
    pub(crate) fn device(&self, dev: &DeviceId) -> Result<(), Problem> {
        self.take(&self.devices, dev)
    }

    /// One request of an address that has no session.
    pub(crate) fn address(&self, address: IpAddr) -> Result<(), Problem> {
        self.take(&self.addresses, &network(address))
    }

    /// The session was good: the request counts by its device alone.
    pub(crate) fn forgive_address(&self, address: IpAddr) {
        let mut buckets = self.addresses.lock().unwrap_or_else(PoisonError::into_inner);
        buckets.give_back(&network(address));
    }

    /// One file for an address.
    pub(crate) fn file(&self, address: IpAddr) -> Result<(), Problem> {
        self.take(&self.files, &network(address))
    }

    /// One try at the join code. [`Limits::forgive_join`] gives it back when the code was right.
    pub(crate) fn join(&self, address: IpAddr) -> Result<(), Problem> {
        self.take(&self.joins, &network(address))
    }

    /// The code was right: the try does not count.
    pub(crate) fn forgive_join(&self, address: IpAddr) {
        let mut buckets = self.joins.lock().unwrap_or_else(PoisonError::into_inner);
        buckets.give_back(&network(address));
    }

    fn take<K: Clone + Eq + Hash>(&self, buckets: &Mutex<Buckets<K>>, key: &K) -> Result<(), Problem> {
        let now_ms = u64::try_from(self.began.elapsed().as_millis()).unwrap_or(u64::MAX);
        let mut buckets = buckets.lock().unwrap_or_else(PoisonError::into_inner);
        buckets.take(key, now_ms).map_err(|retry_after_s| Problem::TooMany { retry_after_s })
    }
}

/// An IPv6 host has a /64 to itself, so the /64 is counted.
fn network(address: IpAddr) -> IpAddr {
    match address.to_canonical() {
        IpAddr::V6(v6) => IpAddr::V6((v6.to_bits() >> 64 << 64).into()),
        v4 @ IpAddr::V4(_) => v4,
    }
}

/// Buckets of one rate by key.
#[derive(Debug)]
struct Buckets<K> {
    rate: Rate,
    levels: HashMap<K, Level>,
}

/// How full a bucket was, in milliseconds of filling, and when.
#[derive(Clone, Copy, Debug)]
struct Level {
    filled_ms: u64,
    at_ms: u64,
}

impl<K: Clone + Eq + Hash> Buckets<K> {
    fn new(rate: Rate) -> Self {
        Self { rate, levels: HashMap::new() }
    }

    /// Takes one request's worth, or says in how many whole seconds it will be there.
    fn take(&mut self, key: &K, now_ms: u64) -> Result<(), u64> {
        if self.levels.len() >= BUCKETS_MAX && !self.levels.contains_key(key) {
            self.forget(now_ms);
        }
        let rate = self.rate;
        let level = self.levels.entry(key.clone()).or_insert(Level { filled_ms: rate.full_ms(), at_ms: now_ms });
        *level = Level { filled_ms: rate.filled_ms(*level, now_ms), at_ms: now_ms };
        let Some(left_ms) = level.filled_ms.checked_sub(rate.each_ms) else {
            return Err((rate.each_ms - level.filled_ms).div_ceil(1000));
        };
        level.filled_ms = left_ms;
        Ok(())
    }

    fn give_back(&mut self, key: &K) {
        let rate = self.rate;
        if let Some(level) = self.levels.get_mut(key) {
            level.filled_ms = (level.filled_ms + rate.each_ms).min(rate.full_ms());
        }
    }

    /// Drops the buckets that are full again; if that is not enough, those that are half full: these keys start anew,
    /// which costs little; at worst all.
    fn forget(&mut self, now_ms: u64) {
        let rate = self.rate;
        for enough_ms in [rate.full_ms(), rate.full_ms() / 2, 0] {
            self.levels.retain(|_, level| rate.filled_ms(*level, now_ms) < enough_ms);
            if self.levels.len() < BUCKETS_MAX {
                return;
            }
        }
    }
}

impl Rate {
    fn full_ms(self) -> u64 {
        self.burst * self.each_ms
    }

    fn filled_ms(self, level: Level, now_ms: u64) -> u64 {
        level.filled_ms.saturating_add(now_ms.saturating_sub(level.at_ms)).min(self.full_ms())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bucket_empties_says_when_and_fills_again() {
        let mut buckets = Buckets::new(JOIN);
        for _ in 0..5 {
            assert_eq!(buckets.take(&"a", 0), Ok(()));
        }
        for (key, at_ms, taken) in [
            ("a", 0, Err(12)),
            ("a", 11_000, Err(1)),
            ("b", 11_000, Ok(())),
            ("a", 12_000, Ok(())),
            ("a", 12_001, Err(12)),
        ] {
            assert_eq!(buckets.take(&key, at_ms), taken, "{key} at {at_ms} ms");
        }
    }

    #[test]
    fn a_right_code_is_not_counted() {
        let mut buckets = Buckets::new(JOIN);
        for _ in 0..50 {
            assert_eq!(buckets.take(&"a", 0), Ok(()));
            buckets.give_back(&"a");
        }
    }

    #[test]
    fn buckets_stay_bounded_under_ever_new_keys() {
        let mut buckets = Buckets::new(ADDRESS);
        for key in 0..3 * BUCKETS_MAX {
            assert_eq!(buckets.take(&key, 0), Ok(()));
        }
        assert!(buckets.levels.len() <= BUCKETS_MAX, "{}", buckets.levels.len());
    }

    #[test]
    fn ipv6_is_counted_by_its_network() {
        let of = |text: &str| network(text.parse().expect("an address"));
        assert_eq!(of("2001:db8::1"), of("2001:db8::ffff:2"));
        assert_ne!(of("2001:db8::1"), of("2001:db8:0:1::1"));
        assert_eq!(of("::ffff:192.0.2.7"), of("192.0.2.7"));
        assert_ne!(of("192.0.2.7"), of("192.0.2.8"));
    }
}
