//! `GET /api/mine`, `GET /api/mine/{member}`, `POST /api/erase`: what the hub holds about somebody, for them to see and take
//! along, and to have erased.
//!
//! What is in force stays (`shared_core::retention`) and is counted in the answer. A steward may have it done for others, and
//! for those who have left the shop, whose phones are then taken off.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_DISPOSITION;
use axum::response::{IntoResponse as _, Response};
use shared_core::ids::PersonId;
use shared_core::log::jws;
use shared_core::sync::hub::stewards_may_see;
use shared_core::sync::mine::{EraseAsked, ErasedNow, Mine};

use super::body::Body;
use crate::auth::Steward;
use crate::clock;
use crate::hub::Hub;
use crate::mine::{self, erase};
use crate::problem::Problem;
use crate::store::SignedIn;

/// All of it.
pub(crate) async fn mine(State(hub): State<Arc<Hub>>, caller: SignedIn) -> Result<Json<Mine>, Problem> {
    let shop = hub.shop.get();
    let row = shop.members.get(&caller.member).cloned();
    Ok(Json(mine::gather(&hub.store, &caller.member, row, shop.rulebook.shop.retention_days).await?))
}

/// What is held about another member, as a file to hand to them, but for what a steward may not read of anybody: what they
/// attested, say. All of it the member takes along by their own phone, or whoever runs the hub by `sweepbell about`.
pub(crate) async fn of_another(
    State(hub): State<Arc<Hub>>,
    Steward(caller): Steward,
    Path(member): Path<PersonId>,
) -> Result<Response, Problem> {
    let shop = hub.shop.get();
    let row = shop.members.get(&member).cloned();
    let mut held = mine::gather(&hub.store, &member, row, shop.rulebook.shop.retention_days).await?;
    if held.member.is_none() && held.phones.is_empty() && held.lines.is_empty() && held.naming.is_empty() {
        return Err(Problem::UnknownMember(member.to_string()));
    }
    for lines in [&mut held.lines, &mut held.naming, &mut held.late] {
        lines.retain(|line| jws::unproved(line).is_some_and(|(_, entry)| stewards_may_see(&entry.fact)));
    }
    tracing::info!(by = %caller.member, "what is held about a member is taken along");
    Ok(([(CONTENT_DISPOSITION, "attachment; filename=\"held.json\"")], Json(held)).into_response())
}

/// Erases it.
pub(crate) async fn erase_asked(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    Body(ask): Body<EraseAsked>,
) -> Result<Json<ErasedNow>, Problem> {
    let whose = ask.member.unwrap_or_else(|| caller.member.clone());
    let is_own = whose == caller.member;
    if !is_own && !hub.shop.get().is_steward(&caller.member) {
        return Err(Problem::NotSteward);
    }
    if is_own && ask.leaving {
        return Err(Problem::OwnPhone);
    }
    let by = ask.leaving.then_some(caller.member.as_str());
    let erased = erase(&hub.store, &whose, by, clock::now()).await?;
    tracing::info!(lines = erased.erased, stay = erased.stays, "what was held about a member is erased");
    hub.reread().await?;
    Ok(Json(erased))
}
