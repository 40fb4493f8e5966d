//! The log's words on what members are to the shop, as far as the log is handed out; and when a member last used each machine.

use shared_core::entry::Fact;
use shared_core::ids::{MachineId, PersonId};
use shared_core::log::jws;
use shared_core::ordered::Map;
use shared_core::standing::Words;
use shared_core::time::Instant;

use super::engine::Talk;
use super::{Change, Store, StoreError, unproved};

impl Store {
    /// The words that hold, of what is handed out by now.
    pub(crate) async fn standing(&self) -> Result<Words, StoreError> {
        let mut look = self.look().await?;
        let handed_to = unproved::handed_to(&mut *look.0).await?;
        words(&mut *look.0, handed_to).await
    }

    /// When a member last started each machine, as far as the log has it.
    pub(crate) async fn last_used(&self, member: &PersonId) -> Result<Map<MachineId, Instant>, StoreError> {
        let select = "SELECT jws FROM entry WHERE what = 'machine_started' AND aside IS NULL
                      AND dev IN (SELECT dev FROM device WHERE member = $1)";
        let mut used: Map<MachineId, Instant> = Map::new();
        for mut row in self.look().await?.0.ask(select, &[member.as_str().into()]).await? {
            let Some((_, entry)) = jws::unproved(&row.text()?) else { continue };
            if let Fact::MachineStarted { machine, .. } = entry.fact {
                let last = used.entry(machine).or_insert(entry.at);
                *last = entry.at.max(*last);
            }
        }
        Ok(used)
    }
}

impl Change {
    /// The words that hold, as this change sees them.
    pub(crate) async fn standing(&mut self) -> Result<Words, StoreError> {
        words(&mut *self.talk, i64::MAX).await
    }
}

async fn words(talk: &mut dyn Talk, to: i64) -> Result<Words, StoreError> {
    let select = "SELECT jws FROM entry WHERE what IN ('inducted', 'signed_off', 'role_given')
                  AND aside IS NULL AND erased_ms IS NULL AND pos <= $1";
    let mut words = Words::default();
    for mut row in talk.ask(select, &[to.into()]).await? {
        if let Some((_, entry)) = jws::unproved(&row.text()?) {
            words.take(&entry);
        }
    }
    Ok(words)
}
