//! `POST /api/late`: what a phone had not sent when it was taken off. It needs no session, which such a phone has none of:
//! each line is signed by it. The lines lie beside the log and count for nothing until a steward has them taken in.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::ids::DeviceId;
use shared_core::log::jws;
use shared_core::sync::invite::{LateKept, LateLines};
use shared_core::sync::message::{ENTRIES_MAX, Why};

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::LATE_MAX;

/// Keeps lines of one phone that was taken off.
pub(crate) async fn late(State(hub): State<Arc<Hub>>, Body(ask): Body<LateLines>) -> Result<Json<LateKept>, Problem> {
    if ask.lines.len() > ENTRIES_MAX {
        return Err(Problem::Unreadable(format!("at most {ENTRIES_MAX} lines at once")));
    }
    // Signatures are checked before the store is asked for its lock.
    let mut links = Vec::new();
    for line in &ask.lines {
        let sealed = jws::unseal(line).map_err(|_| Problem::BadSignature)?;
        links.push((sealed.link, jws::hash(line), line));
    }
    let dev: DeviceId = links.first().map(|(link, ..)| link.dev.clone()).ok_or(Problem::UnknownPhone)?;
    if links.iter().any(|(link, ..)| link.dev != dev) {
        return Err(Problem::Unreadable(format!("{:?}: lines of one phone at a time", Why::OtherDevice)));
    }
    let (mut change, now) = (hub.store.change().await?, clock::now());
    let known = change.device(&dev).await?.ok_or(Problem::UnknownPhone)?;
    if known.revoked.is_none() {
        return Err(Problem::StillJoined);
    }
    if change.late_count(&dev).await? + links.len() as u64 > LATE_MAX {
        return Err(Problem::TooMuchLate { limit: LATE_MAX });
    }
    for (link, hash, line) in links {
        change.keep_late(&link, &hash, line, now).await?;
    }
    let waiting = change.late_count(&dev).await?;
    change.commit().await?;
    Ok(Json(LateKept { waiting }))
}
