//! `GET /api/devices`, `POST /api/devices/revoke`, `POST /api/devices/admit`: which phones speak for whom, taking one off, and
//! having what it said since taken into the log.
//!
//! A steward sees and takes off any; anybody else their own: whoever has lost a phone and holds another need not wait for
//! a steward. The phone in one's hand is not taken off by itself. What it says from then on is for `POST /api/late`.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use shared_core::sync::invite::{LateAdmit, LateAdmitted, PhoneRevoked, PhoneRow, Phones};

use super::body::Body;
use crate::auth::Steward;
use crate::clock;
use crate::hub::Hub;
use crate::late;
use crate::problem::Problem;
use crate::store::{Known, SignedIn};

/// The phones.
pub(crate) async fn list(State(hub): State<Arc<Hub>>, caller: SignedIn) -> Result<Json<Phones>, Problem> {
    let all = hub.shop.get().is_steward(&caller.member);
    let devices = hub.store.devices().await?.into_iter().filter(|known| all || known.member == caller.member);
    let late: BTreeMap<_, _> = if all { hub.store.late().await?.into_iter().collect() } else { BTreeMap::new() };
    let row = |Known { dev, member, joined, revoked }| {
        let late = late.get(&dev).map_or(0, |lines| u32::try_from(*lines).unwrap_or(u32::MAX));
        PhoneRow { dev, member, joined, revoked, late }
    };
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

/// Takes what one handed in after it was taken off into the log.
pub(crate) async fn admit(
    State(hub): State<Arc<Hub>>,
    Steward(caller): Steward,
    Body(ask): Body<LateAdmit>,
) -> Result<Json<LateAdmitted>, Problem> {
    let shop = hub.shop.get();
    let admitted = late::admit(&hub.store, Some((&shop.rulebook, shop.file())), &ask.dev, clock::now()).await?;
    let admitted = admitted.ok_or(Problem::UnknownPhone)?;
    tracing::info!(by = %caller.member, lines = admitted.taken, "what a phone handed in late was taken into the log");
    hub.reread().await?;
    Ok(Json(admitted))
}
