//! `POST /api/session/challenge`: something fresh for a joined device to sign.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::sync::shop::{Challenge, ChallengeAsked};

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;

/// Gives a challenge, good once and for a minute.
pub(crate) async fn challenge(
    State(hub): State<Arc<Hub>>,
    Body(ask): Body<ChallengeAsked>,
) -> Result<Json<Challenge>, Problem> {
    let known = hub.store.device(&ask.dev).await?.ok_or(Problem::NotJoined)?;
    if known.revoked.is_some() {
        return Err(Problem::Revoked);
    }
    if hub.shop.get().members.get(&known.member).is_none() {
        return Err(Problem::NotJoined);
    }
    Ok(Json(Challenge { challenge: hub.challenges.give(&ask.dev, clock::now())? }))
}
