//! The running hub: what every endpoint may ask. Made once in [`crate::serve`], shared by all requests.
//!
//! Several processes may serve one database. What they must agree on is in the store or follows from it; what is here
//! besides may differ between them without harm, and each field says why.

use std::sync::Arc;

use tokio::sync::Notify;

use crate::auth::Sessions;
use crate::cards::{self, CardsFault};
use crate::challenge::Challenges;
use crate::clock;
use crate::config::Config;
use crate::limit::Limits;
use crate::live::{Event, Live};
use crate::pages::Pages;
use crate::problem::Problem;
use crate::push::Sender;
use crate::shop::{Current, InForce, Rules};
use crate::stop::Stop;
use crate::store::Store;
use crate::taking::Taking;

/// Everything there is one of.
#[derive(Debug)]
pub(crate) struct Hub {
    /// How it was started.
    pub(crate) config: Config,
    /// The address that goes into codes.
    pub(crate) base: String,
    /// The code with which anybody joins the demo shop as anybody; a shop of somebody's own has none.
    pub(crate) demo_code: Option<String>,
    /// What must not be lost.
    pub(crate) store: Store,
    /// Where pushes wait until they are written.
    pub(crate) taking: Taking,
    /// The shop that is served: read from the same files everywhere, and from the store's devices and cards.
    pub(crate) shop: Current,
    /// Whose sessions were seen. Whether one still holds is asked of the store each time: a phone may be taken off.
    pub(crate) sessions: Sessions,
    /// Who asks too much of this process: with several, as often as there are.
    pub(crate) limits: Limits,
    /// What is given to be signed, under a key of the store's.
    pub(crate) challenges: Challenges,
    /// Who listens here; what happens elsewhere comes as the store's news.
    pub(crate) live: Arc<Live>,
    /// Pages of the log that were just handed out here.
    pub(crate) pages: Pages,
    /// What sends to push services, under a key of the store's.
    pub(crate) sender: Sender,
    /// Told when a phone subscribed here: what is due is looked up at once.
    pub(crate) rouse: Notify,
    /// Lines were taken whose own signatures are still to be checked; another process finds them in the store.
    pub(crate) owes_proof: Notify,
    /// Whether it is time to end.
    pub(crate) stop: Stop,
}

impl Hub {
    /// Hands out what the store has of devices and cards, makes what cards are due, and tells phones if anything differs.
    pub(crate) async fn reread(&self) -> Result<(), CardsFault> {
        let served = self.shop.get();
        let issued = cards::renewed(&self.store, served.file(), clock::now()).await?;
        self.tell(self.shop.set_issued(issued));
        Ok(())
    }

    /// Takes other rules, and makes the cards that they ask for. Gives the new revision if it differs.
    pub(crate) async fn take_rules(&self, rules: Rules) -> Result<Option<String>, CardsFault> {
        let issued = cards::renewed(&self.store, &rules.members, clock::now()).await?;
        let rev = self.shop.set_rules(rules, issued);
        self.tell(rev.clone());
        Ok(rev)
    }

    /// The rulebook that is in force, whole.
    pub(crate) async fn rules(&self) -> Result<InForce, Problem> {
        let published = self.store.newest_published().await?;
        self.config.source.in_force(published.as_ref()).map_err(|error| Problem::Fault(error.to_string()))
    }

    fn tell(&self, rev: Option<String>) {
        if let Some(rev) = rev {
            self.live.tell(Event::Shop { rev });
        }
    }
}
