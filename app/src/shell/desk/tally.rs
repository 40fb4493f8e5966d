//! The tally: the state that follows from the lines so far, as bytes, so that a start folds only what came since.
//!
//! It stands for lines and never takes their place: they stay in the journal, and are read again where no tally is found, where it
//! was made by other rules ([`FOLDED_BY`]), or where a line that it stands for went (the journal drops it then). Reading and
//! writing it belong to the later part (`crate::later`); a phone that has heard little has none.

use borsh::BorshDeserialize;
use shared_core::ids::DeviceId;
use shared_core::state::{FOLDED_BY, State};

use super::Desk;
use super::heard::{Heard, Runs};
use crate::later;
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;

/// So many lines may be folded at each start before a tally is made of them: a tenth of a second on a slow phone.
pub const WORTH_IT: u64 = 1_000;

/// What was folded, and what came of it.
#[derive(Clone, Debug, Default, PartialEq, BorshDeserialize)]
pub struct Tally {
    /// This phone's own lines.
    pub own: Runs,
    /// Those of others.
    pub others: Heard,
    /// What follows from both.
    pub state: State,
}

/// A tally as bytes. None if the state cannot be written: it holds a number that is none.
pub fn write(dev: &DeviceId, own: &Runs, others: &Heard, state: &State) -> Option<Vec<u8>> {
    borsh::to_vec(&(FOLDED_BY, dev, own, others, state)).ok()
}

/// The tally of these bytes, if the same rules made it on this phone.
pub fn read(mut bytes: &[u8], dev: &DeviceId) -> Option<Tally> {
    let by = String::deserialize(&mut bytes).ok()?;
    if by != FOLDED_BY || DeviceId::deserialize(&mut bytes).ok()? != *dev {
        return None;
    }
    let tally = Tally::deserialize(&mut bytes).ok()?;
    bytes.is_empty().then_some(tally)
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Makes a tally, if enough came since the last. What cannot be kept now is folded again at the next start.
    pub(super) async fn tally_up(&mut self) {
        let Some(later) = later::parts() else { return };
        if self.ledger.since_tally() < WORTH_IT {
            return;
        }
        let Some(bytes) = self.ledger.tally(later.write_tally, self.signer.device_id()) else { return };
        if self.journal.keep_tally(self.ledger.head(), self.ledger.mark(), &bytes).await.is_ok() {
            self.ledger.tallied();
        }
    }
}
