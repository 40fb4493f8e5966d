//! The built app's files: compressed copies where there are some, kept for ever where the name says what is inside.
//!
//! Every address of a screen answers with `index.html`, since the app reads the address itself. A file that is not
//! there is a 404: an old page that asks for a script of last week must not be handed a page instead.

use std::path::Path;
use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use shared_core::code::door::is_posted;
use tower::ServiceExt as _;
use tower_http::services::{ServeDir, ServeFile};

use crate::api::Client;
use crate::hub::Hub;
use crate::problem::Problem;

/// A name with a digest in it never means anything else.
const FOR_EVER: HeaderValue = HeaderValue::from_static("public, max-age=31536000, immutable");
/// Everything else is asked for anew each time: `index.html`, the service worker, the manifest.
const ASK_AGAIN: HeaderValue = HeaderValue::from_static("no-cache");

/// Serves a file or, for an address of a screen, the app's page.
pub(crate) async fn file(
    State(hub): State<Arc<Hub>>,
    Client(address): Client,
    request: Request,
) -> Result<Response, Problem> {
    hub.limits.file(address)?;
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        return Err(Problem::MethodNotAllowed);
    }
    let path = request.uri().path().to_owned();
    if path == "/api" || path == "/api/" {
        return Err(Problem::NotFound);
    }
    let is_screen = is_screen(&path);
    let response =
        if is_screen { page(&hub.config.dist, request).await } else { named(&hub.config.dist, request).await };
    match response.status() {
        StatusCode::NOT_FOUND if is_screen || path == "/" => Ok(no_app()),
        StatusCode::NOT_FOUND => Err(Problem::NotFound),
        StatusCode::INTERNAL_SERVER_ERROR => Err(Problem::Fault(format!("{path} cannot be read"))),
        _ => Ok(with_cache_control(response, &path)),
    }
}

async fn named(dist: &Path, request: Request) -> Response {
    let files = ServeDir::new(dist).precompressed_br().precompressed_gzip();
    files.oneshot(request).await.map_or_else(|never| match never {}, axum::response::IntoResponse::into_response)
}

async fn page(dist: &Path, request: Request) -> Response {
    let page = ServeFile::new(dist.join("index.html")).precompressed_br().precompressed_gzip();
    page.oneshot(request).await.map_or_else(|never| match never {}, axum::response::IntoResponse::into_response)
}

fn with_cache_control(mut response: Response, path: &str) -> Response {
    let kept = if is_hashed(file_name(path)) { FOR_EVER } else { ASK_AGAIN };
    response.headers_mut().insert(header::CACHE_CONTROL, kept);
    response
}

/// Whether the app reads this address itself. What hangs in the shop is, whatever its ids are made of.
fn is_screen(path: &str) -> bool {
    is_posted(path) || (path != "/" && !file_name(path).contains('.'))
}

/// A hub without its app: said in words, since whoever opens the address is a person.
fn no_app() -> Response {
    let words = "The app is not built yet: `cargo xtask serve` builds it and starts the hub with it.\n";
    (StatusCode::NOT_FOUND, [(header::CACHE_CONTROL, ASK_AGAIN)], words).into_response()
}

fn file_name(path: &str) -> &str {
    path.rsplit('/').next().unwrap_or_default()
}

/// Whether a name carries a digest: a part, between dashes or dots, of 8 or more lower-case hexadecimal digits.
fn is_hashed(name: &str) -> bool {
    let is_digest = |part: &str| {
        part.len() >= 8
            && part.bytes().all(|c| matches!(c, b'0'..=b'9' | b'a'..=b'f'))
            && part.bytes().any(|c| c.is_ascii_digit())
    };
    name.split(['-', '.']).any(is_digest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_digest_in_a_name_is_seen() {
        for (name, hashed) in [
            ("app-0123456789abcdef.wasm", true),
            ("app.89abcdef.js", true),
            ("index.html", false),
            ("sw.js", false),
            ("manifest.webmanifest", false),
            ("defaced-facade.png", false),
            ("icon-512.png", false),
            ("", false),
        ] {
            assert_eq!(is_hashed(name), hashed, "{name}");
        }
    }
}
