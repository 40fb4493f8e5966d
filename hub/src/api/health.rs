//! `GET /api/health`: whether the hub is up and its database answers. Open to all; says nothing of the shop.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use shared_core::sync::message::PROTOCOL;
use shared_core::time::Instant;

use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;

/// The answer.
#[derive(Debug, Serialize)]
pub(crate) struct Health {
    /// The sync protocol that is spoken.
    protocol: u32,
    /// The hub's release.
    version: &'static str,
    /// The hub's clock.
    hub_now: Instant,
}

/// Asks the database for a line.
pub(crate) async fn health(State(hub): State<Arc<Hub>>) -> Result<Json<Health>, Problem> {
    hub.store.ping().await?;
    Ok(Json(Health { protocol: PROTOCOL, version: env!("CARGO_PKG_VERSION"), hub_now: clock::now() }))
}
