//! The headers that every answer carries: what the browser may load, and what it must not guess or tell.
//!
//! The app is one origin with no third party, so the policy names `'self'` and nothing else; WebAssembly needs the
//! one exception that exists for it.

use axum::extract::Request;
use axum::http::{HeaderName, HeaderValue, header};
use axum::middleware::Next;
use axum::response::Response;

/// Content Security Policy Level 3.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
     img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; \
     media-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What an endpoint answers is no page: it loads nothing and stands in none. Most answers are shorter than the rest of the
/// headers that a page needs.
const NOTHING: &str = "default-src 'none'; frame-ancestors 'none'";

/// The camera reads codes and the screen stays awake at the bench; nothing else of the phone is asked for.
const PERMISSIONS: &str = "camera=(self), screen-wake-lock=(self), microphone=(), geolocation=(), payment=(), usb=(), \
     serial=(), midi=(), browsing-topics=()";

/// Adds the headers to whatever is answered.
pub(crate) async fn harden(request: Request, next: Next) -> Response {
    let is_api = request.uri().path().starts_with("/api/");
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    if is_api {
        // What an endpoint does not let be kept, nobody keeps.
        headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    }
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, if is_api { NOTHING } else { POLICY }),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if !is_api {
        for (name, value) in [
            (header::REFERRER_POLICY, "no-referrer"),
            (HeaderName::from_static("permissions-policy"), PERMISSIONS),
            (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        ] {
            headers.insert(name, HeaderValue::from_static(value));
        }
    }
    response
}
