//! `GET /api/push`: the hub's key for push services, and whether this phone is reached. `POST /api/push`: it is reached
//! here from now on, or no longer.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use shared_core::sync::push::{PushSet, PushState};

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::push::target::Target;
use crate::push::{Subscription, read_key};
use crate::store::SignedIn;

/// Looks it up.
pub(crate) async fn state(State(hub): State<Arc<Hub>>, caller: SignedIn) -> Result<Json<PushState>, Problem> {
    let endpoint = hub.store.subscription(&caller.dev).await?.map(|known| known.endpoint);
    Ok(Json(PushState { key: hub.sender.key.public(), endpoint }))
}

/// Takes the calling phone's subscription in place of the one before, or ends it; 204.
pub(crate) async fn set(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    Body(ask): Body<PushSet>,
) -> Result<StatusCode, Problem> {
    let mut change = hub.store.change().await?;
    match ask.subscription {
        None => change.forget_subscription(&caller.dev, None).await?,
        Some(at) => {
            Target::read(&at.endpoint, hub.sender.reach).map_err(|fault| Problem::UnfitPush(fault.to_string()))?;
            if read_key(&at.keys.p256dh, &at.keys.auth).is_none() {
                return Err(Problem::UnfitPush("its keys are not such".into()));
            }
            let SignedIn { dev, member, .. } = caller;
            let to = Subscription { dev, member, endpoint: at.endpoint, p256dh: at.keys.p256dh, auth: at.keys.auth };
            change.subscribe(&to, clock::now()).await?;
        }
    }
    change.commit().await?;
    // What is due is due to this phone as well, from now on.
    hub.rouse.notify_one();
    Ok(StatusCode::NO_CONTENT)
}
