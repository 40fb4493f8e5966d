//! `sweepbell export`: the hub's log as it arrived, one JWS compact per line, for `verify` and for safe keeping.

use std::io::Write as _;
use std::path::PathBuf;

use clap::Args;

use super::Failure;
use crate::store::{DEMO_FILE, SHOP_FILE, Store};

/// Write a hub's signed log, one line an entry.
#[derive(Args, Debug)]
pub(super) struct Export {
    /// Where the hub's database is kept.
    #[arg(long, value_name = "DIR", default_value = "data")]
    data: PathBuf,
    /// The demo shop's log instead of the shop's own.
    #[arg(long)]
    demo: bool,
}

impl Export {
    /// Writes every line.
    pub(super) fn run(self) -> Result<(), Failure> {
        let file = self.data.join(if self.demo { DEMO_FILE } else { SHOP_FILE });
        if !file.is_file() {
            return Err(Failure::Usage(format!("{}: no such file", file.display())));
        }
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
        let lines = runtime.block_on(async {
            let store = Store::open(&file).await?;
            let lines = store.lines().await;
            store.close().await;
            lines
        });
        let mut out = std::io::stdout().lock();
        for line in lines.map_err(|error| Failure::refused(&error))? {
            writeln!(out, "{line}")?;
        }
        Ok(out.flush()?)
    }
}
