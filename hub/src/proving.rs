//! Checking by itself what a later line of its phone vouched for, as soon as there is any (`store/unproved.rs`).
//!
//! Whoever waits for an answer goes first: it begins when no push is under way and no long one has come for a moment, or half a
//! second after the first. Each process looks: what one left undone when it ended, another does. Done twice, it does no harm.

use std::sync::Arc;
use std::time::Duration;

use crate::hub::Hub;

/// How often the store is asked for what another process left.
const LOOK_EVERY: Duration = Duration::from_secs(2);
/// How long it is left alone after it failed.
const AGAIN: Duration = Duration::from_secs(10);
/// A moment.
const QUIET: Duration = Duration::from_millis(20);
/// No longer than this is waited for one.
const QUIET_WITHIN: Duration = Duration::from_millis(500);

/// Proves until the hub stops.
pub(crate) async fn follow(hub: Arc<Hub>) {
    loop {
        match hub.store.prove_some().await {
            Ok(true) => continue,
            Ok(false) => {}
            Err(error) => {
                tracing::warn!(%error, "lines that wait to be proved could not be");
                tokio::select! {
                    () = tokio::time::sleep(AGAIN) => {}
                    () = hub.stop.asked() => return,
                }
            }
        }
        tokio::select! {
            () = hub.owes_proof.notified() => quiet(&hub).await,
            () = tokio::time::sleep(LOOK_EVERY) => {}
            () = hub.stop.asked() => return,
        }
    }
}

async fn quiet(hub: &Hub) {
    let quiet = async {
        while tokio::time::timeout(QUIET, hub.owes_proof.notified()).await.is_ok() || !hub.taking.is_quiet() {}
    };
    // Whether there was a moment or not: now it is due.
    let _ = tokio::time::timeout(QUIET_WITHIN, quiet).await;
}
