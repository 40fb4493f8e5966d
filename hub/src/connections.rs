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
use tower::ServiceExt as _;

use crate::stop::{GRACE, Stop};

/// The address that a request came from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Peer(pub(crate) IpAddr);

/// A browser opens six, and a few phones may share an address.
const PER_ADDRESS_MAX: usize = 64;
/// Systems allow 1024 open files by default; the database and the app's files need some of them.
const TOTAL_MAX: usize = 900;
/// A connection that sends no request for so long is closed.
const SILENT_MAX: Duration = Duration::from_secs(30);

/// Serves whoever connects, until asked to stop.
pub(crate) async fn serve(mut listener: impl Listener<Addr = SocketAddr>, app: Router, stop: &Stop) {
    let (graceful, slots) = (GracefulShutdown::new(), Arc::new(Slots::default()));
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
        http.timer(TokioTimer::new()).header_read_timeout(SILENT_MAX);
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

/// How many connections each address has.
#[derive(Debug, Default)]
struct Slots(Mutex<HashMap<IpAddr, usize>>);

/// One connection's place; dropping it gives the place back.
#[derive(Debug)]
struct Slot {
    slots: Arc<Slots>,
    address: IpAddr,
}

impl Slot {
    fn take(slots: &Arc<Slots>, address: IpAddr) -> Option<Self> {
        let mut open = slots.0.lock().unwrap_or_else(PoisonError::into_inner);
        let own = open.get(&address).copied().unwrap_or(0);
        // A proxy on this machine speaks for everybody.
        let may = if address.is_loopback() { TOTAL_MAX } else { PER_ADDRESS_MAX };
        if own >= may || open.values().sum::<usize>() >= TOTAL_MAX {
            return None;
        }
        open.insert(address, own + 1);
        Some(Self { slots: Arc::clone(slots), address })
    }
}

impl Drop for Slot {
    fn drop(&mut self) {
        let mut open = self.slots.0.lock().unwrap_or_else(PoisonError::into_inner);
        match open.get_mut(&self.address) {
            Some(own) if *own > 1 => *own -= 1,
            _ => drop(open.remove(&self.address)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_has_its_share_and_gives_it_back() {
        let slots = Arc::new(Slots::default());
        let address = |text: &str| text.parse::<IpAddr>().expect("an address");
        let mut held: Vec<_> = (0..PER_ADDRESS_MAX).map(|_| Slot::take(&slots, address("192.0.2.7"))).collect();
        assert!(held.iter().all(Option::is_some));
        assert!(Slot::take(&slots, address("192.0.2.7")).is_none());
        assert!(Slot::take(&slots, address("192.0.2.8")).is_some(), "another is served");
        held.pop();
        assert!(Slot::take(&slots, address("192.0.2.7")).is_some());
        drop(held);
        assert!(slots.0.lock().expect("not poisoned").is_empty(), "nothing is remembered of who left");
        let proxy: Vec<_> = (0..=TOTAL_MAX).map(|_| Slot::take(&slots, address("127.0.0.1"))).collect();
        assert_eq!(proxy.iter().flatten().count(), TOTAL_MAX);
    }
}
