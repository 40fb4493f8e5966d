//! How a request is read: its body, bounded and typed, and the address it came from. Every failure is a problem.

use std::convert::Infallible;
use std::net::IpAddr;
use std::sync::Arc;

use axum::body::{Bytes, to_bytes};
use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::request::Parts;
use axum::http::{HeaderMap, header};
use serde::de::DeserializeOwned;

use crate::auth;
use crate::hub::Hub;
use crate::problem::Problem;

/// No body is larger. Those of sync are bounded tighter by the protocol itself.
pub(crate) const BODY_BYTES_MAX: usize = 1024 * 1024;

/// A JSON body.
pub(crate) struct Body<T>(pub(crate) T);

/// Where a request comes from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Client(pub(crate) IpAddr);

impl<T: DeserializeOwned> FromRequest<Arc<Hub>> for Body<T> {
    type Rejection = Problem;

    async fn from_request(request: Request, _hub: &Arc<Hub>) -> Result<Self, Problem> {
        let text = read_text(request, BODY_BYTES_MAX).await?;
        serde_json::from_str(&text).map(Self).map_err(|error| Problem::Unreadable(error.to_string()))
    }
}

impl<S: Sync> FromRequestParts<S> for Client {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, _state: &S) -> Result<Self, Infallible> {
        Ok(Self(auth::address(parts)))
    }
}

/// The text of a JSON body of at most `limit_bytes`.
pub(crate) async fn read_text(request: Request, limit_bytes: usize) -> Result<String, Problem> {
    let body = read_bytes(request, "application/json", limit_bytes).await?;
    String::from_utf8(body.into()).map_err(|_| Problem::Unreadable("it is not UTF-8".into()))
}

/// The bytes of a body of this kind, at most `limit_bytes`. One that announces more is refused unread.
pub(super) async fn read_bytes(request: Request, kind: &'static str, limit_bytes: usize) -> Result<Bytes, Problem> {
    if !is_of(request.headers(), kind) {
        return Err(if kind == "application/json" { Problem::NotJsonType } else { Problem::NotOfType(kind) });
    }
    // What may be compressed was made whole again before it came here.
    if request.headers().contains_key(header::CONTENT_ENCODING) {
        return Err(Problem::Unreadable("its `Content-Encoding` is not read here".into()));
    }
    if announced_bytes(request.headers()).is_some_and(|bytes| bytes > limit_bytes as u64) {
        return Err(Problem::TooLarge { limit_bytes });
    }
    to_bytes(request.into_body(), limit_bytes).await.map_err(|error| {
        let cut_short = std::error::Error::source(&error).is_some_and(|cause| !cause.to_string().contains("limit"));
        if cut_short {
            Problem::Unreadable("it was cut short, or is not gzip".into())
        } else {
            Problem::TooLarge { limit_bytes }
        }
    })
}

/// What the client says it will send.
pub(crate) fn announced_bytes(headers: &HeaderMap) -> Option<u64> {
    headers.get(header::CONTENT_LENGTH)?.to_str().ok()?.parse().ok()
}

fn is_of(headers: &HeaderMap, wanted: &str) -> bool {
    let kind = headers.get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let essence = kind.split(';').next().unwrap_or_default().trim();
    essence.eq_ignore_ascii_case(wanted)
}
