//! Live events: a nudge to every open stream that the log has grown, a code waits, or the rules changed.
//!
//! A nudge carries no entry: a phone syncs to learn more, so a lost nudge costs time and nothing else. A device has a
//! few streams at most; one more ends the oldest, because a phone that lost its network leaves dead ones behind.

use std::collections::{HashMap, VecDeque};
use std::sync::{Arc, Mutex, PoisonError};

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Carried;
use tokio::sync::{Notify, broadcast};

const STREAMS_PER_DEVICE: usize = 4;
/// Streams that lag further behind than this are told to sync once instead.
const EVENTS_KEPT: usize = 256;

/// Something that just happened at the hub.
#[derive(Clone, Debug)]
pub(crate) enum Event {
    /// The log has grown.
    Log {
        /// By whose entries, if all are one device's; it knows already.
        by: Option<DeviceId>,
        /// Up to which cursor.
        cursor: u64,
    },
    /// A code for a member.
    Carry {
        /// Whom it is for.
        to: PersonId,
        /// The code.
        what: Carried,
    },
    /// Whoever syncs is told more: lines that waited are handed out, or the database was away and nobody knows.
    Missed,
    /// Rules, members or devices changed.
    Shop {
        /// What `GET /api/shop` says now.
        rev: String,
    },
}

/// Everybody who listens.
#[derive(Debug)]
pub(crate) struct Live {
    events: broadcast::Sender<Event>,
    streams: Mutex<HashMap<DeviceId, VecDeque<Arc<Notify>>>>,
}

/// A stream's place among its device's streams; dropping it gives the place back.
#[derive(Debug)]
pub(crate) struct Place {
    live: Arc<Live>,
    dev: DeviceId,
    ended: Arc<Notify>,
}

impl Live {
    /// Nobody listens yet.
    pub(crate) fn new() -> Self {
        Self { events: broadcast::Sender::new(EVENTS_KEPT), streams: Mutex::default() }
    }

    /// Tells everybody.
    pub(crate) fn tell(&self, event: Event) {
        // Nobody listening is not an error.
        let _ = self.events.send(event);
    }

    /// How many streams are open.
    pub(crate) fn streams(&self) -> usize {
        self.events.receiver_count()
    }

    /// Listens from now on, as one of the device's streams.
    pub(crate) fn listen(self: &Arc<Self>, dev: &DeviceId) -> (broadcast::Receiver<Event>, Place) {
        let ended = Arc::new(Notify::new());
        let mut streams = self.streams.lock().unwrap_or_else(PoisonError::into_inner);
        let of_device = streams.entry(dev.clone()).or_default();
        if of_device.len() == STREAMS_PER_DEVICE
            && let Some(oldest) = of_device.pop_front()
        {
            oldest.notify_one();
        }
        of_device.push_back(Arc::clone(&ended));
        (self.events.subscribe(), Place { live: Arc::clone(self), dev: dev.clone(), ended })
    }
}

impl Place {
    /// Completes when a newer stream of the same device took this place.
    pub(crate) async fn taken(&self) {
        self.ended.notified().await;
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        let mut streams = self.live.streams.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(of_device) = streams.get_mut(&self.dev) {
            of_device.retain(|stream| !Arc::ptr_eq(stream, &self.ended));
            if of_device.is_empty() {
                streams.remove(&self.dev);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_devices_streams_are_bounded_and_forgotten() {
        let live = Arc::new(Live::new());
        let phone = DeviceId::new("phone");
        let places: Vec<_> = (0..STREAMS_PER_DEVICE + 2).map(|_| live.listen(&phone).1).collect();
        let count = |live: &Live| live.streams.lock().expect("not poisoned").get(&phone).map_or(0, VecDeque::len);
        assert_eq!(count(&live), STREAMS_PER_DEVICE);
        drop(places);
        assert_eq!(count(&live), 0);
    }
}
