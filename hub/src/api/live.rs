//! `GET /api/live`: server-sent events for one signed-in device.
//!
//! `log`: others' entries wait, sync to read them. `carry`: a code for this member. `shop`: rules, members or devices
//! changed. `still`: nothing happened for a while, and the stream is whole; each wakes a phone's radio, so there are few of them.
//! The stream ends with its session, with the hub, or when the device opened too many; a browser then asks
//! again by itself.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::State;
use axum::response::Sse;
use axum::response::sse::{self, KeepAlive};
use futures_util::stream::{self, Stream};
use serde_json::json;
use tokio::sync::broadcast::{Receiver, error::RecvError};

use crate::clock;
use crate::hub::Hub;
use crate::live::{Event, Place};
use crate::problem::Problem;
use crate::store::SignedIn;

/// Ways between hub and phone close what is silent for a minute. A phone that misses two of these asks (`app`'s
/// `shell/desk/sync.rs`).
const KEEP_ALIVE: Duration = Duration::from_secs(50);

/// Streams events from now on. The first, `shop`, tells the revision, so that what was missed meanwhile is noticed.
pub(crate) async fn live(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
) -> Result<Sse<impl Stream<Item = Result<sse::Event, Infallible>>>, Problem> {
    let (events, place) = hub.live.listen(&caller.dev);
    let first = told(&Event::Shop { rev: hub.shop.get().rev.clone() }, &caller);
    let listener = Listener { hub, caller, events, place, first };
    let stream = stream::unfold(listener, |mut listener| async move {
        let event = listener.next().await?;
        Some((Ok(event), listener))
    });
    let still = sse::Event::default().event("still").data("{}");
    Ok(Sse::new(stream).keep_alive(KeepAlive::new().interval(KEEP_ALIVE).event(still)))
}

struct Listener {
    hub: Arc<Hub>,
    caller: SignedIn,
    events: Receiver<Event>,
    place: Place,
    first: Option<sse::Event>,
}

impl Listener {
    async fn next(&mut self) -> Option<sse::Event> {
        if let Some(first) = self.first.take() {
            return Some(first);
        }
        let left_ms = u64::try_from((self.caller.ends - clock::now()).ms()).unwrap_or(0);
        let over = tokio::time::sleep(Duration::from_millis(left_ms));
        tokio::pin!(over);
        loop {
            let event = tokio::select! {
                event = self.events.recv() => event,
                () = self.place.taken() => return None,
                () = self.hub.stop.asked() => return None,
                () = &mut over => return None,
            };
            match event {
                // Taken off, it is told of nothing any more.
                Ok(Event::Shop { .. }) if !self.is_joined() => return None,
                Ok(event) => {
                    if let Some(event) = told(&event, &self.caller) {
                        return Some(event);
                    }
                }
                // Whatever was missed, one sync brings it.
                Err(RecvError::Lagged(_)) => return Some(sse::Event::default().event("log").data("{}")),
                Err(RecvError::Closed) => return None,
            }
        }
    }
}

impl Listener {
    fn is_joined(&self) -> bool {
        self.hub.shop.get().is_in_use(&self.caller.dev)
    }
}

/// What this device is told of an event, if anything.
fn told(event: &Event, to: &SignedIn) -> Option<sse::Event> {
    let (name, data) = match event {
        Event::Log { by: Some(by), .. } if *by == to.dev => return None,
        Event::Log { cursor, .. } => ("log", json!({ "cursor": cursor })),
        Event::Carry { to: member, .. } if *member != to.member => return None,
        Event::Carry { what, .. } => ("carry", json!(what)),
        Event::Missed => ("log", json!({})),
        Event::Shop { rev } => ("shop", json!({ "rev": rev })),
    };
    Some(sse::Event::default().event(name).data(data.to_string()))
}
