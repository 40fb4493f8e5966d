//! What is held about one person, gathered and erased: the same for an endpoint and for the command.

use shared_core::ids::PersonId;
use shared_core::members::Member;
use shared_core::sync::invite::PhoneRow;
use shared_core::sync::mine::{CodeMade, ErasedNow, Mine};
use shared_core::time::Instant;

use crate::store::{About, Known, Store, StoreError};

/// Everything about a member; `row` is theirs in the members file.
pub(crate) async fn gather(
    store: &Store,
    member: &PersonId,
    row: Option<Member>,
    retention_days: u32,
) -> Result<Mine, StoreError> {
    let About { own, naming, late, stays } = store.about(member).await?;
    let phones = store.devices().await?.into_iter().filter(|known| known.member == *member);
    let phone = |Known { dev, member, joined, revoked }| PhoneRow { dev, member, joined, revoked, late: 0 };
    let codes = store.invites().await?.into_iter().filter(|invite| invite.member == *member);
    let codes = codes.map(|it| CodeMade { made: it.made, until: it.until, used: it.used_by.is_some() }).collect();
    Ok(Mine {
        member: row,
        retention_days,
        phones: phones.map(phone).collect(),
        figures: store.in_room().await?.pins.iter().any(|pin| pin.member == *member),
        rung: store.subscriptions().await?.iter().any(|known| known.member == *member),
        codes,
        lines: own,
        naming,
        pictures: store.pictures_of(member).await?,
        late,
        stays: few(stays),
    })
}

/// Erases what is not in force. `leaving`, and by whom: their phones are taken off too.
pub(crate) async fn erase(
    store: &Store,
    member: &PersonId,
    leaving: Option<&str>,
    now: Instant,
) -> Result<ErasedNow, StoreError> {
    let mut change = store.change().await?;
    let erasing = change.erase_about(member, leaving.is_some(), now).await?;
    if let Some(by) = leaving {
        change.part_from(member, by, now).await?;
    }
    change.commit().await?;
    Ok(ErasedNow { erased: few(erasing.erased), stays: few(erasing.stays) })
}

fn few(number: u64) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
