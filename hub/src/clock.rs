//! The hub's clock: the one place in this crate that asks what time it is.

use std::time::{SystemTime, UNIX_EPOCH};

use shared_core::time::Instant;

/// Now, in UTC. A clock before 1970 reads as 1970: the hub has no use for such an instant.
pub(crate) fn now() -> Instant {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Instant::from_ms(i64::try_from(since.as_millis()).unwrap_or(i64::MAX))
}
