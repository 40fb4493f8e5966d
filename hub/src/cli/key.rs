//! `sweepbell key list|rotate`: the key that cards are signed with.
//!
//! A new key is vouched for by the one before, so that phones follow; all cards are made anew under it. The old key's secret
//! is forgotten at once.

use clap::{Args, Subcommand};
use serde::Serialize;
use shared_core::card::GOOD_FOR;
use shared_core::card::keys::Keys;
use shared_core::time::Instant;

use super::shop::{ShopArguments, with_store};
use super::{Failure, answer};
use crate::store::Signing;
use crate::{clock, secret};

/// List the hub's keys, or put a new one in the place of the one in use.
#[derive(Args, Debug)]
pub(super) struct Key {
    #[command(subcommand)]
    act: Act,
}

#[derive(Debug, Subcommand)]
enum Act {
    /// All keys, the one in use last.
    List(ShopArguments),
    /// Make a new key. Cards that the old one signed hold until they run out.
    Rotate {
        /// They hold no longer: somebody else may have the old key. Phones that have not met the hub since then find
        /// each other's cards unknown until they do.
        #[arg(long)]
        at_once: bool,
        #[command(flatten)]
        shop: ShopArguments,
    },
}

#[derive(Debug, Serialize)]
struct Row {
    kid: String,
    from: Instant,
    until: Option<Instant>,
}

impl Key {
    /// Does it, and lists the keys.
    pub(super) fn run(self) -> Result<(), Failure> {
        let signing = match self.act {
            Act::List(shop) => with_store(&shop, async |store| Ok(store.signing().await?))?,
            Act::Rotate { at_once, shop } => Some(with_store(&shop, async |store| rotate(store, at_once).await)?),
        };
        let statements = signing.map(|Signing { statements, .. }| statements).unwrap_or_default();
        if statements.is_empty() {
            return answer(&[(); 0]);
        }
        let keys = Keys::read(&statements).map_err(|fault| Failure::refused(&fault))?;
        let row =
            |key: &shared_core::card::keys::HubKey| Row { kid: key.kid.clone(), from: key.from, until: key.until };
        answer(&keys.all().iter().map(row).collect::<Vec<_>>())
    }
}

async fn rotate(store: &crate::store::Store, at_once: bool) -> anyhow::Result<Signing> {
    let now = clock::now();
    let old_until = if at_once { now } else { now + GOOD_FOR };
    let mut change = store.change().await?;
    // A hub that never served has no key to rotate: the first is made, and vouches for the second.
    change.signing(secret::random()?, now).await?;
    let signing = change.rotate(secret::random()?, now, old_until).await?;
    change.commit().await?;
    Ok(signing)
}
