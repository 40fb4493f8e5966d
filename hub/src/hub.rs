//! The running hub: what every endpoint may ask. Made once in [`crate::serve`], shared by all requests.

use std::sync::Arc;

use crate::auth::Sessions;
use crate::carry::Mailbox;
use crate::challenge::Challenges;
use crate::config::Config;
use crate::limit::Limits;
use crate::live::Live;
use crate::shop::Current;
use crate::stop::Stop;
use crate::store::Store;

/// Everything there is one of.
#[derive(Debug)]
pub(crate) struct Hub {
    /// How it was started.
    pub(crate) config: Config,
    /// The code that lets a phone join.
    pub(crate) join_code: String,
    /// What must not be lost.
    pub(crate) store: Store,
    /// The shop that is served.
    pub(crate) shop: Current,
    /// Who was seen signed in.
    pub(crate) sessions: Sessions,
    /// Who asks too much.
    pub(crate) limits: Limits,
    /// What was given to be signed.
    pub(crate) challenges: Challenges,
    /// Codes on their way.
    pub(crate) mailbox: Mailbox,
    /// Who listens.
    pub(crate) live: Arc<Live>,
    /// Whether it is time to end.
    pub(crate) stop: Stop,
}
