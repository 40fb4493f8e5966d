//! `GET /api/devices`, `POST /api/devices/revoke`: which phones speak for whom, and taking one off.
//!
//! A steward sees and takes off any; anybody else their own: whoever has lost a phone and holds another need not wait for
//! a steward. The phone in one's hand is not taken off by itself. What it says from then on is for `POST /api/late`.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use shared_core::sync::invite::{PhoneRevoked, PhoneRow, Phones};

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{Known, SignedIn};

/// The phones.
pub(crate) async fn list(State(hub): State<Arc<Hub>>, caller: SignedIn) -> Result<Json<Phones>, Problem> {
    let all = hub.shop.get().is_steward(&caller.member);
    let devices = hub.store.devices().await?.into_iter().filter(|known| all || known.member == caller.member);
    let row = |Known { dev, member, joined, revoked }| PhoneRow { dev, member, joined, revoked };
    Ok(Json(Phones { devices: devices.map(row).collect() }))
}

/// Takes one off; 204.
pub(crate) async fn revoke(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    Body(ask): Body<PhoneRevoked>,
) -> Result<StatusCode, Problem> {
    if ask.dev == caller.dev {
        return Err(Problem::OwnPhone);
    }
    let mut change = hub.store.change().await?;
    let known = change.device(&ask.dev).await?.ok_or(Problem::UnknownPhone)?;
    if known.member != caller.member && !hub.shop.get().is_steward(&caller.member) {
        return Err(Problem::NotSteward);
    }
    if change.revoke(&ask.dev, caller.member.as_str(), clock::now()).await? {
        change.commit().await?;
        tracing::info!(member = %known.member, by = %caller.member, "a phone was taken off");
        // The news say so too; this answer means that it is so everywhere here.
        hub.reread().await?;
    }
    Ok(StatusCode::NO_CONTENT)
}
