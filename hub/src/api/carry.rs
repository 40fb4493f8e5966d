//! `POST /api/carry`: hands a code to a member's phones, as if they had scanned it.
//!
//! The hub does not read the text; the phones' own signatures in it are what counts.

use std::sync::Arc;

use axum::extract::State;
use axum::http::StatusCode;
use shared_core::sync::shop::{Carried, Carry};

use super::body::Body;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{SignedIn, TEXT_MAX_BYTES};

/// Takes the code; 204.
pub(crate) async fn carry(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    Body(ask): Body<Carry>,
) -> Result<StatusCode, Problem> {
    if ask.text.len() > TEXT_MAX_BYTES {
        return Err(Problem::CodeTooLong { limit_bytes: TEXT_MAX_BYTES });
    }
    // Codes are what a QR code's alphanumeric set holds, or an address: nothing else is worth carrying.
    if !ask.text.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
        return Err(Problem::Unreadable("a code is printable ASCII".into()));
    }
    if hub.shop.get().members.get(&ask.to).is_none() {
        return Err(Problem::UnknownMember(ask.to.to_string()));
    }
    let what = Carried { from: caller.member, text: ask.text };
    let mut change = hub.store.change().await?;
    change.carry(&ask.to, what, clock::now()).await?;
    change.commit().await?;
    Ok(StatusCode::NO_CONTENT)
}
