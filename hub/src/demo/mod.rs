//! The demo shop, Canal Yard, and four weeks of its log: invented, and saying so.
//!
//! The same seed and the same day give the same story. The keys that sign it are new each time and thrown away at
//! once, so that nobody can speak for an invented device afterwards. Nothing here touches a shop of somebody's own.

mod chance;
mod desk;
mod evening;
mod scribe;
mod sitting;
#[cfg(test)]
mod tests;
mod weeks;

use shared_core::time::{Instant, Span};

use self::scribe::Scribe;
use crate::secret;
use crate::shop::Rules;
use crate::store::{Row, Says, Store, StoreError};

/// The demo's rulebook.
pub(crate) const SHOP: &str = include_str!("../../demo/shop.toml");
/// The demo's members.
pub(crate) const MEMBERS: &str = include_str!("../../demo/members.toml");

/// How long an invented phone took to reach the hub.
const ON_THE_WAY: Span = Span::from_ms(4_000);
/// Devices joined before their first evening.
const JOINED_BEFORE: Span = Span::from_minutes(30 * 24 * 60);

/// Writes the demo log into a database that nobody joined yet, all of it or nothing. Gives the number of entries.
pub(crate) async fn load(store: &Store, rules: &Rules, seed: u64, now: Instant) -> Result<usize, DemoError> {
    let mut change = store.change().await?;
    if !change.is_new().await? {
        return Ok(0);
    }
    let entries = weeks::story(rules, seed, now);
    let mut scribe = Scribe::new(rules.book.clone(), secret::random()?);
    for member in &rules.members {
        change.join(scribe.device(&member.id), &member.id, now - JOINED_BEFORE).await?;
    }
    for entry in &entries {
        let signed = scribe.sign(entry);
        let row = Row {
            dev: &signed.dev,
            seq: signed.seq,
            hash: scribe.hash_of_last(&entry.who),
            jws: &signed.jws,
            aside: None,
            says: Some(Says::of(entry)),
        };
        change.append(&row, entry.at + ON_THE_WAY).await?;
    }
    change.commit().await?;
    Ok(entries.len())
}

/// Why there is no demo log.
#[derive(Debug, thiserror::Error)]
pub(crate) enum DemoError {
    /// The database.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// No random bytes for the keys.
    #[error("the operating system gives no random bytes: {0}")]
    Random(#[from] getrandom::Error),
}
