//! `POST /api/invites`, `GET /api/invites`, `POST /api/invites/revoke`: a steward's phone makes one-time codes, sees which
//! are open, and takes one back. The code is in the answer that makes it and nowhere else.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use shared_core::code::door::join_url;
use shared_core::sync::invite::{InviteAsked, InviteMade, InviteRevoked, OpenInvite, OpenInvites};

use super::body::Body;
use crate::auth::Steward;
use crate::clock;
use crate::hub::Hub;
use crate::invites::{self, Wanted};
use crate::problem::Problem;

/// Makes a code.
pub(crate) async fn make(
    State(hub): State<Arc<Hub>>,
    Steward(caller): Steward,
    Body(ask): Body<InviteAsked>,
) -> Result<Json<InviteMade>, Problem> {
    if hub.shop.get().members.get(&ask.member).is_none() {
        return Err(Problem::UnknownMember(ask.member.to_string()));
    }
    let InviteAsked { member, kind, replaces, hours } = ask;
    let (hours, by) = (hours.unwrap_or(invites::HOURS), caller.member.to_string());
    let wanted = Wanted { member, kind, replaces, hours, by };
    let mut change = hub.store.change().await?;
    let fresh = invites::make(&mut change, &wanted, clock::now()).await?;
    change.commit().await?;
    tracing::info!(member = %wanted.member, by = %wanted.by, "an invite was made");
    let url = join_url(&hub.base, &fresh.code);
    Ok(Json(InviteMade { id: fresh.id, member: wanted.member, code: fresh.code, url, until: fresh.until }))
}

/// Which are open.
pub(crate) async fn list(State(hub): State<Arc<Hub>>, _caller: Steward) -> Result<Json<OpenInvites>, Problem> {
    let now = clock::now();
    let open = hub.store.invites().await?.into_iter().filter(|invite| invite.is_open(now));
    let row = |invite: crate::store::Invite| OpenInvite {
        id: invite.id,
        member: invite.member,
        kind: invite.kind,
        made: invite.made,
        until: invite.until,
    };
    Ok(Json(OpenInvites { invites: open.map(row).collect() }))
}

/// Takes one back; 204.
pub(crate) async fn revoke(
    State(hub): State<Arc<Hub>>,
    _caller: Steward,
    Body(ask): Body<InviteRevoked>,
) -> Result<StatusCode, Problem> {
    let mut change = hub.store.change().await?;
    if !change.revoke_invite(ask.id, clock::now()).await? {
        return Err(Problem::InviteOver);
    }
    change.commit().await?;
    Ok(StatusCode::NO_CONTENT)
}
