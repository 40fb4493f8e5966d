//! Connections: who may have how many, for how long, and how they end.
//!
//! An address gets a bounded number, and one that says nothing is closed: otherwise a single device could hold every
//! socket the system has, and nobody else would be served. When the hub stops, requests under way are finished.

use std::collections::HashMap;
use std::convert::Infallible;
use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::extract::Request;
use axum::serve::Listener;
use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
use tower::ServiceExt as _;

use crate::stop::{GRACE, Stop};

/// The address that a request came from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Peer(pub(crate) IpAddr);

/// A browser opens six, and a few phones may share an address.
const PER_ADDRESS_MAX: usize = 64;
/// So many at most, whatever the system allows: each costs some kilobytes while it says nothing.
const TOTAL_MAX: usize = 20_000;
/// Open files that are kept for the database, the app's files and what is sent to push services.
const OTHER_FILES: usize = 124;
/// A connection that sends no request for so long is closed.
const SILENT_MAX: Duration = Duration::from_secs(30);
/// With more connections than this one is closed sooner: each keeps some 20 KB while it says nothing.
const MANY: usize = 2_000;
const SILENT_MAX_OF_MANY: Duration = Duration::from_secs(3);

/// Serves whoever connects, until asked to stop.
pub(crate) async fn serve(mut listener: impl Listener<Addr = SocketAddr>, app: Router, stop: &Stop) {
    let (graceful, slots) = (GracefulShutdown::new(), Arc::new(Slots::new(total(open_files()))));
    loop {
        let (stream, from) = tokio::select! {
            accepted = listener.accept() => accepted,
            () = stop.asked() => break,
        };
        let Some(slot) = Slot::take(&slots, from.ip()) else {
            tracing::debug!(address = %from.ip(), "too many connections");
            continue;
        };
        let (peer, app) = (Peer(from.ip().to_canonical()), app.clone());
        let service = service_fn(move |request| answer(app.clone(), peer, request));
        let mut http = http1::Builder::new();
        http.timer(TokioTimer::new()).header_read_timeout(slot.silent_max);
        let connection = graceful.watch(http.serve_connection(TokioIo::new(stream), service));
        tokio::spawn(async move {
            let _slot = slot;
            if let Err(error) = connection.await {
                tracing::debug!(%error, "a connection ended");
            }
        });
    }
    drop(listener);
    if tokio::time::timeout(GRACE, graceful.shutdown()).await.is_err() {
        tracing::warn!("requests under way were cut off");
    }
}

async fn answer(app: Router, peer: Peer, request: Request<Incoming>) -> Result<axum::response::Response, Infallible> {
    let mut request = request.map(Body::new);
    request.extensions_mut().insert(peer);
    app.oneshot(request).await
}

/// How many files this process may have open. What a system grants at once is often a small part of what it grants whoever
/// asks, and 5,000 live streams are 5,000 open files: so it is asked, for as many as are of use.
fn open_files() -> usize {
    let granted = getrlimit(Resource::Nofile);
    let Some(now) = granted.current else { return usize::MAX };
    let wanted = u64::try_from(TOTAL_MAX + OTHER_FILES).unwrap_or(u64::MAX);
    let more = granted.maximum.map_or(wanted, |most| most.min(wanted)).max(now);
    let files = if setrlimit(Resource::Nofile, Rlimit { current: Some(more), ..granted }).is_ok() { more } else { now };
    usize::try_from(files).unwrap_or(usize::MAX)
}

/// How many connections that is good for.
fn total(open_files: usize) -> usize {
    open_files.saturating_sub(OTHER_FILES).clamp(PER_ADDRESS_MAX, TOTAL_MAX)
}

/// How many connections each address has, and how many all may have.
#[derive(Debug)]
struct Slots {
    open: Mutex<Open>,
    total_max: usize,
}

#[derive(Debug, Default)]
struct Open {
    total: usize,
    by_address: HashMap<IpAddr, usize>,
}

impl Slots {
    fn new(total_max: usize) -> Self {
        Self { open: Mutex::default(), total_max }
    }
}

/// One connection's place; dropping it gives the place back.
#[derive(Debug)]
struct Slot {
    slots: Arc<Slots>,
    address: IpAddr,
    /// How long its connection may say nothing.
    silent_max: Duration,
}

impl Slot {
    fn take(slots: &Arc<Slots>, address: IpAddr) -> Option<Self> {
        let mut open = slots.open.lock().unwrap_or_else(PoisonError::into_inner);
        let own = open.by_address.get(&address).copied().unwrap_or(0);
        // A proxy on this machine speaks for everybody.
        let may = if address.is_loopback() { slots.total_max } else { PER_ADDRESS_MAX };
        if own >= may || open.total >= slots.total_max {
            return None;
        }
        open.total += 1;
        open.by_address.insert(address, own + 1);
        let silent_max = if open.total > MANY { SILENT_MAX_OF_MANY } else { SILENT_MAX };
        Some(Self { slots: Arc::clone(slots), address, silent_max })
    }
}

impl Drop for Slot {
    fn drop(&mut self) {
        let mut open = self.slots.open.lock().unwrap_or_else(PoisonError::into_inner);
        open.total -= 1;
        match open.by_address.get_mut(&self.address) {
            Some(own) if *own > 1 => *own -= 1,
            _ => drop(open.by_address.remove(&self.address)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_has_its_share_and_gives_it_back() {
        let slots = Arc::new(Slots::new(900));
        let address = |text: &str| text.parse::<IpAddr>().expect("an address");
        let mut held: Vec<_> = (0..PER_ADDRESS_MAX).map(|_| Slot::take(&slots, address("192.0.2.7"))).collect();
        assert!(held.iter().all(Option::is_some));
        assert!(Slot::take(&slots, address("192.0.2.7")).is_none());
        assert!(Slot::take(&slots, address("192.0.2.8")).is_some(), "another is served");
        held.pop();
        assert!(Slot::take(&slots, address("192.0.2.7")).is_some());
        drop(held);
        assert!(slots.open.lock().expect("not poisoned").by_address.is_empty(), "nothing is remembered of who left");
        let proxy: Vec<_> = (0..=900).map(|_| Slot::take(&slots, address("127.0.0.1"))).collect();
        assert_eq!(proxy.iter().flatten().count(), 900);
        assert!(Slot::take(&slots, address("192.0.2.7")).is_none(), "no more than all may have");
        drop(proxy);
        assert_eq!(slots.open.lock().expect("not poisoned").total, 0);
    }

    #[test]
    fn connections_leave_room_for_other_files() {
        for (open_files, connections) in
            [(1_024, 900), (20_000, 19_876), (usize::MAX, TOTAL_MAX), (524_288, TOTAL_MAX), (128, PER_ADDRESS_MAX)]
        {
            assert_eq!(total(open_files), connections, "{open_files} open files");
        }
    }
}
