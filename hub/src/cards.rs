//! Cards: who has one, which must be made anew, and what of them each phone is handed.
//!
//! A card is made when a device joins, when the members file or a word of the log (`shared_core::standing`) says otherwise than
//! the card, when the hub's key changes, and before it runs out. Making one is a change of the store, under its lock, so that several processes number them in
//! one order and make none twice. What a card says is the members file's business, what it is worth `shared_core`'s.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::card::face::Face;
use shared_core::card::revoked::{Revoked, TakenOff};
use shared_core::card::statement::thumbprint;
use shared_core::card::{Card, GOOD_FOR, peek};
use shared_core::ids::{DeviceId, RoomId};
use shared_core::in_room::{Board, RoomKey};
use shared_core::members::{Member, Members};
use shared_core::sync::shop::Device;
use shared_core::time::Instant;

use crate::secret;
use crate::store::{InRoom, Known, Made, Signing, Store, StoreError};

/// What the store knows of devices, keys and cards at one time.
#[derive(Clone, Debug)]
pub(crate) struct Issued {
    /// The hub's keys.
    pub(crate) signing: Signing,
    /// All devices, those that were taken off too.
    pub(crate) devices: Vec<Known>,
    /// Cards by device.
    pub(crate) cards: BTreeMap<DeviceId, Made>,
    /// What shows that somebody is in a room.
    pub(crate) in_room: InRoom,
    /// What the keys of boards are made of.
    pub(crate) board_key: [u8; 32],
    /// Everybody, as the members file and the log together have it.
    pub(crate) members: Members,
}

/// Why there are no cards.
#[derive(Debug, thiserror::Error)]
pub(crate) enum CardsFault {
    /// The database.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// No random bytes for a key.
    #[error("the operating system gives no random bytes: {0}")]
    Random(#[from] getrandom::Error),
}

/// Reads everything, and makes what cards are due. `file` is the members file.
pub(crate) async fn renewed(store: &Store, file: &Members, now: Instant) -> Result<Issued, CardsFault> {
    let words = store.standing().await?;
    let mut members = file.clone();
    words.apply(&mut members);
    let devices = store.devices().await?;
    let in_room = store.in_room().await?;
    let board_key = store.board_key(secret::random()?, now).await?;
    if let Some(signing) = store.signing().await? {
        let cards = by_device(store.cards().await?);
        if due(&devices, &cards, &signing, &members, now).is_empty() {
            return Ok(Issued { signing, devices, cards, in_room, board_key, members });
        }
    }
    // Another process may have done it meanwhile: all is read once more under the lock.
    let mut change = store.change().await?;
    let signing = change.signing(secret::random()?, now).await?;
    let devices = change.devices().await?;
    let mut cards = by_device(change.cards().await?);
    let mut number = cards.values().map(|made| made.number).max().unwrap_or(0);
    for (dev, member) in due(&devices, &cards, &signing, &members, now) {
        number += 1;
        let made = make(&signing, dev, member, number, now);
        change.keep_card(&made).await?;
        cards.insert(made.dev.clone(), made);
    }
    change.commit().await?;
    Ok(Issued { signing, devices, cards, in_room, board_key, members })
}

fn by_device(cards: Vec<Made>) -> BTreeMap<DeviceId, Made> {
    cards.into_iter().map(|made| (made.dev.clone(), made)).collect()
}

/// Whose cards are to be made: those of members, on phones that were not taken off.
fn due<'a>(
    devices: &'a [Known],
    cards: &BTreeMap<DeviceId, Made>,
    signing: &Signing,
    members: &'a Members,
    now: Instant,
) -> Vec<(&'a DeviceId, &'a Member)> {
    let members: BTreeMap<_, _> = members.iter().map(|member| (&member.id, member)).collect();
    let kid = thumbprint(signing.key.verifying_key().as_bytes());
    let stands = |dev: &DeviceId, member: &Member| {
        let kept = cards.get(dev).and_then(|made| peek(&made.jws));
        kept.is_some_and(|(card, by)| by == kid && !card.is_due(member, now))
    };
    let active = devices.iter().filter(|device| device.revoked.is_none());
    let owned = active.filter_map(|device| Some((&device.dev, *members.get(&device.member)?)));
    owned.filter(|(dev, member)| !stands(dev, member)).collect()
}

fn make(signing: &Signing, dev: &DeviceId, member: &Member, number: u32, now: Instant) -> Made {
    let card = Card::of(member, dev.clone(), number, now);
    // A member's id is never too long: the members file is refused otherwise.
    let face = Face::of(&card, &signing.key).and_then(|face| face.write()).unwrap_or_default();
    Made { dev: dev.clone(), number, jws: card.seal(&signing.key), face }
}

impl Issued {
    /// The devices that speak for somebody.
    pub(crate) fn active(&self) -> Vec<Device> {
        let active = self.devices.iter().filter(|known| known.revoked.is_none());
        active.map(|known| Device { dev: known.dev.clone(), member: known.member.clone() }).collect()
    }

    /// The faces of the cards of these members' devices, in the same order. Whoever is no member has none.
    pub(crate) fn faces(&self, members: &Members) -> Vec<String> {
        let members: BTreeSet<_> = members.iter().map(|member| &member.id).collect();
        let active = self.devices.iter().filter(|known| known.revoked.is_none() && members.contains(&known.member));
        let faces = active.filter_map(|known| self.cards.get(&known.dev)).map(|made| made.face.clone());
        faces.filter(|face| !face.is_empty()).collect()
    }

    /// The rooms where a board hangs, and the keys of their codes: one for each room, made of the hub's.
    pub(crate) fn boards(&self) -> Vec<Board> {
        let rooms: BTreeSet<_> = self.in_room.boards.iter().map(|(_, room)| room).collect();
        let key = |room: &RoomId| RoomKey(secret::digest([&self.board_key[..], room.as_str().as_bytes()].concat()));
        rooms.into_iter().map(|room| Board { room: room.clone(), key: key(room) }).collect()
    }

    /// The list of phones that were taken off, as it is now. Those whose last card has run out need no mention.
    pub(crate) fn revoked(&self, now: Instant) -> Revoked {
        let revoked = self.devices.iter().filter_map(|known| Some((known, known.revoked?)));
        let recent = revoked.clone().filter(|(_, since)| now - *since < GOOD_FOR);
        let devices = recent.map(|(known, since)| TakenOff { dev: known.dev.clone(), since }).collect();
        Revoked { number: revoked.count() as u64, issued: now, devices }
    }
}
