//! All routes on one screen, grouped by who may call them, and the layers that every request passes.

use std::sync::Arc;
use std::time::{Duration, Instant};

use axum::Router;
use axum::body::to_bytes;
use axum::extract::{Request, State};
use axum::middleware::{Next, from_fn, from_fn_with_state};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use tower_http::CompressionLevel;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::SizeAbove;
use tower_http::decompression::RequestDecompressionLayer;

use crate::api::{self, BODY_BYTES_MAX, Client};
use crate::hub::Hub;
use crate::problem::Problem;
use crate::{files, headers};

/// How long a request may take to arrive and be answered. Live streams answer at once and then go on.
const ANSWER_WITHIN: Duration = Duration::from_secs(30);

/// A body up to this size costs nothing to read, whoever sends it.
const SMALL_BODY_BYTES: u64 = 16 * 1024;

/// Everything the hub answers.
pub(crate) fn router(hub: Arc<Hub>) -> Router {
    // Anybody, counted by address.
    let open = Router::new()
        .route("/health", get(api::health::health))
        .route("/openapi.json", get(api::description::description))
        .route("/join/check", post(api::join_check::join_check))
        .route("/join", post(api::join::join))
        .route("/session/challenge", post(api::challenge::challenge))
        .route("/session", post(api::session::session))
        .route("/late", post(api::late::late))
        .route_layer(from_fn_with_state(Arc::clone(&hub), count_address));
    // Joined devices, counted by device: each handler takes a `SignedIn`.
    let joined = Router::new()
        .route("/shop", get(api::shop::shop))
        .route("/sync", post(api::sync::sync))
        .route("/carry", post(api::carry::carry))
        .route("/pin", post(api::pin::set))
        .route("/picture/{sha}", get(api::picture::get).put(api::picture::put))
        .route("/push", get(api::push::state).post(api::push::set))
        .route("/rules", get(api::rules::held).post(api::rules::publish))
        .route("/rules/check", post(api::rules::check))
        .route("/push/try", post(api::push_try::answer))
        .route("/live", get(api::live::live))
        .route("/mine", get(api::mine::mine))
        .route("/erase", post(api::mine::erase_asked))
        .route("/devices", get(api::devices::list))
        .route("/devices/revoke", post(api::devices::revoke));
    // Stewards' devices: each handler takes a `Steward`.
    let stewards = Router::new()
        .route("/boards", post(api::boards::hang))
        .merge(Router::new().route("/export/{file}", get(api::export::export)).layer(squeezed()))
        .route("/mine/{member}", get(api::mine::of_another))
        .route("/devices/admit", post(api::devices::admit))
        .route("/invites", get(api::invites::list).post(api::invites::make))
        .route("/invites/revoke", post(api::invites::revoke));
    let api = open.merge(joined).merge(stewards).fallback(not_found).method_not_allowed_fallback(method_not_allowed);
    Router::new()
        .nest("/api", api.layer(unsqueezed()))
        // The app's own files, to anybody.
        .fallback(files::file)
        .layer(from_fn(read_small_bodies))
        .layer(from_fn(answer_in_time))
        .layer(CatchPanicLayer::custom(|_| Problem::Fault("a handler panicked".into()).into_response()))
        .layer(from_fn(headers::harden))
        .layer(from_fn(log))
        .with_state(hub)
}

/// Of lines the quickest level leaves a third more, and twice the time of this one saves no hundredth.
const SQUEEZED: CompressionLevel = CompressionLevel::Precise(4);

/// An answer without lines fits one packet as it is; squeezing it would cost more memory and time than answering.
const SQUEEZED_FROM: u64 = 1_024;

/// Lines repeat much of each other: gzip (RFC 1952) makes a file of them a quarter. What a sync answers compresses itself
/// ([`crate::pages`]).
fn squeezed() -> CompressionLayer<SizeAbove> {
    CompressionLayer::new().quality(SQUEEZED).compress_when(SizeAbove::new(SQUEEZED_FROM))
}

/// The same for what phones send; what it is when it is whole again is bounded where it is read.
fn unsqueezed() -> RequestDecompressionLayer {
    RequestDecompressionLayer::new().pass_through_unaccepted(true)
}

async fn not_found() -> Problem {
    Problem::NotFound
}

async fn method_not_allowed() -> Problem {
    Problem::MethodNotAllowed
}

async fn count_address(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    request: Request,
    next: Next,
) -> Result<Response, Problem> {
    hub.limits.address(address)?;
    Ok(next.run(request).await)
}

/// A small body is read before anything is decided. A refusal that leaves one unread closes the connection, and a phone
/// would take that for a broken network instead of hearing the refusal.
async fn read_small_bodies(request: Request, next: Next) -> Result<Response, Problem> {
    if api::announced_bytes(request.headers()).is_none_or(|bytes| bytes > SMALL_BODY_BYTES) {
        return Ok(next.run(request).await);
    }
    let (head, body) = request.into_parts();
    let read = to_bytes(body, BODY_BYTES_MAX).await.map_err(|_| Problem::Unreadable("it was cut short".into()))?;
    Ok(next.run(Request::from_parts(head, read.into())).await)
}

async fn answer_in_time(request: Request, next: Next) -> Result<Response, Problem> {
    tokio::time::timeout(ANSWER_WITHIN, next.run(request)).await.map_err(|_| Problem::TooSlow)
}

/// One line a request: no query, no body, no header, so no secret and no member's words.
async fn log(request: Request, next: Next) -> Response {
    let (method, path, began) = (request.method().clone(), request.uri().path().to_owned(), Instant::now());
    let response = next.run(request).await;
    let (status, ms) = (response.status().as_u16(), began.elapsed().as_millis());
    if path.starts_with("/api/") {
        tracing::info!(%method, path, status, ms, "answered");
    } else {
        tracing::debug!(%method, path, status, ms, "answered");
    }
    response
}
