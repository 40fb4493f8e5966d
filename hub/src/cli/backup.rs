//! `sweepbell backup FILE`: a copy of the hub's SQLite file, made while the hub serves, and proved.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;

use super::{Failure, answer, block_on};
use crate::config::DatabaseArguments;
use crate::store::{self, Place};

/// Copy a hub's SQLite file while it serves, and check every signature and chain of the copy.
#[derive(Args, Debug)]
pub(super) struct Backup {
    /// The copy, which must not exist yet.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    database: DatabaseArguments,
    /// The demo shop's log instead of the shop's own.
    #[arg(long)]
    demo: bool,
}

#[derive(Debug, Serialize)]
struct Answer {
    file: String,
    entries: u64,
    devices: u64,
    ok: bool,
}

impl Backup {
    /// Copies, proves, and tells what the copy holds.
    pub(super) fn run(self) -> Result<(), Failure> {
        let place = self.database.place(self.demo).map_err(|error| Failure::Usage(error.to_string()))?;
        let Place::File(from) = place else {
            let instead =
                "a PostgreSQL server has backups of its own (pg_dump); `sweepbell move` writes a SQLite file of it";
            return Err(Failure::Usage(instead.into()));
        };
        let proved = block_on(store::backup(&from, &self.file))?.map_err(|fault| Failure::refused(&fault))?;
        let file = self.file.display().to_string();
        answer(&Answer { file, entries: proved.entries, devices: proved.devices, ok: true })
    }
}
