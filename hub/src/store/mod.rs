//! What the hub must not lose, and what its processes must agree on: devices, sessions, the signed log, codes on their way.
//!
//! Two databases can hold it: an embedded SQLite file for one process, or a PostgreSQL server that several processes
//! share. An answer that says "taken" is sent only after the commit is on the disk. All SQL of the crate is in this
//! folder, written once for both; what they do not have in common is behind [`engine`]. The store keeps and finds; whether
//! an entry may be taken is asked of `shared_core`.

mod carried;
mod copy;
mod devices;
mod engine;
mod erasing;
mod fault;
mod glance;
mod in_room;
mod invites;
mod keys;
mod late;
mod lives;
mod log;
mod migrations;
mod news;
mod picture;
mod place;
mod postgres;
mod prover;
mod push;
mod rulebook;
mod sessions;
mod shared;
mod sqlite;
mod standing;
#[cfg(test)]
mod tests;
mod unproved;

use std::sync::Arc;

use tokio::sync::broadcast::Receiver;

use self::engine::{Engine, Row as Cells, Talk, Value};
use self::postgres::PostgresServer;
use self::sqlite::SqliteFile;

pub(crate) use carried::TEXT_MAX_BYTES;
pub(crate) use copy::{backup, move_all};
pub(crate) use devices::{Joined, Known};
pub(crate) use erasing::{About, Forgotten};
pub(crate) use fault::StoreError;
pub(crate) use glance::Glance;
pub(crate) use in_room::InRoom;
pub(crate) use invites::{Invite, OPEN_MAX};
pub(crate) use keys::{Made, Signing};
pub(crate) use late::LATE_MAX;
pub(crate) use log::{Behind, Pulled, Row, Says, Stretch, Whom};
pub(crate) use news::News;
pub(crate) use picture::PICTURES_MAX;
pub(crate) use place::{Place, is_url};
pub(crate) use rulebook::Published;
pub(crate) use sessions::SignedIn;
pub(crate) use unproved::MET_MAX;

/// The hub's database.
#[derive(Clone, Debug)]
pub(crate) struct Store {
    engine: Arc<dyn Engine>,
}

impl Store {
    /// Opens it, makes it if there is none, and brings it to this release.
    pub(crate) async fn open(place: &Place) -> Result<Self, StoreError> {
        let engine: Arc<dyn Engine> = match place {
            Place::File(file) => Arc::new(SqliteFile::open(file).await?),
            Place::Server { url, schema } => Arc::new(PostgresServer::open(url, schema).await?),
        };
        Ok(Self { engine })
    }

    /// One state of the database, to read from.
    pub(crate) async fn look(&self) -> Result<Look, StoreError> {
        Ok(Look(self.engine.look().await?))
    }

    /// Begins a change, when all others are over; dropped without a commit, it never was.
    pub(crate) async fn change(&self) -> Result<Change, StoreError> {
        Ok(Change { talk: self.engine.change().await?, news: Vec::new() })
    }

    /// What committed changes tell from now on, here or in another process.
    pub(crate) async fn news(&self) -> Result<Receiver<News>, StoreError> {
        self.engine.news().await
    }

    /// Whether other processes may serve the same database.
    #[cfg(test)]
    pub(crate) fn is_shared(&self) -> bool {
        self.engine.is_shared()
    }

    /// Whether the database answers.
    pub(crate) async fn ping(&self) -> Result<(), StoreError> {
        self.look().await?.0.ask("SELECT count(*) FROM setting", &[]).await.map(drop)
    }

    /// Lets go of it; what SQLite has in its journal is written back into the file.
    pub(crate) async fn close(&self) {
        self.engine.close().await;
    }
}

/// One state of the database.
#[derive(Debug)]
pub(crate) struct Look(Box<dyn Talk>);

/// A change in the making: all of it or nothing.
#[derive(Debug)]
pub(crate) struct Change {
    talk: Box<dyn Talk>,
    news: Vec<News>,
}

impl Change {
    /// Tells every process of the hub, once this is committed.
    pub(crate) fn tell(&mut self, news: News) {
        self.news.push(news);
    }

    /// Makes it so. When this returns, it is on the disk.
    pub(crate) async fn commit(self) -> Result<(), StoreError> {
        self.talk.commit(self.news).await
    }
}
