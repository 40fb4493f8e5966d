//! The running hub: what every endpoint may ask. Made once in [`crate::serve`], shared by all requests.
//!
//! Several processes may serve one database. What they must agree on is in the store or follows from it; what is here
//! besides may differ between them without harm, and each field says why.

use std::sync::Arc;

use thiserror::Error;
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
use crate::rereading::Rereading;
use crate::shop::{Current, InForce, Rules, ShopError};
use crate::stop::Stop;
use crate::store::{Store, StoreError};
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
    /// Whose turn it is to read the store for that.
    pub(crate) rereading: Rereading,
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

/// Why other rules were not taken; those that were served stay in force.
#[derive(Debug, Error)]
pub(crate) enum RulesFault {
    /// The database.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The files, or what was published.
    #[error(transparent)]
    Shop(#[from] ShopError),
    /// The cards that they ask for.
    #[error(transparent)]
    Cards(#[from] CardsFault),
}

impl Hub {
    /// Hands out what the store has of devices and cards, makes what cards are due, and tells phones if anything differs. What the
    /// store had when this was called is served once it returns.
    pub(crate) async fn reread(&self) -> Result<(), CardsFault> {
        let turn = self.rereading.turn().await;
        if turn.is_served() {
            return Ok(());
        }
        let issued = cards::renewed(&self.store, self.shop.get().file(), clock::now()).await?;
        self.tell(self.shop.set_issued(issued));
        turn.ended_well();
        Ok(())
    }

    /// Takes the rules that are in force by now, and makes the cards that they ask for. Gives the new revision if it differs.
    pub(crate) async fn reread_rules(&self) -> Result<Option<String>, RulesFault> {
        let turn = self.rereading.turn().await;
        let published = self.store.newest_published().await?;
        let rules = Rules::read(&self.config.source, published.as_ref(), clock::now())?;
        let issued = cards::renewed(&self.store, &rules.members, clock::now()).await?;
        let rev = self.shop.set(rules, issued);
        self.tell(rev.clone());
        turn.ended_well();
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
