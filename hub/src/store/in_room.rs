//! What shows that a buddy is in the room: the devices that hang as boards, and what members' figures are checked against.

use shared_core::ids::{DeviceId, PersonId, RoomId};
use shared_core::pin::{PinRecord, PinSet};
use shared_core::time::Instant;

use super::engine::Talk;
use super::{Cells, Change, News, Store, StoreError};

/// What the store has of this.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct InRoom {
    /// Devices that hang as boards, and where.
    pub(crate) boards: Vec<(DeviceId, RoomId)>,
    /// What figures are checked against, by member.
    pub(crate) pins: Vec<PinRecord>,
}

impl Store {
    /// All of it.
    pub(crate) async fn in_room(&self) -> Result<InRoom, StoreError> {
        all(&mut *self.look().await?.0).await
    }
}

async fn all(talk: &mut dyn Talk) -> Result<InRoom, StoreError> {
    // A device that was taken off hangs nowhere any more.
    let boards = "SELECT board.dev, board.room FROM board JOIN device ON device.dev = board.dev
                  WHERE device.revoked_ms IS NULL ORDER BY board.room, board.dev";
    let board = |mut row: Cells| Ok((DeviceId::new(row.text()?), RoomId::new(row.text()?)));
    let boards = talk.ask(boards, &[]).await?.into_iter().map(board).collect::<Result<_, StoreError>>()?;
    let pins = talk.ask("SELECT member, salt, rounds, digest FROM pin ORDER BY member", &[]).await?;
    Ok(InRoom { boards, pins: pins.into_iter().map(pin).collect::<Result<_, StoreError>>()? })
}

fn pin(mut row: Cells) -> Result<PinRecord, StoreError> {
    let (member, salt, rounds) = (PersonId::new(row.text()?), row.text()?, u32::try_from(row.number()?)?);
    Ok(PinRecord { member, salt, rounds, check: row.text()? })
}

impl Change {
    /// A device hangs as the board of a room from now on, or nowhere.
    pub(crate) async fn hang(&mut self, dev: &DeviceId, room: Option<&RoomId>) -> Result<(), StoreError> {
        self.talk.act("DELETE FROM board WHERE dev = $1", &[dev.as_str().into()]).await?;
        if let Some(room) = room {
            let insert = "INSERT INTO board (dev, room) VALUES ($1, $2)";
            self.talk.act(insert, &[dev.as_str().into(), room.as_str().into()]).await?;
        }
        self.tell(News::Joined);
        Ok(())
    }

    /// A member's figures are checked against this from now on.
    pub(crate) async fn set_pin(&mut self, member: &PersonId, pin: &PinSet, now: Instant) -> Result<(), StoreError> {
        let upsert = "INSERT INTO pin (member, salt, rounds, digest, set_ms) VALUES ($1, $2, $3, $4, $5)
                      ON CONFLICT (member) DO UPDATE SET salt = excluded.salt, rounds = excluded.rounds,
                      digest = excluded.digest, set_ms = excluded.set_ms";
        let values = [
            member.as_str().into(),
            pin.salt.as_str().into(),
            i64::from(pin.rounds).into(),
            pin.check.as_str().into(),
            now.ms().into(),
        ];
        self.talk.act(upsert, &values).await?;
        self.tell(News::Joined);
        Ok(())
    }
}

/// Copies it into a new store; when figures were set is said anew.
pub(super) async fn copy(old: &mut Change, new: &mut Change, now: Instant) -> Result<(), StoreError> {
    let InRoom { boards, pins } = all(&mut *old.talk).await?;
    for (dev, room) in &boards {
        new.hang(dev, Some(room)).await?;
    }
    for PinRecord { member, salt, rounds, check } in pins {
        new.set_pin(&member, &PinSet { salt, rounds, check }, now).await?;
    }
    Ok(())
}
