//! Acting on what committed changes tell, in this process or another: live streams are nudged, devices are read anew.
//!
//! A nudge costs each open stream a write, so that with thousands of them every entry by itself would keep the hub from all
//! else. One that comes soon after another therefore waits a moment, and is one with whatever comes meanwhile.

use std::sync::Arc;
use std::time::{Duration, Instant as Steady};

use shared_core::ids::DeviceId;
use shared_core::sync::shop::Carried;
use tokio::sync::broadcast::{Receiver, error::RecvError};

use crate::hub::Hub;
use crate::live::Event;
use crate::store::News;

/// What a stream's nudge takes, generously: so long for each that is open it is quiet before the next, and half of the time.
const EACH: Duration = Duration::from_micros(100);

/// Acts on news until there will be none, or the hub stops.
pub(crate) async fn follow(hub: Arc<Hub>, mut news: Receiver<News>) {
    let mut nudges = Nudges::default();
    loop {
        let now = Steady::now();
        if let Some(event) = nudges.due(now, hub.live.streams()) {
            hub.live.tell(event);
        }
        let heard = tokio::select! {
            heard = news.recv() => heard,
            () = tokio::time::sleep_until(nudges.quiet_until.into()), if nudges.waits.is_some() => continue,
            () = hub.stop.asked() => return,
        };
        match heard {
            Ok(News::Log { by, cursor }) => nudges.add(by, cursor),
            Ok(News::Proved { .. } | News::Picture) => hub.live.tell(Event::Missed),
            Ok(News::Carry { to, from, text }) => hub.live.tell(Event::Carry { to, what: Carried { from, text } }),
            Ok(News::Joined) => reread(&hub).await,
            Ok(News::Missed) | Err(RecvError::Lagged(_)) => {
                reread(&hub).await;
                hub.live.tell(Event::Missed);
            }
            Err(RecvError::Closed) => return,
        }
    }
}

/// Nudges that the log has grown, spaced by what they cost.
#[derive(Debug)]
struct Nudges {
    /// By whom, if by one device alone, and up to which cursor.
    waits: Option<(Option<DeviceId>, u64)>,
    quiet_until: Steady,
}

impl Default for Nudges {
    fn default() -> Self {
        Self { waits: None, quiet_until: Steady::now() }
    }
}

impl Nudges {
    fn add(&mut self, by: DeviceId, cursor: u64) {
        self.waits = Some(match self.waits.take() {
            Some((Some(other), before)) if other == by => (Some(by), cursor.max(before)),
            Some((_, before)) => (None, cursor.max(before)),
            None => (Some(by), cursor),
        });
    }

    /// What is told now, if anything.
    fn due(&mut self, now: Steady, streams: usize) -> Option<Event> {
        if now < self.quiet_until {
            return None;
        }
        let (by, cursor) = self.waits.take()?;
        self.quiet_until = now + EACH * u32::try_from(streams).unwrap_or(u32::MAX);
        Some(Event::Log { by, cursor })
    }
}

/// A database that does not answer now is asked again with the next news; until then phones miss a device, no entry.
async fn reread(hub: &Hub) {
    if let Err(error) = hub.reread().await {
        tracing::warn!(%error, "the devices and cards could not be read");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a stream is told, as `by cursor`; nobody alone is `-`.
    fn told(nudges: &mut Nudges, now: Steady) -> Option<String> {
        let Event::Log { by, cursor } = nudges.due(now, 5_000)? else { return Some("something else".into()) };
        Some(format!("{} {cursor}", by.map_or("-".into(), |by| by.to_string())))
    }

    #[test]
    fn nudges_of_a_moment_are_one_and_none_is_lost() {
        let (mut nudges, began) = (Nudges::default(), Steady::now());
        for (ms, heard, expected) in [
            (0, &[("ada", 1)][..], Some("ada 1")),
            (1, &[("ada", 2)], None),
            (499, &[("ada", 3)], None),
            (500, &[], Some("ada 3")),
            (510, &[("ada", 4), ("bo", 5), ("ada", 6)], None),
            (1_000, &[], Some("- 6")),
            (1_400, &[], None),
            (1_500, &[], None),
            (9_000, &[("bo", 7)], Some("bo 7")),
        ] {
            for (by, cursor) in heard {
                nudges.add((*by).into(), *cursor);
            }
            let now = began + Duration::from_millis(ms);
            assert_eq!(told(&mut nudges, now).as_deref(), expected, "at {ms} ms");
        }
    }
}
