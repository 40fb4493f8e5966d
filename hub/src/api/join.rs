//! `POST /api/join`: a device speaks for a member from now on, and is signed in.
//!
//! The device proves that it holds the key it names. What it joined for, it stays: its log is one member's. Joining
//! twice for the same member is no error, because an answer may have been lost.

use std::sync::Arc;

use axum::extract::State;
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use shared_core::sync::shop::{Join, join_bytes};

use super::Client;
use super::body::Body;
use super::join_check::check_code;
use crate::auth::sign_in;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::Joined;
use crate::{clock, secret};

/// Lets the device join; 204 with a session.
pub(crate) async fn join(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    Body(ask): Body<Join>,
) -> Result<(StatusCode, [(HeaderName, HeaderValue); 1]), Problem> {
    check_code(&hub, address, &ask.code).await?;
    if hub.shop.get().members.get(&ask.member).is_none() {
        return Err(Problem::UnknownMember(ask.member.to_string()));
    }
    if !secret::signed_by(&ask.dev, &join_bytes(&ask.code, &ask.member), &ask.signature) {
        return Err(Problem::BadSignature);
    }
    let mut change = hub.store.change().await?;
    let joined = change.join(&ask.dev, &ask.member, clock::now()).await?;
    if joined == Joined::ForAnother {
        return Err(Problem::JoinedForAnother);
    }
    let cookie = sign_in(&hub, change, &ask.dev).await?;
    if joined == Joined::New {
        tracing::info!(member = %ask.member, "a device joined");
        // The news say so too, but its first question may be faster.
        hub.reread_devices().await?;
    }
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, cookie)]))
}
