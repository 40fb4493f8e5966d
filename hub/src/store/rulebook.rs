//! Rulebooks that were published from a phone: kept whole, never changed, the newest first.

use std::collections::BTreeSet;

use shared_core::entry::Fact;
use shared_core::ids::{BookId, MachineId, PersonId};
use shared_core::log::jws;
use shared_core::time::Instant;

use super::engine::Talk;
use super::{Cells, Change, Store, StoreError};

/// A rulebook that was published.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Published {
    /// Its number, from 1.
    pub(crate) number: i64,
    /// The whole of it.
    pub(crate) text: String,
    /// Its id.
    pub(crate) book: BookId,
    /// The id of the shop's file, as it was then.
    pub(crate) over: BookId,
    /// Why, in its writer's words; may be empty.
    pub(crate) note: String,
    /// By whom.
    pub(crate) by: PersonId,
    /// When.
    pub(crate) at: Instant,
}

impl Store {
    /// All of them, the newest first.
    pub(crate) async fn published(&self) -> Result<Vec<Published>, StoreError> {
        all(&mut *self.look().await?.0).await
    }

    /// The newest.
    pub(crate) async fn newest_published(&self) -> Result<Option<Published>, StoreError> {
        self.look().await?.0.ask(NEWEST, &[]).await?.into_iter().next().map(published).transpose()
    }

    /// Machines that were started since an instant in a session that nobody left, and not stopped.
    pub(crate) async fn machines_running(&self, since: Instant) -> Result<BTreeSet<MachineId>, StoreError> {
        let select = "SELECT jws FROM entry AS it
            WHERE what IN ('machine_started', 'machine_stopped') AND at_ms >= $1 AND aside IS NULL AND erased_ms IS NULL
              AND NOT EXISTS (SELECT 1 FROM entry AS leaving
                WHERE leaving.session = it.session AND leaving.dev = it.dev AND leaving.what = 'left')
            ORDER BY pos";
        let mut running = BTreeSet::new();
        for mut row in self.look().await?.0.ask(select, &[since.ms().into()]).await? {
            let Ok(said) = jws::open(&row.text()?) else { continue };
            let session = said.entry.session;
            match said.entry.fact {
                Fact::MachineStarted { machine, .. } => drop(running.insert((session, machine))),
                Fact::MachineStopped { machine } => drop(running.remove(&(session, machine))),
                _ => {}
            }
        }
        Ok(running.into_iter().map(|(_, machine)| machine).collect())
    }
}

const ALL: &str =
    "SELECT number, text, book, over_book, note, by_member, published_ms FROM rulebook ORDER BY number DESC";

const NEWEST: &str =
    "SELECT number, text, book, over_book, note, by_member, published_ms FROM rulebook ORDER BY number DESC LIMIT 1";

async fn all(talk: &mut dyn Talk) -> Result<Vec<Published>, StoreError> {
    talk.ask(ALL, &[]).await?.into_iter().map(published).collect()
}

fn published(mut row: Cells) -> Result<Published, StoreError> {
    let (number, text) = (row.number()?, row.text()?);
    let (book, over) = (BookId::new(row.text()?), BookId::new(row.text()?));
    let (note, by) = (row.text()?, PersonId::new(row.text()?));
    Ok(Published { number, text, book, over, note, by, at: Instant::from_ms(row.number()?) })
}

impl Change {
    /// Keeps one more under the next number, and gives that.
    pub(crate) async fn publish(&mut self, one: &Published) -> Result<i64, StoreError> {
        let insert = "INSERT INTO rulebook (number, text, book, over_book, note, by_member, published_ms)
            SELECT coalesce(max(number), 0) + 1, $1, $2, $3, $4, $5, $6 FROM rulebook RETURNING number";
        let values = [
            one.text.as_str().into(),
            one.book.as_str().into(),
            one.over.as_str().into(),
            one.note.as_str().into(),
            one.by.as_str().into(),
            one.at.ms().into(),
        ];
        super::engine::only(self.talk.ask(insert, &values).await?)?.number()
    }
}

/// Copies them all, oldest first.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for one in all(&mut *old.talk).await?.iter().rev() {
        new.publish(one).await?;
    }
    Ok(())
}
