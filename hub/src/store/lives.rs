//! The lives of the log: one for each start of a hub, so that a database that was put back to an older copy is known by
//! the phones that heard more (see `shared_core::sync::cursor`).
//!
//! A copy holds the lives of before it was made. Whoever puts one back starts a hub on it, and that is a new life. A server
//! that is put back under a hub which runs on is not noticed: stop every hub before.

use shared_core::sync::cursor::{Life, TAG_MAX};

use super::engine::{Talk, only};
use super::{Cells, Change, Store, StoreError};

impl Store {
    /// A hub starts. `drawn` is any number.
    pub(crate) async fn begin_life(&self, drawn: u32) -> Result<(), StoreError> {
        let mut change = self.change().await?;
        let from = newest(&mut *change.talk).await?;
        let begun = Life { tag: drawn % TAG_MAX + 1, from: u64::try_from(from)? };
        change.add_life(begun).await?;
        change.commit().await
    }
}

impl Change {
    /// Remembers a life, after all others.
    pub(super) async fn add_life(&mut self, life: Life) -> Result<(), StoreError> {
        let values = [i64::from(life.tag).into(), i64::try_from(life.from)?.into()];
        self.talk.act("INSERT INTO life (tag, from_pos) VALUES ($1, $2)", &values).await.map(drop)
    }
}

/// The newest place of the log; 0 while it is empty.
pub(super) async fn newest(talk: &mut dyn Talk) -> Result<i64, StoreError> {
    only(talk.ask("SELECT coalesce(max(pos), 0) FROM entry", &[]).await?)?.number()
}

/// The lives from the last of that tag on, in order; all of them if there is none.
pub(super) async fn lives_from(talk: &mut dyn Talk, tag: u32) -> Result<Vec<Life>, StoreError> {
    let select = "SELECT tag, from_pos FROM life
                  WHERE nth >= coalesce((SELECT max(nth) FROM life WHERE tag = $1), 0) ORDER BY nth";
    let life = |mut row: Cells| Ok(Life { tag: u32::try_from(row.number()?)?, from: row.count()? });
    talk.ask(select, &[i64::from(tag).into()]).await?.into_iter().map(life).collect()
}
