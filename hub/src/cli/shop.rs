//! What the commands of a steward's machine have in common: which shop, and its store, which a hub may be serving.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, block_on};
use crate::clock;
use crate::config::DatabaseArguments;
use crate::shop::{Rules, Source};
use crate::store::Store;

/// Which shop.
#[derive(Args, Clone, Debug)]
pub(super) struct ShopArguments {
    /// The shop's rulebook.
    #[arg(long, value_name = "SHOP.toml", requires = "members")]
    shop: Option<PathBuf>,
    /// The shop's members file.
    #[arg(long, value_name = "MEMBERS.toml", requires = "shop")]
    members: Option<PathBuf>,
    #[command(flatten)]
    database: DatabaseArguments,
    /// The demo shop.
    #[arg(long, conflicts_with = "shop")]
    demo: bool,
}

impl ShopArguments {
    /// The shop's files, which must be named, or the demo's.
    pub(super) fn rules(&self) -> Result<Rules, Failure> {
        let source = match (self.shop.clone(), self.members.clone()) {
            (Some(shop), Some(members)) => Source::Files { shop, members },
            _ if self.demo => Source::Demo,
            _ => return Err(Failure::Usage("say whose: --shop SHOP.toml --members MEMBERS.toml, or --demo".into())),
        };
        Rules::read(&source, None, clock::now()).map_err(|mistakes| Failure::refused(&mistakes))
    }
}

/// Does something with the shop's store.
pub(super) fn with_store<T>(
    shop: &ShopArguments,
    act: impl AsyncFnOnce(&Store) -> anyhow::Result<T>,
) -> Result<T, Failure> {
    let place = shop.database.place(shop.demo).map_err(|error| Failure::Usage(error.to_string()))?;
    if !place.may_exist() {
        return Err(Failure::Usage(format!("{place}: no such file; start the hub once")));
    }
    let done = block_on(async {
        let store = Store::open(&place).await?;
        let done = act(&store).await;
        store.close().await;
        done
    })?;
    done.map_err(|error| Failure::refused(&error))
}
