//! `POST /api/pin`: what a member's figures are checked against, as their phone reckoned it. The figures never come here.

use std::sync::Arc;

use axum::extract::State;
use axum::http::StatusCode;
use shared_core::pin::PinSet;

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::SignedIn;

/// Keeps it for the caller's member; 204.
pub(crate) async fn set(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    Body(ask): Body<PinSet>,
) -> Result<StatusCode, Problem> {
    if !ask.is_fit() {
        return Err(Problem::UnfitPin);
    }
    let mut change = hub.store.change().await?;
    change.set_pin(&caller.member, &ask, clock::now()).await?;
    change.commit().await?;
    hub.reread().await?;
    Ok(StatusCode::NO_CONTENT)
}
