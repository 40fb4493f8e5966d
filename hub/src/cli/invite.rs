//! `sweepbell invite make|list|revoke`: one-time codes to join with, from the hub's own machine.
//!
//! Works while the hub serves. A code is said once, here; what is kept of it does not give it back.

use clap::{Args, Subcommand};
use serde::Serialize;
use shared_core::code::door::join_url;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::invite::{InviteKind, OpenInvite};

use super::shop::{ShopArguments, with_store};
use super::{Failure, answer};
use crate::clock;
use crate::door;
use crate::invites::{self, Wanted};

/// Make, list or take back one-time codes with which members' phones join.
#[derive(Args, Debug)]
pub(super) struct Invite {
    #[command(subcommand)]
    act: Act,
}

#[derive(Debug, Subcommand)]
enum Act {
    /// A code for a member.
    Make(Make),
    /// The codes that are open: for whom, and until when; not what they are.
    List(ShopArguments),
    /// Take a code back.
    Revoke {
        /// What `make` and `list` call it by.
        id: u64,
        #[command(flatten)]
        shop: ShopArguments,
    },
}

#[derive(Args, Debug)]
struct Make {
    /// Whom it is for, by their id in the members file.
    member: String,
    /// For one more phone of somebody who has one.
    #[arg(long, conflicts_with = "in_place_of")]
    another: bool,
    /// For a phone in place of this one, which is taken off as soon as the new one has joined.
    #[arg(long, value_name = "DEVICE", allow_hyphen_values = true)]
    in_place_of: Option<String>,
    /// How many hours it is good.
    #[arg(long, value_name = "HOURS", default_value_t = invites::HOURS)]
    hours: u32,
    /// The address that phones use; with it, the code is drawn to be scanned, too.
    #[arg(long, value_name = "URL")]
    public_url: Option<String>,
    #[command(flatten)]
    shop: ShopArguments,
}

#[derive(Debug, Serialize)]
struct Made {
    id: u64,
    member: PersonId,
    kind: InviteKind,
    code: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    url: Option<String>,
    until: shared_core::time::Instant,
}

impl Invite {
    /// Does it, and says what became of it.
    pub(super) fn run(self) -> Result<(), Failure> {
        match self.act {
            Act::Make(make) => make.run(),
            Act::List(shop) => {
                let now = clock::now();
                let invites = with_store(&shop, async |store| Ok(store.invites().await?))?;
                let open = invites.into_iter().filter(|invite| invite.is_open(now));
                let row = |it: crate::store::Invite| OpenInvite {
                    id: it.id,
                    member: it.member,
                    kind: it.kind,
                    made: it.made,
                    until: it.until,
                };
                answer(&open.map(row).collect::<Vec<_>>())
            }
            Act::Revoke { id, shop } => {
                let revoked = with_store(&shop, async |store| {
                    let mut change = store.change().await?;
                    let revoked = change.revoke_invite(id, clock::now()).await?;
                    change.commit().await?;
                    Ok(revoked)
                })?;
                if revoked { Ok(()) } else { Err(Failure::refused(&format!("no code {id} is open"))) }
            }
        }
    }
}

impl Make {
    fn run(self) -> Result<(), Failure> {
        let members = self.shop.rules()?.members;
        let member = PersonId::from(self.member.as_str());
        if members.get(&member).is_none() {
            return Err(Failure::refused(&format!("no member is called `{member}`")));
        }
        let replaces = self.in_place_of.as_deref().map(DeviceId::from);
        let kind = match (&replaces, self.another) {
            (Some(_), _) => InviteKind::Replaces,
            (None, true) => InviteKind::Another,
            (None, false) => InviteKind::First,
        };
        let wanted = Wanted { member: member.clone(), kind, replaces, hours: self.hours, by: String::new() };
        let fresh = with_store(&self.shop, async |store| {
            let mut change = store.change().await?;
            let fresh = invites::make(&mut change, &wanted, clock::now()).await?;
            change.commit().await?;
            Ok(fresh)
        })?;
        let url = self.public_url.map(|base| join_url(base.trim_end_matches('/'), &fresh.code));
        if let Some(url) = &url {
            eprintln!("{}", door::picture(url, std::io::IsTerminal::is_terminal(&std::io::stderr())));
        }
        answer(&Made { id: fresh.id, member, kind, code: fresh.code, url, until: fresh.until })
    }
}
