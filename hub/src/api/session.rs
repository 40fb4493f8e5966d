//! `POST /api/session`: a joined device signs in by signing its challenge.

use std::sync::Arc;

use axum::extract::State;
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use shared_core::sync::shop::{SessionAsked, session_bytes};

use super::body::Body;
use crate::auth::sign_in;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::{clock, secret};

/// Begins a session; 204 with its cookie.
pub(crate) async fn session(
    State(hub): State<Arc<Hub>>,
    Body(ask): Body<SessionAsked>,
) -> Result<(StatusCode, [(HeaderName, HeaderValue); 1]), Problem> {
    let now = clock::now();
    // Only devices that have joined are given challenges, so a good one says that this device has.
    let until = hub.challenges.good_until(&ask.dev, &ask.challenge, now).ok_or(Problem::StaleChallenge)?;
    if !secret::signed_by(&ask.dev, &session_bytes(&ask.challenge), &ask.signature) {
        return Err(Problem::BadSignature);
    }
    let mut change = hub.store.change().await?;
    // It may have been taken off since.
    if change.device(&ask.dev).await?.is_none_or(|known| known.revoked.is_some()) {
        return Err(Problem::Revoked);
    }
    if !change.spend(&secret::digest(&ask.challenge), until, now).await? {
        return Err(Problem::StaleChallenge);
    }
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, sign_in(&hub, change, &ask.dev).await?)]))
}
