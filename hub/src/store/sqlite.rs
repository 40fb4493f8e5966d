//! SQLite: one file beside the hub, and one process that serves it.
//!
//! A commit is on the disk when it returns (WAL, `synchronous = FULL`). One connection alone writes, because SQLite has
//! one writer, and waiting in line beats failing on its lock; another program's lock is waited for for five seconds.

use std::path::Path;
use std::pin::Pin;
use std::time::Duration;

use futures_util::{StreamExt as _, TryStreamExt as _};
use sqlx::error::DatabaseError;
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteConnection, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteRow,
    SqliteSynchronous,
};
use sqlx::{Connection as _, Row as _, Sqlite, Transaction, TypeInfo as _, ValueRef as _};
use tokio::sync::broadcast;

use super::engine::{Cell, Dialect, Doing, Engine, Row, Talk, Value, bind, cells};
use super::fault::StoreError;
use super::migrations;
use super::news::{News, WAITING_MAX};

/// How long another program's lock is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// Past so many pages of 4 KiB the journal is written back into the file, while everybody waits: of what is written again and again in between,
/// once.
const JOURNAL_PAGES: &str = "4000";

/// The writer's cache, in KiB and negative as SQLite has it: with less, what is written together would go to the disk twice.
const WRITERS_CACHE: &str = "-5000";

const DIALECT: Dialect = Dialect {
    numbered: false,
    pos_used: "SELECT coalesce(max(seq), 0) FROM sqlite_sequence WHERE name = 'entry'",
    // A log without an entry has no row there yet.
    skip_pos: &[
        "INSERT INTO sqlite_sequence (name, seq)
         SELECT 'entry', $1 WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = 'entry')",
        "UPDATE sqlite_sequence SET seq = max(seq, $1) WHERE name = 'entry'",
    ],
};

/// A file that is open.
#[derive(Debug)]
pub(super) struct SqliteFile {
    writer: SqlitePool,
    readers: SqlitePool,
    news: broadcast::Sender<News>,
}

impl SqliteFile {
    /// Opens the file, makes it if there is none, and brings it to this release.
    pub(super) async fn open(file: &Path) -> Result<Self, StoreError> {
        let options = options(file).journal_mode(SqliteJournalMode::Wal);
        let mut first =
            SqliteConnection::connect_with(&options.clone().create_if_missing(true)).await.map_err(sorted)?;
        migrations::sqlite().run(&mut first).await.map_err(|error| match error {
            sqlx::migrate::MigrateError::Execute(error) => sorted(error),
            other => other.into(),
        })?;
        first.close().await.map_err(sorted)?;
        // From here on a file that is gone is a fault: a new, empty one in its place would look like a new shop.
        let pool = |connections| {
            // SQLite ends a transaction by itself when the disk is full or fails; the driver then waits for an end that
            // never comes. Such a connection is closed, and another takes its place.
            let sound = |connection: &mut SqliteConnection| !connection.is_in_transaction();
            SqlitePoolOptions::new()
                .max_connections(connections)
                // No network is between: asking first whether it is there costs as much as most questions.
                .test_before_acquire(false)
                .before_acquire(move |connection, _| Box::pin(std::future::ready(Ok(sound(connection)))))
        };
        let one_writer =
            options.clone().pragma("wal_autocheckpoint", JOURNAL_PAGES).pragma("cache_size", WRITERS_CACHE);
        let writer = pool(1).connect_with(one_writer).await.map_err(sorted)?;
        let readers = pool(4).connect_with(options.read_only(true)).await.map_err(sorted)?;
        Ok(Self { writer, readers, news: broadcast::Sender::new(WAITING_MAX) })
    }
}

/// Writes one state of `from`, whoever writes to it meanwhile, into `to`, which must not exist. Nothing is forced to
/// the disk yet: whoever asks for a copy has it proved first.
pub(super) async fn copy_file(from: &Path, to: &str) -> Result<(), StoreError> {
    let pool = SqlitePoolOptions::new().max_connections(1).connect_with(options(from).read_only(true)).await;
    let pool = pool.map_err(sorted)?;
    let copied = sqlx::query("VACUUM INTO $1").bind(to).execute(&pool).await.map_err(sorted);
    pool.close().await;
    copied.map(drop)
}

