//! The proof of a stored log: each line is taken again as if its phone pushed it now, and must come out as it is stored.

use shared_core::entry::Entry;
use shared_core::ids::DeviceId;
use shared_core::log::chain::Head;
use shared_core::ordered::Map;
use shared_core::sync::hub::{Intake, LostStretch, Taken};
use shared_core::sync::message::Why;
use shared_core::time::Instant;
use thiserror::Error;

use super::StoreError;
use super::copy::Proved;
use super::devices::Known;
use super::engine::Talk;
use super::log::Line;

/// A phone cannot declare more lost at once than a message holds; a stretch of a spoilt database must not fill memory.
const LOST_MAX: u64 = 1_000_000;

/// A line that is not what was signed.
#[derive(Debug, Error)]
#[error("line {pos}, entry {seq} of device {dev}: {why}")]
pub(crate) struct Unproved {
    pos: i64,
    dev: DeviceId,
    seq: u64,
    why: String,
}

/// Takes a log line by line.
#[derive(Debug)]
pub(super) struct Prover {
    devices: Vec<Known>,
    lost: Vec<(DeviceId, LostStretch, Instant)>,
    intakes: Map<DeviceId, Intake>,
    /// Lines that are not signed and that no later line has vouched for yet, by their device.
    vouched: Map<DeviceId, Unproved>,
    entries: u64,
}

impl Prover {
    /// For the devices and lost stretches of this store.
    pub(super) async fn of(talk: &mut dyn Talk) -> Result<Self, StoreError> {
        let devices = super::devices::all(talk).await?;
        let lost = super::log::lost(talk).await?;
        if lost.iter().any(|(_, stretch, _)| stretch.to.saturating_sub(stretch.from) > LOST_MAX) {
            return Err(StoreError::Value { wanted: "a lost stretch", found: "one that no phone can declare".into() });
        }
        let intake = |device: &Known| {
            let own = lost.iter().filter(|(dev, ..)| *dev == device.dev);
            let seqs: Vec<u64> = own.flat_map(|(_, stretch, _)| stretch.from..=stretch.to).collect();
            let (dev, member) = (device.dev.clone(), device.member.clone());
            (dev.clone(), Intake::new(dev, member, Head::default(), Map::new(), &seqs))
        };
        let intakes = devices.iter().map(intake).collect();
        Ok(Self { devices, lost, intakes, vouched: Map::new(), entries: 0 })
    }

    /// The store's devices.
    pub(super) fn devices(&self) -> &[Known] {
        &self.devices
    }

    /// What the store knows to be lost, and since when.
    pub(super) fn lost(&self) -> &[(DeviceId, LostStretch, Instant)] {
        &self.lost
    }

    /// Takes the next line, in the order they arrived; gives what it says, if it counts.
    pub(super) fn take(&mut self, line: &Line) -> Result<Option<Entry>, Unproved> {
        let unproved = |why: String| Unproved { pos: line.pos, dev: line.dev.clone(), seq: line.seq, why };
        let intake = self.intakes.get_mut(&line.dev).ok_or_else(|| unproved("it never joined".into()))?;
        if let Some((erased, _)) = &line.erased {
            self.entries += 1;
            // Whether it vouched for the one before cannot be seen any more.
            self.vouched.remove(&line.dev);
            return if intake.pass(erased) {
                Ok(None)
            } else {
                Err(unproved("it was erased, and does not follow".into()))
            };
        }
        let taken = match (intake.take(&line.jws), line.aside) {
            // It was set aside, and its phone vouched for it by a later one, which has to come.
            (Taken::Refused { why: Why::Damaged, .. }, Some(_)) => {
                self.vouched
                    .insert(line.dev.clone(), unproved("it is not signed, and no later line vouches for it".into()));
                intake.take_vouched(&line.jws)
            }
            (taken, _) => {
                self.vouched.remove(&line.dev);
                taken
            }
        };
        let (seq, hash, entry) = match taken {
            Taken::Stored { signed, hash, .. } => (signed.seq, hash, Some(signed.entry)),
            // What counts for nothing may never count, but what an older hub could not read stays set aside.
            Taken::SetAside { seq, hash, why, .. } if line.aside == Some(why) => (seq, hash, None),
            Taken::SetAside { why, .. } | Taken::Refused { why, .. } => return Err(unproved(format!("{why:?}"))),
            Taken::Duplicate { .. } => return Err(unproved("it is there twice".into())),
        };
        if (seq, &hash) != (line.seq, &line.hash) {
            return Err(unproved("the database says otherwise than the line itself".into()));
        }
        self.entries += 1;
        Ok(entry.filter(|_| line.aside.is_none()))
    }

    /// What was taken, if nothing of it still needs a later line to vouch for it.
    pub(super) fn end(self) -> Result<Proved, Unproved> {
        let proved = Proved { entries: self.entries, devices: self.devices.len() as u64 };
        self.vouched.into_values().next().map_or(Ok(proved), Err)
    }
}
