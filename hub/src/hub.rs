//! The running hub: what every endpoint may ask. Made once in [`crate::serve`], shared by all requests.

//!
//! Several processes may serve one database. What they must agree on is in the store or follows from it; what is here
//! besides may differ between them without harm, and each field says why.

use std::sync::Arc;

use crate::auth::Sessions;
use crate::challenge::Challenges;
use crate::config::Config;
use crate::limit::Limits;
use crate::live::{Event, Live};
use crate::shop::Current;
use crate::stop::Stop;
use crate::store::{Store, StoreError};

/// Everything there is one of.
#[derive(Debug)]
pub(crate) struct Hub {
    /// How it was started.
    pub(crate) config: Config,
    /// The code that lets a phone join, if this process alone knows it; else it is in the store.
    pub(crate) own_code: Option<String>,
    /// What must not be lost.
    pub(crate) store: Store,
    /// The shop that is served: read from the same files everywhere, and from the store's devices.
    pub(crate) shop: Current,
    /// Who was seen signed in. A session never ends early, so what was seen stays true.
    pub(crate) sessions: Sessions,
    /// Who asks too much of this process: with several, as often as there are.
    pub(crate) limits: Limits,
    /// What is given to be signed, under a key of the store's.
    pub(crate) challenges: Challenges,
    /// Who listens here; what happens elsewhere comes as the store's news.
    pub(crate) live: Arc<Live>,
    /// Whether it is time to end.
    pub(crate) stop: Stop,
}

impl Hub {
    /// Hands out the devices that the store has, and tells phones if there are more than before.
    pub(crate) async fn reread_devices(&self) -> Result<(), StoreError> {
        if let Some(rev) = self.shop.set_devices(self.store.devices().await?) {
            self.live.tell(Event::Shop { rev });
        }
        Ok(())
    }
}
