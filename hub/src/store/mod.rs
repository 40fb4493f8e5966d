//! What the hub must not lose: devices, sessions and the signed log, in one embedded SQLite file.
//!
//! An answer that says "taken" is sent only after the commit is on the disk (WAL, `synchronous = FULL`). All SQL of
//! the crate is in this folder. The store keeps and finds; whether an entry may be taken is asked of `shared_core`.

mod devices;
mod log;
mod migrations;
mod sessions;

use std::path::Path;
use std::time::Duration;

use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{Sqlite, Transaction};
use thiserror::Error;

pub(crate) use devices::Joined;
pub(crate) use log::{Row, Says};
pub(crate) use sessions::SignedIn;

/// The database could not do what was asked.
#[derive(Debug, Error)]
pub(crate) enum StoreError {
    /// SQLite or its driver says no.
    #[error("the database failed: {0}")]
    Database(#[from] sqlx::Error),
    /// The file was made by another release.
    #[error("the database is of another release: {0}")]
    Migration(#[from] sqlx::migrate::MigrateError),
    /// A number does not fit.
    #[error("the database holds a number that cannot be: {0}")]
    Number(#[from] std::num::TryFromIntError),
}

/// The file of a shop's own database, in its data folder.
pub(crate) const SHOP_FILE: &str = "hub.sqlite";
/// The file of the demo's, so that invented entries never meet a real shop's.
pub(crate) const DEMO_FILE: &str = "demo.sqlite";

/// The hub's database.
#[derive(Clone, Debug)]
pub(crate) struct Store {
    /// One connection alone writes: SQLite has one writer, and waiting in line beats failing on its lock.
    writer: SqlitePool,
    readers: SqlitePool,
}

impl Store {
    /// Opens the file, makes it if there is none, and brings it to this release.
    pub(crate) async fn open(file: &Path) -> Result<Self, StoreError> {
        let options = SqliteConnectOptions::new()
            .filename(file)
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            .synchronous(SqliteSynchronous::Full)
            .foreign_keys(true)
            .busy_timeout(Duration::from_secs(5));
        let pool = |connections| SqlitePoolOptions::new().max_connections(connections);
        let writer = pool(1).connect_with(options.clone()).await?;
        migrations::migrator().run(&writer).await?;
        let readers = pool(4).connect_with(options.read_only(true)).await?;
        Ok(Self { writer, readers })
    }

    /// Begins a change; dropped without a commit, it never was.
    pub(crate) async fn change(&self) -> Result<Change, StoreError> {
        Ok(Change(self.writer.begin_with("BEGIN IMMEDIATE").await?))
    }

    /// Whether the database answers.
    pub(crate) async fn ping(&self) -> Result<(), StoreError> {
        sqlx::query("SELECT 1").execute(&self.readers).await?;
        Ok(())
    }

    /// Whether nothing was ever kept here.
    pub(crate) async fn is_new(&self) -> Result<bool, StoreError> {
        let (devices,): (i64,) = sqlx::query_as("SELECT count(*) FROM device").fetch_one(&self.readers).await?;
        Ok(devices == 0)
    }

    /// Writes the journal back into the file and closes it.
    pub(crate) async fn close(&self) {
        self.readers.close().await;
        self.writer.close().await;
    }
}

/// A change in the making: all of it or nothing.
#[derive(Debug)]
pub(crate) struct Change(Transaction<'static, Sqlite>);

impl Change {
    /// Makes it so. When this returns, it is on the disk.
    pub(crate) async fn commit(self) -> Result<(), StoreError> {
        Ok(self.0.commit().await?)
    }
}
