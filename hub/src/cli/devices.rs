//! `sweepbell devices list|revoke|admit|hang`: members' phones, from the hub's own machine.
//!
//! Works while the hub serves: a phone that is taken off here is refused from its next word on. What it had not sent and
//! hands in later lies beside the log; `admit` takes it in at the log's end, by the intake that every line passes.

use std::collections::BTreeMap;

use clap::{Args, Subcommand};
use serde::Serialize;
use shared_core::ids::{DeviceId, PersonId, RoomId};
use shared_core::time::Instant;

use super::shop::{ShopArguments, with_store};
use super::{Failure, answer};
use crate::store::Store;
use crate::{clock, late};

/// List members' phones, take one off, or have what it handed in since then taken into the log.
#[derive(Args, Debug)]
pub(super) struct Devices {
    #[command(subcommand)]
    act: Act,
}

#[derive(Debug, Subcommand)]
enum Act {
    /// All phones: whose, since when, taken off when, and how many lines wait since then.
    List(ShopArguments),
    /// Take a phone off: it speaks for nobody from now on.
    Revoke(Which),
    /// Hang a device up as the board of a room, where it shows a changing code; without a room, take it down.
    Hang {
        #[command(flatten)]
        which: Which,
        /// The room.
        room: Option<String>,
    },
    /// Take what a phone handed in after it was taken off into the log: its member says that it is theirs.
    Admit(Which),
}

#[derive(Args, Debug)]
struct Which {
    /// The phone, by its id as `list` says it. One in 64 begins with a hyphen.
    #[arg(allow_hyphen_values = true)]
    device: String,
    #[command(flatten)]
    shop: ShopArguments,
}

#[derive(Debug, Serialize)]
struct Phone {
    device: DeviceId,
    member: PersonId,
    joined: Instant,
    revoked: Option<Instant>,
    late: u64,
}

impl Devices {
    /// Does it, and says what became of it.
    pub(super) fn run(self) -> Result<(), Failure> {
        match self.act {
            Act::List(shop) => answer(&with_store(&shop, list)?),
            Act::Revoke(Which { device, shop }) => {
                let revoked = with_store(&shop, async |store| {
                    let mut change = store.change().await?;
                    let revoked = change.revoke(&device.as_str().into(), "", clock::now()).await?;
                    change.commit().await?;
                    Ok(revoked)
                })?;
                if revoked { Ok(()) } else { Err(no_phone(&device)) }
            }
            Act::Hang { which: Which { device, shop }, room } => {
                let rules = shop.rules()?;
                let room = room.as_deref().map(RoomId::from);
                if let Some(room) = room.as_ref().filter(|room| rules.rulebook.room(room).is_none()) {
                    return Err(Failure::refused(&format!("the rulebook has no room `{room}`")));
                }
                let hung = with_store(&shop, async |store| {
                    let (mut change, dev) = (store.change().await?, device.as_str().into());
                    let joined = change.device(&dev).await?.is_some_and(|known| known.revoked.is_none());
                    if joined {
                        change.hang(&dev, room.as_ref()).await?;
                        change.commit().await?;
                    }
                    Ok(joined)
                })?;
                if hung { Ok(()) } else { Err(no_phone(&device)) }
            }
            Act::Admit(Which { device, shop }) => {
                // Without the shop's files nobody may say what another is to the shop.
                let rules = shop.rules().ok();
                let rules = rules.as_ref().map(|rules| (&rules.rulebook, &rules.members));
                let admitted = with_store(&shop, async |store| {
                    Ok(late::admit(store, rules, &device.as_str().into(), clock::now()).await?)
                })?;
                answer(&admitted.ok_or_else(|| no_phone(&device))?)
            }
        }
    }
}

fn no_phone(device: &str) -> Failure {
    Failure::refused(&format!("no phone `{device}` has joined, or it was taken off already"))
}

async fn list(store: &Store) -> anyhow::Result<Vec<Phone>> {
    let late: BTreeMap<DeviceId, u64> = store.late().await?.into_iter().collect();
    let phone = |known: crate::store::Known| Phone {
        late: late.get(&known.dev).copied().unwrap_or(0),
        device: known.dev,
        member: known.member,
        joined: known.joined,
        revoked: known.revoked,
    };
    Ok(store.devices().await?.into_iter().map(phone).collect())
}
