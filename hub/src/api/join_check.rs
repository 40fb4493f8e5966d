//! `POST /api/join/check`: whether a join code is right, and which members a device may then speak for.
//!
//! The members' names go to nobody without the code. A wrong code counts; a right one does not.

use std::net::IpAddr;
use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::sync::shop::{Choice, JoinCheck, JoinChoices};

use super::Client;
use super::body::Body;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::{door, secret};

/// Checks the code and gives the choice.
pub(crate) async fn join_check(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    Body(ask): Body<JoinCheck>,
) -> Result<Json<JoinChoices>, Problem> {
    check_code(&hub, address, &ask.code).await?;
    let shop = hub.shop.get();
    let members = shop.members.iter().map(|member| Choice { id: member.id.clone(), name: member.name.clone() });
    Ok(Json(JoinChoices { shop: shop.rulebook.shop.name.clone(), members: members.collect() }))
}

/// Whether a code is the hub's. The try is taken before it is looked at, so that tries at the same moment count too; and
/// nothing is waited for in between, so that a room full of phones with the right code does not run out of tries.
pub(super) async fn check_code(hub: &Hub, address: IpAddr, code: &str) -> Result<(), Problem> {
    let right = match &hub.own_code {
        Some(own) => Some(own.clone()),
        None => hub.store.join_code().await?,
    };
    hub.limits.join(address)?;
    if !right.is_some_and(|right| secret::same(&door::normal(code), &right)) {
        return Err(Problem::WrongCode);
    }
    hub.limits.forgive_join(address);
    Ok(())
}
