//! Live streams that are open all at once, and when an event has reached each.

use std::net::SocketAddr;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use anyhow::{Result, ensure};
use tokio::io::AsyncReadExt as _;
use tokio::net::TcpStream;
use tokio::sync::Semaphore;

use crate::http::{Wire, get};
use crate::phone::Phone;

/// Connections that are being opened at one time: a system keeps few waiting.
const OPENING: usize = 64;
/// Longer than this nothing is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

/// When streams were told that the log has grown, and how many are open.
#[derive(Debug, Default)]
pub(crate) struct Heard {
    log: Mutex<Vec<Instant>>,
    first: Mutex<usize>,
}

impl Heard {
    /// Forgets what was heard.
    pub(crate) fn forget(&self) {
        self.log.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }

    /// When it was heard, once as many as that have heard something.
    pub(crate) async fn by(&self, streams: usize) -> Result<Vec<Instant>> {
        let began = Instant::now();
        loop {
            let heard = self.log.lock().unwrap_or_else(PoisonError::into_inner).clone();
            if heard.len() >= streams {
                return Ok(heard);
            }
            ensure!(began.elapsed() < PATIENCE, "{} of {streams} have heard it", heard.len());
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
    }

    /// How often a stream was told that the log has grown.
    pub(crate) fn count(&self) -> usize {
        self.log.lock().unwrap_or_else(PoisonError::into_inner).len()
    }

    fn take(&self, text: &[u8]) {
        for name in text.split(|byte| *byte == b'\n').filter_map(|line| line.strip_prefix(b"event: ")) {
            if name == b"log" {
                self.log.lock().unwrap_or_else(PoisonError::into_inner).push(Instant::now());
            } else {
                *self.first.lock().unwrap_or_else(PoisonError::into_inner) += 1;
            }
        }
    }
}

/// Opens a stream for each of these phones and waits until each has had its first event.
pub(crate) async fn open(hub: SocketAddr, phones: &[&Phone], heard: &Arc<Heard>) -> Result<()> {
    let slots = Arc::new(Semaphore::new(OPENING));
    let mut opening = Vec::new();
    for phone in phones {
        let (request, slots, heard) = (get("/api/live", &phone.token), Arc::clone(&slots), Arc::clone(heard));
        opening.push(tokio::spawn(async move {
            let _slot = slots.acquire().await;
            let (stream, begun) = Wire::open(hub).await?.stream(&request).await?;
            heard.take(&begun);
            tokio::spawn(listen(stream, heard));
            anyhow::Ok(())
        }));
    }
    for opened in opening {
        opened.await??;
    }
    let began = Instant::now();
    while *heard.first.lock().unwrap_or_else(PoisonError::into_inner) < phones.len() {
        ensure!(began.elapsed() < PATIENCE, "not every stream has begun");
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    Ok(())
}

/// Events are short and come whole: one that is cut in two by the network would be missed, and then not all have heard.
async fn listen(mut stream: TcpStream, heard: Arc<Heard>) {
    let mut buffer = [0; 512];
    while let Ok(read @ 1..) = stream.read(&mut buffer).await {
        heard.take(&buffer[..read]);
    }
}
