//! The app's files: compressed copies, cache headers, screens' addresses, and the policy on everything.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::GzEncoder;

use crate::support::{Hub, Phone, Place};

const FOR_EVER: &str = "public, max-age=31536000, immutable";

fn place() -> Place {
    let place = Place::new();
    place.write("dist/app-0123456789abcdef.js", "plain");
    place.write("dist/app-0123456789abcdef.js.br", "brotli");
    let mut gzip = GzEncoder::new(Vec::new(), Compression::fast());
    gzip.write_all(b"gzip").expect("into memory");
    std::fs::write(place.path("dist/app-0123456789abcdef.js.gz"), gzip.finish().expect("into memory"))
        .expect("written");
    place.write("dist/app-0123456789abcdef.wasm", "wasm");
    place.write("dist/sw.js", "worker");
    place.write("dist/manifest.webmanifest", "{}");
    place.write("secret.txt", "not for anybody");
    place
}

#[test]
fn files_and_screens_are_answered_with_the_right_headers() {
    let place = place();
    let hub = place.hub();
    let page = "<!doctype html><title>app</title>";
    for (path, text, cached) in [
        ("/", page, "no-cache"),
        ("/index.html", page, "no-cache"),
        ("/d/north", page, "no-cache"),
        ("/d/north%20end", page, "no-cache"),
        ("/d/no.1", page, "no-cache"),
        ("/m/n0", page, "no-cache"),
        ("/join", page, "no-cache"),
        ("/bench", page, "no-cache"),
        ("/sw.js", "worker", "no-cache"),
        ("/manifest.webmanifest", "{}", "no-cache"),
        ("/app-0123456789abcdef.js", "plain", FOR_EVER),
        ("/app-0123456789abcdef.wasm", "wasm", FOR_EVER),
    ] {
        let reply = hub.get(path);
        assert_eq!((reply.status, reply.text.as_str()), (200, text), "{path}");
        assert_eq!(reply.header("cache-control"), cached, "{path}");
        assert_hardened(&reply, path);
    }
    for path in ["/app-ffffffffffffffff.js", "/missing.css", "/../secret.txt", "/%2e%2e/secret.txt"] {
        let reply = hub.get(path);
        assert_eq!((reply.status, reply.problem().as_str()), (404, "not-found"), "{path}");
        assert_hardened(&reply, path);
    }
    assert_eq!(hub.get("/app-0123456789abcdef.wasm").header("content-type"), "application/wasm");
    for path in ["/api/health", "/api/d/north"] {
        let reply = hub.get(path);
        let policy = "default-src 'none'; frame-ancestors 'none'";
        for (name, value) in [
            ("content-security-policy", policy),
            ("cache-control", "no-store"),
            ("x-content-type-options", "nosniff"),
            ("cross-origin-resource-policy", "same-origin"),
        ] {
            assert_eq!(reply.header(name), value, "{path}: {name}");
        }
    }
}

#[test]
fn the_smallest_copy_that_the_browser_takes_is_sent() {
    let place = place();
    let hub = place.hub();
    for (accepted, encoding, text) in
        [("br, gzip", "br", "brotli"), ("gzip", "gzip", "gzip"), ("identity", "", "plain"), ("zstd", "", "plain")]
    {
        let reply = hub.ask("GET", "/app-0123456789abcdef.js", &[("accept-encoding", accepted)], "");
        assert_eq!((reply.header("content-encoding"), reply.text.as_str()), (encoding, text), "{accepted}");
        assert!(reply.header("vary").to_lowercase().contains("accept-encoding"), "{accepted}: {reply:?}");
        assert!(reply.header("content-type").contains("javascript"), "{accepted}: {reply:?}");
    }
}

#[test]
fn a_hub_without_an_app_says_how_to_get_one() {
    let place = Place::new();
    std::fs::remove_file(place.path("dist/index.html")).expect("removed");
    let hub = place.hub();
    let reply = hub.get("/");
    assert_eq!(reply.status, 404);
    assert!(reply.text.contains("cargo xtask serve"), "{reply:?}");
}

#[test]
fn no_secret_is_logged() {
    let place = Place::new();
    let hub: Hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let note = "a note that nobody else reads";
    let line =
        phone.says(shared_core::entry::Fact::Incident { note: note.into(), told: shared_core::entry::Told::default() });
    phone.sync(&hub, &[line], 0);
    hub.get("/d/north?j=TEST-2345");
    let logged = hub.logged();
    assert!(logged.contains("/api/sync"), "requests are logged: {logged}");
    let token = phone.cookie.split_once('=').expect("a cookie").1;
    for secret in ["TEST-2345", "TEST2345", "test-2345", note, token] {
        assert!(!logged.contains(secret), "{secret} in {logged}");
    }
    let database = std::fs::read(place.path("data/hub.sqlite-wal")).expect("the journal");
    assert!(!database.windows(token.len()).any(|bytes| bytes == token.as_bytes()), "the token itself is not stored");
}

fn assert_hardened(reply: &crate::support::Reply, path: &str) {
    let policy = reply.header("content-security-policy");
    for part in [
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "media-src 'self' blob:",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    ] {
        assert!(policy.split("; ").any(|one| one == part), "{path}: {part} in {policy}");
    }
    assert_eq!(reply.header("x-content-type-options"), "nosniff", "{path}");
    assert_eq!(reply.header("referrer-policy"), "no-referrer", "{path}");
    assert!(reply.header("permissions-policy").contains("camera=(self)"), "{path}");
}
