//! `sweepbell export`: the hub's log as it arrived, one JWS compact per line, for `verify` and for safe keeping.

use std::io::Write as _;

use clap::Args;

use super::{Failure, block_on};
use crate::config::DatabaseArguments;
use crate::store::Store;

/// Write a hub's signed log, one line an entry.
#[derive(Args, Debug)]
pub(super) struct Export {
    #[command(flatten)]
    database: DatabaseArguments,
    /// The demo shop's log instead of the shop's own.
    #[arg(long)]
    demo: bool,
}

impl Export {
    /// Writes every line.
    pub(super) fn run(self) -> Result<(), Failure> {
        let place = self.database.place(self.demo).map_err(|error| Failure::Usage(error.to_string()))?;
        if !place.may_exist() {
            return Err(Failure::Usage(format!("{place}: no such file")));
        }
        let lines = block_on(async {
            let store = Store::open(&place).await?;
            let lines = store.lines().await;
            store.close().await;
            lines
        })?;
        let mut out = std::io::stdout().lock();
        for line in lines.map_err(|error| Failure::refused(&error))? {
            writeln!(out, "{line}")?;
        }
        Ok(out.flush()?)
    }
}
