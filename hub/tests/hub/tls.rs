//! The hub by HTTPS, with a certificate of one's own.

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::sync::Arc;
use std::time::Duration;

use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, ClientConnection, RootCertStore, StreamOwned};

use crate::support::{Hub, Phone, Place};

#[test]
fn phones_are_served_over_tls_and_one_that_stalls_keeps_nobody_out() {
    let place = Place::new();
    let certified = rcgen::generate_simple_self_signed(vec!["shop.example".into()]).expect("a certificate");
    place.write("cert.pem", &certified.cert.pem());
    place.write("key.pem", &certified.signing_key.serialize_pem());
    let (cert, key) = (place.path("cert.pem"), place.path("key.pem"));
    let hub = place.hub_with(&["--tls-cert", &cert.display().to_string(), "--tls-key", &key.display().to_string()]);
    assert!(hub.url.starts_with("https://127.0.0.1:"), "{}", hub.url);

    let _stalled: Vec<_> = (0..3).map(|_| connect(&hub)).collect();
    let mut trusted = RootCertStore::empty();
    trusted.add(certified.cert.der().clone()).expect("a root");
    let health =
        over_tls(&hub, &trusted, "GET /api/health HTTP/1.1\r\nHost: shop.example\r\nConnection: close\r\n\r\n");
    assert!(health.starts_with("HTTP/1.1 200 ") && health.contains("\"protocol\":1"), "{health}");

    let (phone, code) = (Phone::new(1, "ada"), hub.invite("ada"));
    let signature = phone.signature(&shared_core::sync::shop::join_bytes(&code, &phone.member));
    let body =
        serde_json::json!({ "code": code, "member": "ada", "dev": phone.dev, "signature": signature }).to_string();
    let joined = over_tls(
        &hub,
        &trusted,
        &format!(
            "POST /api/join HTTP/1.1\r\nHost: shop.example\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        ),
    );
    assert!(joined.starts_with("HTTP/1.1 204 ") && joined.contains("; Secure"), "{joined}");
}

#[test]
fn a_renewed_certificate_comes_into_use_without_a_restart() {
    let place = Place::new();
    let renew = || {
        let certified = rcgen::generate_simple_self_signed(vec!["shop.example".into()]).expect("a certificate");
        place.write("cert.pem", &certified.cert.pem());
        place.write("key.pem", &certified.signing_key.serialize_pem());
        let mut trusted = RootCertStore::empty();
        trusted.add(certified.cert.der().clone()).expect("a root");
        trusted
    };
    let first = renew();
    let (cert, key) = (place.path("cert.pem"), place.path("key.pem"));
    let hub = place.hub_with(&["--tls-cert", &cert.display().to_string(), "--tls-key", &key.display().to_string()]);
    let health = "GET /api/health HTTP/1.1\r\nHost: shop.example\r\nConnection: close\r\n\r\n";
    assert!(over_tls(&hub, &first, health).starts_with("HTTP/1.1 200 "));

    place.write("cert.pem", "half a file");
    crate::rules::until(|| hub.logged().contains("refused"));
    assert!(over_tls(&hub, &first, health).starts_with("HTTP/1.1 200 "), "the old one stays in use");

    let second = renew();
    crate::rules::until(|| hub.logged().contains("was renewed"));
    assert!(over_tls(&hub, &second, health).starts_with("HTTP/1.1 200 "));
}

#[test]
fn a_key_that_does_not_fit_is_told_at_the_start() {
    let place = Place::new();
    place.write("cert.pem", "not a certificate");
    let cert = place.path("cert.pem");
    let output = place.command().arg("--tls-cert").arg(&cert).arg("--tls-key").arg(&cert).output().expect("it runs");
    assert_eq!(output.status.code(), Some(1));
    assert!(!output.stderr.is_empty() && output.stdout.is_empty());
}

fn connect(hub: &Hub) -> TcpStream {
    let stream = TcpStream::connect(hub.url.trim_start_matches("https://")).expect("connected");
    stream.set_read_timeout(Some(Duration::from_secs(5))).expect("a timeout");
    stream
}

fn over_tls(hub: &Hub, trusted: &RootCertStore, request: &str) -> String {
    let config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .expect("versions")
        .with_root_certificates(trusted.clone())
        .with_no_client_auth();
    let name = ServerName::try_from("shop.example").expect("a name");
    let client = ClientConnection::new(Arc::new(config), name).expect("a client");
    let mut stream = StreamOwned::new(client, connect(hub));
    stream.write_all(request.as_bytes()).expect("sent");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    answer
}
