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
    check_code(&hub, address, &ask.code)?;
    let shop = hub.shop.get();
    let members = shop.members.iter().map(|member| Choice { id: member.id.clone(), name: member.name.clone() });
    Ok(Json(JoinChoices { shop: shop.rulebook.shop.name.clone(), members: members.collect() }))
}

/// Whether a code is the hub's. The try is taken before it is looked at, so that tries at the same moment count too.
pub(super) fn check_code(hub: &Hub, address: IpAddr, code: &str) -> Result<(), Problem> {
    hub.limits.join(address)?;
    if !secret::same(&door::normal(code), &hub.join_code) {
        return Err(Problem::WrongCode);
    }
    hub.limits.forgive_join(address);
    Ok(())
}
