//! One request to a push service (RFC 8030 section 5), bounded in every way: a time limit, an answer whose head is small
//! and whose body nobody reads, no redirect, no connection kept.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::body::Bytes;
use axum::http::{Request, StatusCode, header};
use http_body_util::Full;
use hyper::client::conn::http1;
use hyper_util::rt::TokioIo;
use p256::SecretKey;
use shared_core::time::Instant;
use thiserror::Error;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::TcpStream;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, RootCertStore};

use super::message::{Subscription, read_key};
use super::seal::{self, FILLED_BYTES, Fresh};
use super::target::{Reach, Target, TargetFault};
use super::vapid::PushKey;
use crate::{clock, secret};

/// From the name to the answer's head.
const ANSWERED_WITHIN: Duration = Duration::from_secs(15);
/// One of several addresses may be out of reach.
const CONNECTED_WITHIN: Duration = Duration::from_secs(4);
const ADDRESSES_MAX: usize = 3;
const HEAD_BYTES_MAX: usize = 16 * 1024;

/// What became of a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// The push service has it. Whether the phone will, nobody says.
    Taken,
    /// The phone is no longer reached by that address (RFC 8030 section 7.3).
    Gone,
    /// It may be worth another try.
    Later,
    /// It will not be taken.
    Refused,
}

/// Why nothing was sent.
#[derive(Debug, Error)]
enum PostFault {
    #[error(transparent)]
    Target(#[from] TargetFault),
    #[error("the phone's key is none, or the message is too long")]
    Unsealable,
    #[error("no random bytes: {0}")]
    Random(#[from] getrandom::Error),
    #[error("no connection: {0}")]
    Connection(#[from] std::io::Error),
    #[error("no answer in time")]
    TooSlow,
    #[error("not HTTP: {0}")]
    Http(#[from] hyper::Error),
    #[error("not a request: {0}")]
    Request(#[from] axum::http::Error),
}

/// What sends.
pub(crate) struct Sender {
    pub(crate) key: PushKey,
    pub(crate) reach: Reach,
    tls: TlsConnector,
}

impl std::fmt::Debug for Sender {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Sender({:?}, {:?})", self.key, self.reach)
    }
}

/// A message to one phone.
pub(super) struct Message<'a> {
    /// What it says.
    pub(super) text: &'a str,
    /// What takes its place while it waits.
    pub(super) topic: &'a str,
    /// From then on it is of no use.
    pub(super) until: Instant,
}

impl Sender {
    /// With the roots that browsers trust.
    pub(crate) fn new(key: PushKey, reach: Reach) -> Result<Self, tokio_rustls::rustls::Error> {
        let roots = RootCertStore { roots: webpki_roots::TLS_SERVER_ROOTS.to_vec() };
        let mut config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()?
            .with_root_certificates(roots)
            .with_no_client_auth();
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        Ok(Self { key, reach, tls: TlsConnector::from(Arc::new(config)) })
    }

    /// Sends it. The address and what was answered are not logged beyond the push service's name and the status.
    pub(super) async fn post(&self, to: &Subscription, message: &Message<'_>) -> Outcome {
        let target = Target::read(&to.endpoint, self.reach);
        let host = target.as_ref().map(|target| target.host.clone()).unwrap_or_default();
        let posted = async { self.try_post(&target?, to, message).await };
        let posted = tokio::time::timeout(ANSWERED_WITHIN, posted).await.unwrap_or(Err(PostFault::TooSlow));
        match posted {
            Ok(status) => {
                let outcome = meaning(status);
                if outcome != Outcome::Taken {
                    tracing::warn!(%host, %status, "a push service did not take a message");
                }
                outcome
            }
            Err(error) => {
                tracing::warn!(%host, %error, "a push service was not reached");
                match error {
                    PostFault::Target(TargetFault::Address | TargetFault::Inside)
                    | PostFault::Unsealable
                    | PostFault::Request(_) => Outcome::Refused,
                    _ => Outcome::Later,
                }
            }
        }
    }

    async fn try_post(
        &self,
        target: &Target,
        to: &Subscription,
        message: &Message<'_>,
    ) -> Result<StatusCode, PostFault> {
        let body = sealed(message.text, to)?;
        let now = clock::now();
        let ttl_s = ((message.until - now).ms() / 1000).max(0);
        let request = Request::post(&target.path)
            .header(header::HOST, target.origin.rsplit('/').next().unwrap_or_default())
            .header(header::AUTHORIZATION, self.key.authorization(&target.origin, now))
            .header(header::CONTENT_TYPE, "application/octet-stream")
            .header(header::CONTENT_ENCODING, "aes128gcm")
            .header("ttl", ttl_s)
            .header("urgency", "high")
            .header("topic", message.topic)
            .body(Full::new(Bytes::from(body)))?;
        let stream = connect(&target.resolve(self.reach).await?).await?;
        match self.reach {
            Reach::Loopback => ask(stream, request).await,
            Reach::Public => {
                let name = ServerName::try_from(target.host.clone()).map_err(|_| TargetFault::Address)?;
                ask(self.tls.connect(name, stream).await?, request).await
            }
        }
    }
}

fn sealed(text: &str, to: &Subscription) -> Result<Vec<u8>, PostFault> {
    let (phone, auth) = read_key(&to.p256dh, &to.auth).ok_or(PostFault::Unsealable)?;
    // Bytes that are no key are one in 2^32.
    let key = SecretKey::from_slice(&secret::random::<32>()?).map_err(|_| PostFault::Unsealable)?;
    let fresh = Fresh { key, salt: secret::random()? };
    seal::seal(text.as_bytes(), FILLED_BYTES, &phone, &auth, &fresh).ok_or(PostFault::Unsealable)
}

async fn connect(addresses: &[SocketAddr]) -> std::io::Result<TcpStream> {
    let mut fault = std::io::Error::from(std::io::ErrorKind::TimedOut);
    for address in addresses.iter().take(ADDRESSES_MAX) {
        match tokio::time::timeout(CONNECTED_WITHIN, TcpStream::connect(address)).await {
            Ok(Ok(stream)) => return Ok(stream),
            Ok(Err(error)) => fault = error,
            Err(_) => {}
        }
    }
    Err(fault)
}

async fn ask<S>(stream: S, request: Request<Full<Bytes>>) -> Result<StatusCode, PostFault>
where
    S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
{
    let http = http1::Builder::new().max_buf_size(HEAD_BYTES_MAX).handshake(TokioIo::new(stream)).await;
    let (mut sender, connection) = http?;
    let connection = tokio::spawn(connection);
    let answer = sender.send_request(request).await;
    connection.abort();
    Ok(answer?.status())
}

/// RFC 8030 sections 5, 7.3 and 8.4, and what `Retry-After` is for.
fn meaning(status: StatusCode) -> Outcome {
    match status.as_u16() {
        200..300 => Outcome::Taken,
        404 | 410 => Outcome::Gone,
        408 | 429 | 500.. => Outcome::Later,
        _ => Outcome::Refused,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_means_one_of_four_things() {
        for (status, outcome) in [
            (201, Outcome::Taken),
            (202, Outcome::Taken),
            (307, Outcome::Refused),
            (400, Outcome::Refused),
            (403, Outcome::Refused),
            (404, Outcome::Gone),
            (410, Outcome::Gone),
            (413, Outcome::Refused),
            (429, Outcome::Later),
            (503, Outcome::Later),
        ] {
            assert_eq!(meaning(StatusCode::from_u16(status).expect("a status")), outcome, "{status}");
        }
    }
}