/// Has all of a file in the file itself and nothing in its journal, so that it can be carried off. Closing alone does not:
/// the last connection may be one that only reads.
pub(super) async fn settle(file: &Path) -> Result<(), StoreError> {
    let mut connection = SqliteConnection::connect_with(&options(file)).await.map_err(sorted)?;
    let checkpoint = sqlx::query("PRAGMA wal_checkpoint(TRUNCATE)").fetch_one(&mut connection).await.map_err(sorted)?;
    if checkpoint.try_get::<i64, _>(0).map_err(sorted)? != 0 {
        return Err(StoreError::Busy(sqlx::Error::PoolTimedOut));
    }
    connection.close().await.map_err(sorted)
}

fn options(file: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(file)
        .synchronous(SqliteSynchronous::Full)
        .foreign_keys(true)
        // What is erased is not left lying in the file.
        .pragma("secure_delete", "ON")
        .busy_timeout(PATIENCE)
}

impl Engine for SqliteFile {
    fn look(&self) -> Doing<'_, Box<dyn Talk>> {
        Box::pin(async {
            let transaction = self.readers.begin().await.map_err(sorted)?;
            Ok(Box::new(Conversation { transaction, news: self.news.clone() }) as Box<dyn Talk>)
        })
    }

    fn ask<'a>(&'a self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>> {
        Box::pin(async move {
            let rows = bind!(sql, values, |text| text).fetch(&self.readers);
            rows.map(|read| row(&read.map_err(sorted)?)).try_collect().await
        })
    }

    fn change(&self) -> Doing<'_, Box<dyn Talk>> {
        Box::pin(async {
            let transaction = self.writer.begin_with("BEGIN IMMEDIATE").await.map_err(sorted)?;
            Ok(Box::new(Conversation { transaction, news: self.news.clone() }) as Box<dyn Talk>)
        })
    }

    fn news(&self) -> Doing<'_, broadcast::Receiver<News>> {
        Box::pin(async { Ok(self.news.subscribe()) })
    }

    #[cfg(test)]
    fn is_shared(&self) -> bool {
        false
    }

    /// Writes the journal back into the file.
    fn close(&self) -> Pin<Box<dyn Future<Output = ()> + Send + '_>> {
        Box::pin(async {
            self.readers.close().await;
            self.writer.close().await;
        })
    }
}

#[derive(Debug)]
struct Conversation {
    transaction: Transaction<'static, Sqlite>,
    news: broadcast::Sender<News>,
}

impl Talk for Conversation {
    fn ask<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>> {
        Box::pin(async move {
            let rows = bind!(sql, values, |text| text).fetch(&mut *self.transaction);
            rows.map(|read| row(&read.map_err(sorted)?)).try_collect().await
        })
    }

    fn act<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, u64> {
        Box::pin(async move {
            let done = bind!(sql, values, |text| text).execute(&mut *self.transaction).await.map_err(sorted)?;
            Ok(done.rows_affected())
        })
    }

    fn commit(self: Box<Self>, news: Vec<News>) -> Doing<'static, ()> {
        Box::pin(async move {
            self.transaction.commit().await.map_err(sorted)?;
            for one in news {
                // Nobody listening is not an error.
                let _ = self.news.send(one);
            }
            Ok(())
        })
    }

    fn dialect(&self) -> &'static Dialect {
        &DIALECT
    }
}

fn row(row: &SqliteRow) -> Result<Row, StoreError> {
    cells!(row, "INTEGER", "TEXT", "BLOB").map_err(sorted)
}

/// Sorts by SQLite's result code; the low byte is the primary one (SQLite's documentation, "Result and Error Codes").
fn sorted(error: sqlx::Error) -> StoreError {
    let code = error.as_database_error().and_then(DatabaseError::code).and_then(|code| code.parse::<u32>().ok());
    match code.map(|code| code & 0xff) {
        // SQLITE_BUSY, SQLITE_LOCKED
        Some(5 | 6) => StoreError::Busy(error),
        // SQLITE_FULL
        Some(13) => StoreError::Full(error),
        // SQLITE_PERM, SQLITE_READONLY, SQLITE_IOERR, SQLITE_CANTOPEN
        Some(3 | 8 | 10 | 14) => StoreError::Unwritable(error),
        _ => match error {
            sqlx::Error::PoolTimedOut => StoreError::Busy(error),
            sqlx::Error::Io(_) => StoreError::Unwritable(error),
            _ => StoreError::Database(error),
        },
    }
}
