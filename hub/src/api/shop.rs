//! `GET /api/shop`: everything a phone must know of the shop to work without a network, and may see, with an ETag.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};

use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::SignedIn;

/// The bundle, or 304 when the phone has it.
pub(crate) async fn shop(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    headers: HeaderMap,
) -> Result<Response, Problem> {
    let current = hub.shop.get();
    let tag = format!("\"{}\"", current.rev);
    let etag = HeaderValue::from_str(&tag).map_err(|error| Problem::Fault(error.to_string()))?;
    let fresh: [(HeaderName, HeaderValue); 2] =
        [(header::ETAG, etag), (header::CACHE_CONTROL, HeaderValue::from_static("private, no-cache"))];
    if has(&headers, &tag) {
        return Ok((StatusCode::NOT_MODIFIED, fresh).into_response());
    }
    let used = hub.store.last_used(&caller.member).await?;
    Ok((fresh, Json(current.for_phone(&caller, &used, clock::now()))).into_response())
}

/// Whether `If-None-Match` names this tag (RFC 9110 section 13.1.2, weak comparison).
fn has(headers: &HeaderMap, tag: &str) -> bool {
    let lines = headers.get_all(header::IF_NONE_MATCH).into_iter().filter_map(|line| line.to_str().ok());
    lines.flat_map(|line| line.split(',')).map(str::trim).any(|one| one == "*" || one.trim_start_matches("W/") == tag)
}
