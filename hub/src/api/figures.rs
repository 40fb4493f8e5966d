//! `GET /api/figures`: what the shop's months were like, to a steward's phone: it holds a day of others' log, the hub all.
//!
//! Reckoned anew each time, because the log may have grown or been erased; seldom asked for.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::figures::AllFigures;
use shared_core::state::State as Folded;

use crate::auth::Steward;
use crate::clock;
use crate::export::entries_of;
use crate::hub::Hub;
use crate::problem::Problem;

/// This month's, last month's, and those of all that is kept.
pub(crate) async fn figures(State(hub): State<Arc<Hub>>, _caller: Steward) -> Result<Json<AllFigures>, Problem> {
    let (lines, shop, now) = (hub.store.handed_out().await?, hub.shop.get(), clock::now());
    let told = tokio::task::spawn_blocking(move || {
        let state = Folded::of(&entries_of(&lines));
        AllFigures::of(&shop.rulebook, &state, &shop.utc_offsets, now)
    });
    told.await.map(Json).map_err(|error| Problem::Fault(error.to_string()))
}
