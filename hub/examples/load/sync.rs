//! One sync of one phone, as often as it is told to.

use std::io;
use std::net::SocketAddr;
use std::sync::atomic::{AtomicU64, Ordering};

use anyhow::{Context, Result, ensure};
use serde::Deserialize;
use serde::de::IgnoredAny;
use shared_core::log::chain::Head;
use shared_core::sync::message::{PROTOCOL, SyncRequest};

use crate::http::{Answer, Wire, post};
use crate::phone::Phone;

/// What is looked at of an answer: reading all of it would cost more than the asking.
#[derive(Deserialize)]
struct Answered {
    head: Head,
    rejected: Vec<IgnoredAny>,
    pull: Vec<IgnoredAny>,
    cursor: u64,
    forgot: u64,
    more: bool,
}

/// What a sync moved.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Moved {
    pub(crate) lines_in: u64,
    pub(crate) lines_out: u64,
    /// Whether the hub has more for this phone.
    pub(crate) more: bool,
}

/// From where phones ask.
pub(crate) enum From<'a> {
    /// Each from where it is: it is handed everything that others said since its last sync.
    Own,
    /// From the newest place that any of them has heard of, as if others' lines had been heard already.
    Newest(&'a AtomicU64),
}

impl Phone {
    /// Hands over the push whose turn it is, if there is one, and reads on.
    pub(crate) async fn sync(&mut self, hub: SocketAddr, from: &From<'_>) -> Result<Moved> {
        if let From::Newest(newest) = from {
            self.since = self.since.max(newest.load(Ordering::Relaxed));
        }
        let push = self.signed.pop_front().unwrap_or_default();
        let (lines_in, is_push) = (u64::try_from(push.len())?, !push.is_empty());
        let ask = SyncRequest {
            protocol: PROTOCOL,
            push,
            lost: Vec::new(),
            since: self.since,
            forgot: self.forgot,
            heard_to: 0,
            apart: true,
        };
        let body = serde_json::to_string(&ask)?;
        let Answer { status, body } = self.ask(hub, &post("/api/sync", &self.token, &body)).await?;
        ensure!(status == 200, "{status}: {}", String::from_utf8_lossy(&body));
        let answered: Answered = serde_json::from_slice(&body).context("no answer")?;
        ensure!(answered.rejected.is_empty(), "something is rejected");
        (self.since, self.forgot) = (answered.cursor, answered.forgot);
        if is_push {
            // More may be signed already: it goes on behind this push.
            ensure!(answered.head.seq + self.unsent() == self.head.seq, "{:?} of {:?}", answered.head, self.head);
        } else if self.signed.is_empty() {
            self.head = answered.head;
        }
        if let From::Newest(newest) = from {
            newest.fetch_max(answered.cursor, Ordering::Relaxed);
        }
        Ok(Moved { lines_in, lines_out: u64::try_from(answered.pull.len())?, more: answered.more })
    }

    fn unsent(&self) -> u64 {
        self.signed.iter().map(|push| u64::try_from(push.len()).unwrap_or_default()).sum()
    }

    /// Asks over the connection that is there, or a new one where the hub has closed it.
    async fn ask(&mut self, hub: SocketAddr, request: &[u8]) -> io::Result<Answer> {
        if let Some(mut wire) = self.wire.take()
            && let Ok(answer) = wire.ask(request).await
        {
            self.wire = Some(wire);
            return Ok(answer);
        }
        let mut wire = Wire::open(hub).await?;
        let answer = wire.ask(request).await?;
        self.wire = Some(wire);
        Ok(answer)
    }
}
