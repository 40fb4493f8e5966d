//! HTTP as cheaply as a phone's browser could speak it: one connection that is kept, requests written by hand.
//!
//! The load shares the machine with the hub, and a client that costs as much as the hub would be what is measured.

use std::io::{Error, ErrorKind, Read as _, Result};
use std::net::SocketAddr;

use flate2::read::GzDecoder;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpStream;

/// An open connection.
pub(crate) struct Wire {
    stream: TcpStream,
    buffer: Vec<u8>,
}

/// What was answered.
pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) body: Vec<u8>,
}

/// The lines above a body.
struct Top {
    status: u16,
    /// Bytes of it, the empty line included.
    bytes: usize,
    body_bytes: Option<usize>,
    gzip: bool,
}

/// A sync's question, with the cookie of its phone.
pub(crate) fn post(path: &str, token: &str, body: &str) -> Vec<u8> {
    let length = body.len();
    let top = format!(
        "POST {path} HTTP/1.1\r\nHost: hub\r\nCookie: sweepbell={token}\r\nContent-Type: application/json\r\n\
         Accept-Encoding: gzip\r\nContent-Length: {length}\r\n\r\n"
    );
    (top + body).into_bytes()
}

/// The same without a body.
pub(crate) fn get(path: &str, token: &str) -> Vec<u8> {
    format!("GET {path} HTTP/1.1\r\nHost: hub\r\nCookie: sweepbell={token}\r\n\r\n").into_bytes()
}

impl Wire {
    /// Connects.
    pub(crate) async fn open(to: SocketAddr) -> Result<Self> {
        let stream = TcpStream::connect(to).await?;
        stream.set_nodelay(true)?;
        Ok(Self { stream, buffer: Vec::new() })
    }

    /// Asks, and waits for the whole answer, unpacked.
    pub(crate) async fn ask(&mut self, request: &[u8]) -> Result<Answer> {
        self.stream.write_all(request).await?;
        let top = self.top().await?;
        self.buffer.drain(..top.bytes);
        let packed = match top.body_bytes {
            Some(bytes) => {
                while self.buffer.len() < bytes {
                    self.more().await?;
                }
                self.buffer.drain(..bytes).collect()
            }
            None => self.chunks().await?,
        };
        // A page of many lines is not to leave its room with each of ten thousand connections.
        self.buffer.shrink_to(1024);
        let mut body = packed;
        if top.gzip {
            let mut whole = Vec::with_capacity(body.len() * 4);
            GzDecoder::new(body.as_slice()).read_to_end(&mut whole)?;
            body = whole;
        }
        Ok(Answer { status: top.status, body })
    }

    /// Asks for what goes on for ever; gives the connection once the answer has begun, and what came with it.
    pub(crate) async fn stream(mut self, request: &[u8]) -> Result<(TcpStream, Vec<u8>)> {
        self.stream.write_all(request).await?;
        let top = self.top().await?;
        if top.status != 200 {
            return Err(Error::other(format!("no stream: {}", top.status)));
        }
        self.buffer.drain(..top.bytes);
        Ok((self.stream, self.buffer))
    }

    async fn more(&mut self) -> Result<()> {
        self.buffer.reserve(4096);
        if self.stream.read_buf(&mut self.buffer).await? == 0 {
            return Err(ErrorKind::UnexpectedEof.into());
        }
        Ok(())
    }

    async fn top(&mut self) -> Result<Top> {
        loop {
            if let Some(at) = find(&self.buffer, b"\r\n\r\n") {
                return read_top(&self.buffer[..at + 4]);
            }
            self.more().await?;
        }
    }

    /// A body in chunks (RFC 9112 section 7.1).
    async fn chunks(&mut self) -> Result<Vec<u8>> {
        let mut body = Vec::new();
        loop {
            let Some(end) = find(&self.buffer, b"\r\n") else {
                self.more().await?;
                continue;
            };
            let digits = std::str::from_utf8(&self.buffer[..end]).map_err(Error::other)?;
            let bytes = usize::from_str_radix(digits, 16).map_err(Error::other)?;
            while self.buffer.len() < end + 2 + bytes + 2 {
                self.more().await?;
            }
            body.extend_from_slice(&self.buffer[end + 2..end + 2 + bytes]);
            self.buffer.drain(..end + 2 + bytes + 2);
            if bytes == 0 {
                return Ok(body);
            }
        }
    }
}

fn read_top(bytes: &[u8]) -> Result<Top> {
    let text = std::str::from_utf8(bytes).map_err(Error::other)?.to_ascii_lowercase();
    let status = text.split(' ').nth(1).and_then(|status| status.parse().ok());
    let named = |name: &str| text.lines().find_map(|line| line.strip_prefix(name)).map(str::trim);
    let status = status.ok_or_else(|| Error::other("no status"))?;
    let announced = named("content-length:").and_then(|bytes| bytes.parse().ok());
    let none = (status == 204).then_some(0);
    let gzip = named("content-encoding:") == Some("gzip");
    Ok(Top { status, bytes: bytes.len(), body_bytes: announced.or(none), gzip })
}

fn find(within: &[u8], what: &[u8]) -> Option<usize> {
    within.windows(what.len()).position(|some| some == what)
}
