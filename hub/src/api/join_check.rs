//! `POST /api/join/check`: what a code is good for: whom a device may then speak for, and whether it takes a lost phone's
//! place.
//!
//! Names go to nobody without a code, and with a one-time code its member's alone. A wrong code counts; a right one does not.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::sync::shop::{Choice, JoinCheck, JoinChoices};

use super::Client;
use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::invites::{self, Good};
use crate::problem::Problem;

/// Checks the code and gives the choice.
pub(crate) async fn join_check(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    Body(ask): Body<JoinCheck>,
) -> Result<Json<JoinChoices>, Problem> {
    let good = invites::find(&hub, address, &ask.code, None, clock::now()).await?;
    let shop = hub.shop.get();
    let invite = match &good {
        Good::Demo => None,
        Good::Invite(invite) => Some(invite),
    };
    let mut members =
        shop.members.iter().filter(|member| invite.is_none_or(|invite| invite.member == member.id)).peekable();
    if let Some(invite) = invite.filter(|_| members.peek().is_none()) {
        return Err(Problem::UnknownMember(invite.member.to_string()));
    }
    let members = members.map(|member| Choice { id: member.id.clone(), name: member.name.clone() }).collect();
    let invite = invite.map(|invite| invite.kind);
    Ok(Json(JoinChoices { shop: shop.rulebook.shop.name.clone(), members, invite }))
}
