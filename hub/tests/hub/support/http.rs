//! HTTP as a phone speaks it: a request, its reply, a live stream.

use std::io::{BufRead as _, BufReader, Read as _};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use flate2::read::GzDecoder;
use serde_json::Value;
use shared_core::sync::shop::Problem;
use ureq::http::{Request, Response};
use ureq::typestate::WithBody;
use ureq::{Agent, RequestBuilder};

use super::Hub;

/// What a hub answered.
#[derive(Debug)]
pub(crate) struct Reply {
    pub(crate) status: u16,
    headers: ureq::http::HeaderMap,
    pub(crate) text: String,
    /// The body, whatever it is; `text` is empty where that is none.
    pub(crate) bytes: Vec<u8>,
}

impl Reply {
    fn of(mut response: Response<ureq::Body>) -> Option<Self> {
        let (status, headers) = (response.status().as_u16(), response.headers().clone());
        let bytes = response.body_mut().read_to_vec().ok()?;
        let mut text = String::new();
        // By its first bytes (RFC 1952 section 2.3.1): what tests serve as a file's compressed copy is plain text.
        match bytes.as_slice() {
            [0x1f, 0x8b, ..] => GzDecoder::new(bytes.as_slice()).read_to_string(&mut text).map(drop).ok()?,
            _ => text = String::from_utf8(bytes.clone()).unwrap_or_default(),
        }
        Some(Self { status, headers, text, bytes })
    }

    /// A header's value; "" if there is none.
    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or_default()
    }

    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }

    /// The stable name of the problem that this is; every refusal must be one.
    pub(crate) fn problem(&self) -> String {
        assert_eq!(self.header("content-type"), "application/problem+json", "{self:?}");
        let problem: Problem = serde_json::from_str(&self.text).expect("RFC 9457");
        assert_eq!(problem.status, self.status);
        assert!(!problem.title.is_empty() && !problem.detail.is_empty(), "{problem:?}");
        problem.kind.rsplit('/').next().unwrap_or_default().to_owned()
    }
}

/// A client that keeps its connection, as a browser does.
pub(crate) fn agent() -> Agent {
    Agent::config_builder().http_status_as_error(false).timeout_connect(Some(Duration::from_secs(5))).build().into()
}

impl Hub {
    /// Any request at all.
    pub(crate) fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Reply {
        self.ask_by(&agent(), method, path, headers, body)
    }

    /// The same, over a client's own connection.
    pub(crate) fn ask_by(
        &self,
        agent: &Agent,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &str,
    ) -> Reply {
        self.try_ask(agent, method, path, headers, body).expect("an answer")
    }

    /// The same; nothing if the hub goes away meanwhile.
    pub(crate) fn try_ask(
        &self,
        agent: &Agent,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &str,
    ) -> Option<Reply> {
        let mut request = Request::builder().method(method).uri(format!("{}{path}", self.url));
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let request = request.body(body.to_owned()).expect("a request");
        Reply::of(agent.run(request).ok()?)
    }

    /// A body of any bytes.
    pub(crate) fn send(&self, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        Self::sent(agent().post(format!("{}{path}", self.url)), headers, body)
    }

    /// The same, to be kept at that address.
    pub(crate) fn put(&self, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        Self::sent(agent().put(format!("{}{path}", self.url)), headers, body)
    }

    fn sent(mut request: RequestBuilder<WithBody>, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        Reply::of(request.send(body).expect("an answer")).expect("a whole answer")
    }

    pub(crate) fn get(&self, path: &str) -> Reply {
        self.ask("GET", path, &[], "")
    }

    /// JSON, without a session.
    pub(crate) fn post(&self, path: &str, body: &Value) -> Reply {
        self.ask("POST", path, &[("content-type", "application/json")], &body.to_string())
    }
}

/// A live stream that is being read.
pub(crate) struct Stream {
    lines: Receiver<String>,
}

impl Stream {
    pub(crate) fn open(hub: &Hub, cookie: &str) -> Self {
        let request = agent().get(format!("{}/api/live", hub.url)).header("cookie", cookie);
        let response = request.call().expect("an answer");
        assert_eq!(response.status().as_u16(), 200);
        let kind = response.headers().get("content-type").and_then(|kind| kind.to_str().ok());
        assert_eq!(kind, Some("text/event-stream"));
        let (sender, lines) = channel();
        std::thread::spawn(move || {
            let mut lines = BufReader::new(response.into_body().into_reader()).lines();
            while let Some(Ok(line)) = lines.next() {
                if sender.send(line).is_err() {
                    return;
                }
            }
        });
        Self { lines }
    }

    /// The next event: its name and its data. `None` when the stream ended.
    pub(crate) fn next(&self) -> Option<(String, Value)> {
        let mut name = String::new();
        loop {
            let line = match self.lines.recv_timeout(Duration::from_secs(10)) {
                Ok(line) => line,
                Err(std::sync::mpsc::RecvTimeoutError::Disconnected) => return None,
                Err(std::sync::mpsc::RecvTimeoutError::Timeout) => panic!("no event within 10 s"),
            };
            if let Some(event) = line.strip_prefix("event: ") {
                event.clone_into(&mut name);
            } else if let Some(data) = line.strip_prefix("data: ") {
                return Some((name, serde_json::from_str(data).expect("JSON")));
            }
        }
    }
}
