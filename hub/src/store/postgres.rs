//! PostgreSQL: one database that several processes of the hub may serve together.
//!
//! **Order.** Phones pull by cursor, so a reader must never see a `pos` and later a smaller one. A sequence alone does not
//! give that: it counts at the insert, and what counted first may commit last. Hence every change first takes one
//! lock of the database (`pg_advisory_xact_lock`) and holds it until it is committed and visible: changes happen one
//! after the other, as they do with SQLite. The lock is taken in READ COMMITTED, so that what is read under it is what
//! the change before left; what is only read, is read from one snapshot (REPEATABLE READ).
//!
//! **Durability.** `synchronous_commit` is on, whatever the server's default; a server without `fsync` is told of in the log.
//!
//! **Whoever holds the lock and falls silent** loses it after [`SILENT_MAX`]; who waits longer than [`PATIENCE`] hears that
//! the database is busy. All this needs connections of one's own: no pooler that shares them between transactions.

use std::borrow::Cow;
use std::pin::Pin;
use std::str::FromStr as _;
use std::time::Duration;

use futures_util::{StreamExt as _, TryStreamExt as _};
use sqlx::error::DatabaseError;
use sqlx::postgres::{PgConnectOptions, PgListener, PgPool, PgPoolOptions, PgRow, PgSslMode};
use sqlx::{Postgres, Row as _, Transaction, TypeInfo as _, ValueRef as _};
use tokio::sync::broadcast;

use super::engine::{Cell, Dialect, Doing, Engine, Row, Talk, Value, bind, cells, only};
use super::fault::StoreError;
use super::migrations;
use super::news::{News, WAITING_MAX};

/// The lock that every change takes: the letters of "sweep", a number of our own in this database.
const LOCK: i64 = 0x0073_7765_6570;
/// How long the lock, or a connection, is waited for.
const PATIENCE: Duration = Duration::from_secs(5);
/// After this long in a change without a word the server ends it: its process is gone.
const SILENT_MAX: &str = "15s";
/// Connections of one process; one of them listens.
const CONNECTIONS_MAX: u32 = 8;
/// How long it takes before a server that went away is asked for news again.
const AGAIN: Duration = Duration::from_secs(1);

const DIALECT: Dialect = Dialect {
    numbered: true,
    pos_used: "SELECT last_value FROM entry_pos_seq",
    skip_pos: &["SELECT setval('entry_pos_seq', greatest($1, last_value)) FROM entry_pos_seq"],
};

/// A server that is connected to.
#[derive(Debug)]
pub(super) struct PostgresServer {
    pool: PgPool,
    /// The schema, and the channel of its news.
    schema: &'static str,
}

impl PostgresServer {
    /// Connects, and brings the schema to this release; several processes may do so at once.
    pub(super) async fn open(url: &str, schema: &'static str) -> Result<Self, StoreError> {
        let options = PgConnectOptions::from_str(url).map_err(sorted)?.application_name("sweepbell").options([
            ("search_path", schema),
            ("synchronous_commit", "on"),
            ("lock_timeout", "5s"),
            ("statement_timeout", "20s"),
            ("idle_in_transaction_session_timeout", SILENT_MAX),
        ]);
        warn_of_plain(&options);
        let pool = PgPoolOptions::new().max_connections(CONNECTIONS_MAX).acquire_timeout(PATIENCE);
        let server = Self { pool: pool.connect_with(options).await.map_err(sorted)?, schema };
        server.check().await?;
        server.make_schema().await?;
        migrations::postgres().run(&server.pool).await.map_err(|error| match error {
            sqlx::migrate::MigrateError::Execute(error) => sorted(error),
            other => other.into(),
        })?;
        Ok(server)
    }

    /// Texts need UTF-8, and a promise needs a disk.
    async fn check(&self) -> Result<(), StoreError> {
        let setting = |sql| sqlx::query_scalar::<_, String>(sql).fetch_one(&self.pool);
        let encoding = setting("SHOW server_encoding").await.map_err(sorted)?;
        if encoding != "UTF8" {
            return Err(StoreError::Unfit(format!(
                "the database's encoding is {encoding}; make one with `CREATE DATABASE .. ENCODING 'UTF8' TEMPLATE template0`"
            )));
        }
        if setting("SHOW fsync").await.map_err(sorted)? != "on" {
            tracing::warn!(
                "the PostgreSQL server runs with fsync off: a power cut there loses what phones were told is kept"
            );
        }
        Ok(())
    }

    async fn make_schema(&self) -> Result<(), StoreError> {
        let mut change = self.change().await?;
        let made = change.ask("SELECT count(*) FROM pg_namespace WHERE nspname = current_setting('search_path')", &[]);
        if only(made.await?)?.number()? == 0 {
            let create =
                if self.schema == "sweepbell" { "CREATE SCHEMA sweepbell" } else { "CREATE SCHEMA sweepbell_demo" };
            change.act(create, &[]).await?;
        }
        change.commit(Vec::new()).await
    }
}

/// Without `verify-full` whoever sits between may read and change what passes.
fn warn_of_plain(options: &PgConnectOptions) {
    let near = options.get_socket().is_some() || ["localhost", "127.0.0.1", "::1"].contains(&options.get_host());
    if !near && !matches!(options.get_ssl_mode(), PgSslMode::VerifyFull) {
        tracing::warn!(
            "the PostgreSQL server is on another machine and its certificate is not asked for: add ?sslmode=verify-full"
        );
    }
}

