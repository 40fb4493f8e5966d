//! The two databases that a hub may have, and one list of tests for both.

use std::sync::atomic::{AtomicU32, Ordering};

use sqlx::{AssertSqlSafe, Connection as _, PgConnection, SqliteConnection};

/// Which database a hub under test has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Engine {
    /// A file beside it.
    Sqlite,
    /// A database of its own on the server that `cargo xtask` starts.
    Postgres,
}

/// Runs each test of a list with either engine.
macro_rules! on_both {
    ($($test:ident),* $(,)?) => {
        mod sqlite {
            $(#[test] fn $test() { super::$test(crate::support::Engine::Sqlite); })*
        }
        mod postgres {
            $(#[test] fn $test() { super::$test(crate::support::Engine::Postgres); })*
        }
    };
}
pub(crate) use on_both;

/// A new, empty database on the server, by its address.
pub(crate) fn new_database() -> String {
    static MADE: AtomicU32 = AtomicU32::new(0);
    let server = std::env::var("SWEEPBELL_TEST_POSTGRES")
        .expect("a PostgreSQL server: run `cargo xtask postgres cargo test -p hub`, which starts one");
    let name = format!("hub_{}_{}", std::process::id(), MADE.fetch_add(1, Ordering::Relaxed));
    tell_server(&server, &format!("CREATE DATABASE {name}"));
    let (server, _) = server.rsplit_once('/').expect("an address with a database");
    format!("{server}/{name}")
}

/// Runs a statement in a PostgreSQL database, as another program does.
pub(crate) fn tell_server(address: &str, sql: &str) {
    wait(async {
        let mut other = PgConnection::connect(address).await.expect("the server answers");
        sqlx::raw_sql(AssertSqlSafe(sql)).execute(&mut other).await.expect(sql);
        other.close().await.expect("closed");
    });
}

/// Runs a statement in a SQLite file, as another program does.
pub(crate) fn tell_file(file: &std::path::Path, sql: &str) {
    let address = format!("sqlite://{}", file.display());
    wait(async {
        let mut other = SqliteConnection::connect(&address).await.expect("the file opens");
        sqlx::raw_sql(AssertSqlSafe(sql)).execute(&mut other).await.expect(sql);
        other.close().await.expect("closed");
    });
}

/// Another program that holds the lock of a database until it is dropped.
pub(crate) struct Holder {
    _connection: Connection,
    _runtime: tokio::runtime::Runtime,
}

#[expect(dead_code, reason = "held, not used")]
enum Connection {
    Sqlite(SqliteConnection),
    Postgres(PgConnection),
}

impl Holder {
    /// Takes what a writer needs and does not let go.
    pub(crate) fn of(place: &super::Place) -> Self {
        let runtime = runtime();
        let connection = runtime.block_on(async {
            if let Some(address) = &place.database {
                let mut other = PgConnection::connect(address).await.expect("the server answers");
                let lock = "BEGIN; SELECT pg_advisory_xact_lock(x'7377656570'::bigint)";
                sqlx::raw_sql(lock).execute(&mut other).await.expect("the lock");
                return Connection::Postgres(other);
            }
            let address = format!("sqlite://{}", place.path("data/hub.sqlite").display());
            let mut other = SqliteConnection::connect(&address).await.expect("the file opens");
            sqlx::raw_sql("BEGIN EXCLUSIVE").execute(&mut other).await.expect("the lock");
            Connection::Sqlite(other)
        });
        Self { _connection: connection, _runtime: runtime }
    }
}

/// Does something that waits.
pub(crate) fn wait<T>(doing: impl Future<Output = T>) -> T {
    runtime().block_on(doing)
}

fn runtime() -> tokio::runtime::Runtime {
    tokio::runtime::Builder::new_multi_thread().worker_threads(1).enable_all().build().expect("a runtime")
}
