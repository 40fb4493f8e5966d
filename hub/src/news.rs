//! Acting on what committed changes tell, in this process or another: live streams are nudged, devices are read anew.

use std::sync::Arc;

use shared_core::sync::shop::Carried;
use tokio::sync::broadcast::{Receiver, error::RecvError};

use crate::hub::Hub;
use crate::live::Event;
use crate::store::News;

/// Acts on news until there will be none, or the hub stops.
pub(crate) async fn follow(hub: Arc<Hub>, mut news: Receiver<News>) {
    loop {
        let heard = tokio::select! {
            heard = news.recv() => heard,
            () = hub.stop.asked() => return,
        };
        match heard {
            Ok(News::Log { by, cursor }) => hub.live.tell(Event::Log { by, cursor }),
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

/// A database that does not answer now is asked again with the next news; until then phones miss a device, no entry.
async fn reread(hub: &Hub) {
    if let Err(error) = hub.reread().await {
        tracing::warn!(%error, "the devices and cards could not be read");
    }
}