impl Engine for PostgresServer {
    fn look(&self) -> Doing<'_, Box<dyn Talk>> {
        Box::pin(async {
            let begin = "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY";
            let transaction = self.pool.begin_with(begin).await.map_err(sorted)?;
            Ok(Box::new(Conversation { transaction, channel: self.schema }) as Box<dyn Talk>)
        })
    }

    fn ask<'a>(&'a self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>> {
        Box::pin(async move {
            let rows = bind!(sql, values, storable).fetch(&self.pool);
            rows.map(|read| row(&read.map_err(sorted)?)).try_collect().await
        })
    }

    fn change(&self) -> Doing<'_, Box<dyn Talk>> {
        Box::pin(async {
            let begin = "BEGIN ISOLATION LEVEL READ COMMITTED READ WRITE";
            let transaction = self.pool.begin_with(begin).await.map_err(sorted)?;
            let mut change = Box::new(Conversation { transaction, channel: self.schema });
            change.act("SELECT pg_advisory_xact_lock($1)", &[LOCK.into()]).await?;
            Ok(change as Box<dyn Talk>)
        })
    }

    fn news(&self) -> Doing<'_, broadcast::Receiver<News>> {
        Box::pin(async {
            let mut listener = PgListener::connect_with(&self.pool).await.map_err(sorted)?;
            listener.listen(self.schema).await.map_err(sorted)?;
            let (sender, receiver) = broadcast::channel(WAITING_MAX);
            tokio::spawn(forward(listener, self.schema, sender));
            Ok(receiver)
        })
    }

    #[cfg(test)]
    fn is_shared(&self) -> bool {
        true
    }

    fn close(&self) -> Pin<Box<dyn Future<Output = ()> + Send + '_>> {
        Box::pin(self.pool.close())
    }
}

/// Passes news on until nobody wants them. A lost connection may have lost news, and is made again.
async fn forward(mut listener: PgListener, channel: &'static str, sender: broadcast::Sender<News>) {
    loop {
        let news = match listener.try_recv().await {
            Ok(Some(said)) => serde_json::from_str(said.payload()).unwrap_or(News::Missed),
            Ok(None) => News::Missed,
            Err(sqlx::Error::PoolClosed) => return,
            Err(error) => {
                tracing::warn!(%error, "no news from the database");
                while listener.listen(channel).await.is_err() {
                    tokio::time::sleep(AGAIN).await;
                }
                News::Missed
            }
        };
        if sender.send(news).is_err() {
            return;
        }
    }
}

#[derive(Debug)]
struct Conversation {
    transaction: Transaction<'static, Postgres>,
    channel: &'static str,
}

impl Talk for Conversation {
    fn ask<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>> {
        Box::pin(async move {
            let rows = bind!(sql, values, storable).fetch(&mut *self.transaction);
            rows.map(|read| row(&read.map_err(sorted)?)).try_collect().await
        })
    }

    fn act<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, u64> {
        Box::pin(async move {
            let done = bind!(sql, values, storable).execute(&mut *self.transaction).await.map_err(sorted)?;
            Ok(done.rows_affected())
        })
    }

    /// The server tells the news when the change is committed, and not if it is not.
    fn commit(mut self: Box<Self>, news: Vec<News>) -> Doing<'static, ()> {
        Box::pin(async move {
            for one in news {
                let text = serde_json::to_string(&one).unwrap_or_default();
                self.act("SELECT pg_notify($1, $2)", &[self.channel.into(), text.as_str().into()]).await?;
            }
            self.transaction.commit().await.map_err(sorted)
        })
    }

    fn dialect(&self) -> &'static Dialect {
        &DIALECT
    }
}

/// PostgreSQL has no place for U+0000 in a text; what phones call things may hold one. The signed line itself never does.
fn storable(text: &str) -> String {
    text.replace('\0', "\u{fffd}")
}

fn row(row: &PgRow) -> Result<Row, StoreError> {
    cells!(row, "INT8", "TEXT", "BYTEA").map_err(sorted)
}

/// Sorts by SQLSTATE (PostgreSQL's documentation, appendix "Error Codes").
fn sorted(error: sqlx::Error) -> StoreError {
    let code = error.as_database_error().and_then(DatabaseError::code).map(Cow::into_owned);
    match code.as_deref() {
        // lock_not_available, query_canceled, serialization_failure, deadlock_detected
        Some("55P03" | "57014" | "40001" | "40P01") => StoreError::Busy(error),
        // disk_full
        Some("53100") => StoreError::Full(error),
        // read_only_sql_transaction, io_error
        Some("25006" | "58030") => StoreError::Unwritable(error),
        // too_many_connections, shutdowns and starts, idle_in_transaction_session_timeout, connection exceptions
        Some("53300" | "57P01" | "57P02" | "57P03" | "25P03") => StoreError::Away(error),
        Some(code) if code.starts_with("08") => StoreError::Away(error),
        Some(_) => StoreError::Database(error),
        None => match error {
            // A connection that is cut while it begins gives an answer that makes no sense.
            sqlx::Error::Io(_) | sqlx::Error::PoolTimedOut | sqlx::Error::Tls(_) | sqlx::Error::Protocol(_) => {
                StoreError::Away(error)
            }
            _ => StoreError::Database(error),
        },
    }
}
