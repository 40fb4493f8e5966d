//! Erasing what is over: at the start and every few hours, what was learned more than `shop.retention_days` ago and is
//! in force no longer. Several processes over one database may do it side by side: what is erased is not erased again.

use std::sync::Arc;
use std::time::Duration;

use shared_core::retention::limit;

use crate::clock;
use crate::hub::Hub;

/// How often it is looked for.
const EVERY: Duration = Duration::from_hours(6);

/// Again and again until the hub stops.
pub(crate) async fn follow(hub: Arc<Hub>) {
    loop {
        let (now, days) = (clock::now(), hub.shop.get().rulebook.shop.retention_days);
        match hub.store.retire(limit(now, days), now).await {
            Ok(0) => {}
            Ok(lines) => tracing::info!(lines, days, "lines of the log are over and were erased"),
            Err(error) => tracing::warn!(%error, "what is over could not be erased; later, then"),
        }
        tokio::time::sleep(EVERY).await;
    }
}
