//! `sweepbell export`: the hub's log as it arrived, one JWS compact per line, for `verify` and for safe keeping.

use std::io::Write as _;
use std::path::PathBuf;

use clap::Args;

use super::Failure;
use crate::store::Store;

/// Write a hub's signed log, one line an entry.
#[derive(Args, Debug)]
pub(super) struct Export {
    /// The hub's database file.
    #[arg(value_name = "FILE.sqlite")]
    file: PathBuf,
}

impl Export {
    /// Writes every line.
    pub(super) fn run(self) -> Result<(), Failure> {
        if !self.file.is_file() {
            return Err(Failure::Usage(format!("{}: no such file", self.file.display())));
        }
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
        let lines = runtime.block_on(async {
            let store = Store::open(&self.file).await?;
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
