//! `POST /api/join`: a device speaks for a member from now on, and is signed in.
//!
//! The device proves that it holds the key it names, and brings a code: a one-time code, for whom it was made, which is
//! used up by this; or the demo shop's. What it joined for, it stays: its log is one member's. Joining twice with the
//! same code is no error for the same device, because an answer may have been lost. A code made in place of a lost phone
//! takes that phone off in the same change.

use std::sync::Arc;

use axum::extract::State;
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use shared_core::sync::shop::{Join, join_bytes};

use super::Client;
use super::body::Body;
use crate::auth::sign_in;
use crate::hub::Hub;
use crate::invites::{self, Good};
use crate::problem::Problem;
use crate::store::{Change, Invite, Joined};
use crate::{clock, secret};

/// Lets the device join; 204 with a session.
pub(crate) async fn join(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    Body(ask): Body<Join>,
) -> Result<(StatusCode, [(HeaderName, HeaderValue); 1]), Problem> {
    let now = clock::now();
    let good = invites::find(&hub, address, &ask.code, Some(&ask.dev), now).await?;
    if hub.shop.get().members.get(&ask.member).is_none() {
        return Err(Problem::UnknownMember(ask.member.to_string()));
    }
    if !secret::signed_by(&ask.dev, &join_bytes(&ask.code, &ask.member), &ask.signature) {
        return Err(Problem::BadSignature);
    }
    if let Good::Invite(invite) = &good
        && invite.member != ask.member
    {
        return Err(Problem::OtherInvite);
    }
    let mut change = hub.store.change().await?;
    let joined = change.join(&ask.dev, &ask.member, now).await?;
    match (joined, &good) {
        (Joined::ForAnother, _) => return Err(Problem::JoinedForAnother),
        (Joined::Revoked, _) => return Err(Problem::Revoked),
        // The demo shop has phones that nobody gave out; in a shop, a code is used up by a phone that is new.
        (Joined::New, Good::Invite(invite)) => use_up(&mut change, invite, &ask).await?,
        (Joined::New | Joined::Already, _) => {}
    }
    let cookie = sign_in(&hub, change, &ask.dev).await?;
    if joined == Joined::New {
        tracing::info!(member = %ask.member, "a device joined");
        // The news say so too, but its first question may be faster.
        hub.reread().await?;
    }
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, cookie)]))
}

async fn use_up(change: &mut Change, invite: &Invite, ask: &Join) -> Result<(), Problem> {
    let now = clock::now();
    if !change.use_invite(invite.id, &ask.dev, now).await? {
        return Err(Problem::InviteUsed);
    }
    change.revoke_first_invites(&ask.member, now).await?;
    if let Some(old) = &invite.replaces
        && change.revoke(old, &invite.made_by, now).await?
    {
        tracing::info!(member = %ask.member, "its lost phone was taken off");
    }
    Ok(())
}
