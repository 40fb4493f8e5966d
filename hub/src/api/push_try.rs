//! `POST /api/push/try`: the hub rings the calling phone once, in a little while, so that it can be locked first.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::sync::push::PushTried;

use crate::hub::Hub;
use crate::problem::Problem;
use crate::push::caller;
use crate::store::SignedIn;

/// Long enough to lock a phone and put it away.
const IN_SECONDS: u32 = 10;

/// Says when it comes. Whether it arrives the phone's owner sees, and nobody else can know.
pub(crate) async fn answer(State(hub): State<Arc<Hub>>, caller: SignedIn) -> Result<Json<PushTried>, Problem> {
    let to = hub.store.subscription(&caller.dev).await?.ok_or(Problem::NoAddress)?;
    caller::try_later(&hub, to, IN_SECONDS);
    Ok(Json(PushTried { in_seconds: IN_SECONDS }))
}
