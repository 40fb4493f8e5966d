//! `POST /api/boards`: a steward says that a device hangs as the board of a room, or nowhere. What hangs shows the changing
//! code that buddies read off it.

use std::sync::Arc;

use axum::extract::State;
use axum::http::StatusCode;
use shared_core::sync::shop::Hung;

use super::body::Body;
use crate::auth::Steward;
use crate::hub::Hub;
use crate::problem::Problem;

/// Hangs it up, or takes it down; 204.
pub(crate) async fn hang(
    State(hub): State<Arc<Hub>>,
    _caller: Steward,
    Body(ask): Body<Hung>,
) -> Result<StatusCode, Problem> {
    if let Some(room) = ask.room.as_ref().filter(|room| hub.shop.get().rulebook.room(room).is_none()) {
        return Err(Problem::UnknownRoom(room.to_string()));
    }
    let mut change = hub.store.change().await?;
    let known = change.device(&ask.dev).await?.filter(|known| known.revoked.is_none());
    if known.is_none() {
        return Err(Problem::UnknownPhone);
    }
    change.hang(&ask.dev, ask.room.as_ref()).await?;
    change.commit().await?;
    hub.reread().await?;
    Ok(StatusCode::NO_CONTENT)
}
