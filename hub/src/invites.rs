//! One-time codes: making one, and finding whose one is that a phone brings.
//!
//! A code is random, told once, and kept as a digest alone. It is good for one member, one phone and a day, unless its
//! maker says otherwise; a steward may take it back. The demo shop alone has a code besides that is good for everybody.

use std::net::IpAddr;

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::invite::InviteKind;
use shared_core::time::{Instant, Span};
use thiserror::Error;

use crate::door::{self, Way};
use crate::hub::Hub;
use crate::problem::Problem;
use crate::secret;
use crate::store::{Change, Invite, Known, OPEN_MAX, StoreError};

/// How long a code is good, in hours, unless somebody says otherwise.
pub(crate) const HOURS: u32 = 24;
/// The longest that may be said: a week.
pub(crate) const HOURS_MAX: u32 = 7 * 24;

/// Why there is no invite.
#[derive(Debug, Error)]
pub(crate) enum InviteFault {
    /// A first phone for somebody who has one.
    #[error("{0} has a phone already: make a code for another phone, or for one in place of a lost one")]
    HasPhone(PersonId),
    /// The phone to be replaced is not that member's, or off already.
    #[error("{0} has no such phone, or it was taken off already")]
    NoSuchPhone(PersonId),
    /// A code that replaces nothing, or one that should not.
    #[error("a phone to be replaced is named with a code for that and with no other")]
    Replaces,
    /// Too long.
    #[error("a code is good for 1 to {HOURS_MAX} hours")]
    Hours,
    /// Too many.
    #[error("{OPEN_MAX} codes are open already: take some back first")]
    TooMany,
    /// The database.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// No random bytes.
    #[error("the operating system gives no random bytes: {0}")]
    Random(#[from] getrandom::Error),
}

/// What somebody asks for.
#[derive(Clone, Debug)]
pub(crate) struct Wanted {
    /// Whom it is for: a member of the shop.
    pub(crate) member: PersonId,
    /// What for.
    pub(crate) kind: InviteKind,
    /// In place of which phone.
    pub(crate) replaces: Option<DeviceId>,
    /// How many hours it is good.
    pub(crate) hours: u32,
    /// Who asks; "" at the hub's own machine.
    pub(crate) by: String,
}

/// A new invite, and its code, which is told this once.
#[derive(Clone, Debug)]
pub(crate) struct Fresh {
    /// What it is called by.
    pub(crate) id: u64,
    /// The code, as it is shown.
    pub(crate) code: String,
    /// Until when it is good.
    pub(crate) until: Instant,
}

/// Makes one.
pub(crate) async fn make(change: &mut Change, wanted: &Wanted, now: Instant) -> Result<Fresh, InviteFault> {
    let Wanted { member, kind, replaces, hours, by } = wanted.clone();
    let devices = change.devices().await?;
    let mut own = devices.iter().filter(|known| known.member == member && known.revoked.is_none());
    match (kind, &replaces) {
        (InviteKind::First, None) if own.next().is_some() => return Err(InviteFault::HasPhone(member)),
        (InviteKind::First | InviteKind::Another, None) => {}
        (InviteKind::Replaces, Some(old)) if own.any(|known| known.dev == *old) => {}
        (InviteKind::Replaces, Some(_)) => return Err(InviteFault::NoSuchPhone(member)),
        _ => return Err(InviteFault::Replaces),
    }
    if !(1..=HOURS_MAX).contains(&hours) {
        return Err(InviteFault::Hours);
    }
    if change.invites().await?.iter().filter(|invite| invite.is_open(now)).count() >= OPEN_MAX {
        return Err(InviteFault::TooMany);
    }
    let (code, until) = (door::new_code()?, now + Span::from_minutes(i64::from(hours) * 60));
    let (made_by, digest) = (by, digest(&code).to_vec());
    let (id, made, used_by, is_revoked) = (0, now, None, false);
    let id = change
        .keep_invite(&Invite { id, digest, member, kind, replaces, made_by, made, until, used_by, is_revoked })
        .await?;
    Ok(Fresh { id, code: door::shown(&code), until })
}

fn digest(code: &str) -> [u8; 32] {
    secret::digest(format!("sweepbell invite 1\n{}", door::normal(code)))
}

/// What a code is good for.
#[derive(Clone, Debug)]
pub(crate) enum Good {
    /// To join the demo shop as anybody.
    Demo,
    /// To join as one member, once.
    Invite(Invite),
}

/// Finds what a code is good for; one that is over says how it ended, except to the phone that used it (an answer may
/// have been lost). The try is taken before the code is looked at, so that tries at the same moment count too; and
/// nothing is waited for in between, so that a room full of phones with right codes does not run out of tries. All
/// digests are compared, whichever fits.
pub(crate) async fn find(
    hub: &Hub,
    address: IpAddr,
    code: &str,
    dev: Option<&DeviceId>,
    now: Instant,
) -> Result<Good, Problem> {
    let invites = hub.store.invites().await?;
    hub.limits.join(address)?;
    let (digest, mut found) = (digest(code), None);
    for invite in invites {
        if secret::same_digest(&invite.digest, &digest) {
            found = Some(invite);
        }
    }
    let good = match (found, &hub.demo_code) {
        (Some(invite), _) if invite.is_open(now) => Good::Invite(invite),
        (Some(invite), _) if dev.is_some() && invite.used_by.as_ref() == dev => Good::Invite(invite),
        (Some(invite), _) if invite.used_by.is_some() => return Err(Problem::InviteUsed),
        (Some(_), _) => return Err(Problem::InviteOver),
        (None, Some(demo)) if secret::same(&door::normal(code), demo) => Good::Demo,
        (None, _) => return Err(Problem::WrongCode),
    };
    hub.limits.forgive_join(address);
    Ok(good)
}

/// How a phone joins, for the hub's own screen. While no steward has a phone, each start makes a code for the first.
pub(crate) async fn way_in(hub: &Hub, now: Instant) -> Result<Way, InviteFault> {
    if let Some(code) = &hub.demo_code {
        return Ok(Way::Demo { code: code.clone() });
    }
    let shop = hub.shop.get();
    let stewards: Vec<_> = shop.members.iter().filter(|member| member.steward).collect();
    let has_phone = |known: &Known| known.revoked.is_none() && stewards.iter().any(|member| member.id == known.member);
    if shop.phones().iter().any(has_phone) {
        return Ok(Way::Invited);
    }
    let Some(first) = stewards.first() else { return Ok(Way::NoSteward) };
    let (member, kind) = (first.id.clone(), InviteKind::First);
    let wanted = Wanted { member, kind, replaces: None, hours: HOURS, by: String::new() };
    let mut change = hub.store.change().await?;
    let fresh = make(&mut change, &wanted, now).await?;
    change.commit().await?;
    Ok(Way::First { code: door::normal(&fresh.code), name: first.name.clone(), until: fresh.until })
}
