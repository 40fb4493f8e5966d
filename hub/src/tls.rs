//! TLS by rustls: certificate and key, and a listener that hands out streams whose handshake is done.
//!
//! Renewed files come into use without a restart. Handshakes run beside each other and are bounded in number and time, so that a client that never finishes one
//! keeps nobody else out.

use std::io;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::{Arc, PoisonError, RwLock};
use std::time::Duration;

use axum::serve::Listener;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, mpsc};
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::ServerConfig;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::pem::PemObject as _;
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer, pem};
use tokio_rustls::rustls::server::{ClientHello, ResolvesServerCert};
use tokio_rustls::rustls::sign::CertifiedKey;
use tokio_rustls::server::TlsStream;

use thiserror::Error;

use crate::config::TlsFiles;
use crate::shop::{WATCH_EVERY, stamps};

const HANDSHAKE_WITHIN: Duration = Duration::from_secs(10);
const HANDSHAKES_MAX: usize = 256;

/// Why TLS cannot be had.
#[derive(Debug, Error)]
pub(crate) enum TlsError {
    /// Certificate or key cannot be read.
    #[error("{file}: {cause}")]
    Pem {
        /// Which file.
        file: String,
        /// Why.
        cause: pem::Error,
    },
    /// They do not fit each other, or rustls wants none of them.
    #[error("certificate and key cannot be used: {0}")]
    Rejected(#[from] tokio_rustls::rustls::Error),
}

/// Reads certificate chain and key. Gives what accepts, and what must be told to look at the files again.
pub(crate) fn acceptor(files: &TlsFiles) -> Result<(TlsAcceptor, Arc<Certificate>), TlsError> {
    let certificate = Arc::new(Certificate { files: files.clone(), current: RwLock::new(Arc::new(certified(files)?)) });
    let resolver: Arc<dyn ResolvesServerCert> = certificate.clone();
    let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()?
        .with_no_client_auth()
        .with_cert_resolver(resolver);
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok((TlsAcceptor::from(Arc::new(config)), certificate))
}

fn certified(files: &TlsFiles) -> Result<CertifiedKey, TlsError> {
    let fault = |file: &Path| {
        let file = file.display().to_string();
        move |cause| TlsError::Pem { file: file.clone(), cause }
    };
    let chain: Result<Vec<_>, _> = CertificateDer::pem_file_iter(&files.cert).and_then(Iterator::collect);
    let chain = chain.map_err(fault(&files.cert))?;
    let key = PrivateKeyDer::from_pem_file(&files.key).map_err(fault(&files.key))?;
    Ok(CertifiedKey::from_der(chain, key, &ring::default_provider())?)
}

/// The certificate in use. Certificates are renewed every few weeks, and nobody restarts a shop's hub for that.
#[derive(Debug)]
pub(crate) struct Certificate {
    files: TlsFiles,
    current: RwLock<Arc<CertifiedKey>>,
}

impl Certificate {
    /// Looks at the files again and again. New ones that fit each other come into use for new connections.
    pub(crate) async fn watch(self: Arc<Self>) {
        let files = [self.files.cert.clone(), self.files.key.clone()];
        let mut seen = stamps(&files);
        loop {
            tokio::time::sleep(WATCH_EVERY).await;
            let stamps = stamps(&files);
            if stamps == seen {
                continue;
            }
            seen = stamps;
            match certified(&self.files) {
                Ok(renewed) => {
                    *self.current.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(renewed);
                    tracing::info!("the certificate was renewed");
                }
                Err(error) => tracing::error!(%error, "the renewed certificate is refused; the old one stays in use"),
            }
        }
    }
}

impl ResolvesServerCert for Certificate {
    fn resolve(&self, _hello: ClientHello<'_>) -> Option<Arc<CertifiedKey>> {
        Some(Arc::clone(&self.current.read().unwrap_or_else(PoisonError::into_inner)))
    }
}

/// Accepts TCP and hands out streams whose handshake is done.
#[derive(Debug)]
pub(crate) struct TlsListener {
    ready: mpsc::Receiver<(TlsStream<TcpStream>, SocketAddr)>,
    local: SocketAddr,
}

impl TlsListener {
    /// Takes over a TCP listener.
    pub(crate) fn new(tcp: TcpListener, acceptor: TlsAcceptor) -> io::Result<Self> {
        let local = tcp.local_addr()?;
        let (done, ready) = mpsc::channel(64);
        tokio::spawn(accept(tcp, acceptor, done));
        Ok(Self { ready, local })
    }
}

impl Listener for TlsListener {
    type Io = TlsStream<TcpStream>;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Self::Io, Self::Addr) {
        match self.ready.recv().await {
            Some(stream) => stream,
            // The accepting task ends only with this value; until the server notices, there is nobody to accept.
            None => std::future::pending().await,
        }
    }

    fn local_addr(&self) -> io::Result<Self::Addr> {
        Ok(self.local)
    }
}

async fn accept(mut tcp: TcpListener, acceptor: TlsAcceptor, done: mpsc::Sender<(TlsStream<TcpStream>, SocketAddr)>) {
    let slots = Arc::new(Semaphore::new(HANDSHAKES_MAX));
    while let Ok(slot) = Arc::clone(&slots).acquire_owned().await {
        // axum's own way of accepting waits and goes on when the system is out of sockets.
        let (stream, peer) = tokio::select! {
            accepted = Listener::accept(&mut tcp) => accepted,
            () = done.closed() => return,
        };
        let (acceptor, done) = (acceptor.clone(), done.clone());
        tokio::spawn(async move {
            let _slot = slot;
            match tokio::time::timeout(HANDSHAKE_WITHIN, acceptor.accept(stream)).await {
                Ok(Ok(stream)) => drop(done.send((stream, peer)).await),
                Ok(Err(error)) => tracing::debug!(%error, "a TLS handshake failed"),
                Err(_) => tracing::debug!("a TLS handshake took too long"),
            }
        });
    }
}
