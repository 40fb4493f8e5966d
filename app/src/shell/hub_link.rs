//! The hub, over HTTP: one request at a time limit, every fault a type; and its stream of events.
//!
//! Nothing here is waited for by a screen. Without a network each call ends in [`LinkFault::Offline`], which is
//! normal. A session that has run out is begun again once, silently, by signing the hub's challenge; a device that
//! the hub does not know gets [`LinkFault::NotJoined`].

use js_sys::Array;
use serde::{Serialize, de::DeserializeOwned};
use shared_core::base64url;
use shared_core::ids::PersonId;
use shared_core::json::from_json;
use shared_core::pin::PinSet;
use shared_core::sync::shop::{
    Carry, Challenge, ChallengeAsked, Join, JoinCheck, JoinChoices, Problem, SessionAsked, join_bytes, session_bytes,
};
use wasm_bindgen::prelude::*;

use super::keys::{KeyFault, Signer};
use crate::intent::Asked;

const LIMIT_MS: u32 = 15_000;
const GET: &str = "GET";
const POST: &str = "POST";

#[wasm_bindgen(module = "/js/hub_link.js")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn call(method: &str, path: &str, body: &str, limit_ms: u32) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(js_name = listen)]
    fn js_listen(path: &str, kinds: Vec<String>, told: &Closure<dyn FnMut(String, String)>);
}

/// Why the hub did not do it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LinkFault {
    /// No network, no hub, or no answer in time.
    #[error("the hub is out of reach")]
    Offline,
    /// The hub does not know this device.
    #[error("this phone has not joined the shop")]
    NotJoined,
    /// The device was taken off the shop's list.
    #[error("this phone was taken off")]
    Revoked,
    /// The hub's keys are not those that this phone knows.
    #[error("the hub signs with an unknown key")]
    OtherHub,
    /// Too much at once.
    #[error("the hub asks to wait {after_seconds} s")]
    TooMany {
        /// When to come back.
        after_seconds: u32,
    },
    /// It said no, and why.
    #[error("{}", .0.title)]
    Refused(Problem),
    /// It answered what this version cannot read, or asks for a newer one.
    #[error("the hub speaks a newer language than this app")]
    Newer,
    /// The device could not sign.
    #[error(transparent)]
    Key(#[from] KeyFault),
}

/// What the hub says by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HubEvent {
    /// There are new lines.
    Log,
    /// Somebody hands over a code.
    Carry(shared_core::sync::shop::Carried),
    /// The shop's bundle stands at this revision.
    Shop {
        /// For comparison alone.
        rev: String,
    },
    /// The stream is up.
    Open,
    /// Nothing has happened for a while, and the stream is whole.
    Still,
    /// The stream ended; it is begun anew after the next exchange.
    Closed,
}

/// What stands behind a join code.
pub async fn check_join(code: &str) -> Result<JoinChoices, LinkFault> {
    read(&request(POST, "/api/join/check", &written(&JoinCheck { code: code.to_owned() })).await?)
}

/// This device speaks for `member` from now on.
pub async fn join(code: &str, member: &PersonId, key: &impl Signer) -> Result<(), LinkFault> {
    let signature = signed(key, &join_bytes(code, member)).await?;
    let join = Join { code: code.to_owned(), member: member.clone(), dev: key.device_id().clone(), signature };
    request(POST, "/api/join", &written(&join)).await.map(drop)
}

/// The shop, as it stands, in the hub's own words: they are what is kept.
pub async fn shop(key: &impl Signer) -> Result<String, LinkFault> {
    in_session(key, GET, "/api/shop", "").await
}

/// One exchange of the log; the bodies belong to `shared_core::sync`.
pub async fn sync<Q: Serialize, A: DeserializeOwned>(key: &impl Signer, body: &Q) -> Result<A, LinkFault> {
    read(&in_session(key, POST, "/api/sync", &written(body)).await?)
}

/// Hands a code's text to a member's phones.
pub async fn carry(key: &impl Signer, carry: &Carry) -> Result<(), LinkFault> {
    in_session(key, POST, "/api/carry", &written(carry)).await.map(drop)
}

/// This member's figures are to be checked against this.
pub async fn set_pin(key: &impl Signer, pin: &PinSet) -> Result<(), LinkFault> {
    in_session(key, POST, "/api/pin", &written(pin)).await.map(drop)
}

/// What a screen asks: looked up without a body, done with one.
pub async fn answer(key: &impl Signer, asked: &Asked) -> Result<String, LinkFault> {
    let method = if asked.body.is_empty() { "GET" } else { "POST" };
    in_session(key, method, asked.path, &asked.body).await
}

/// Listens to what the hub says, until the stream ends.
pub fn listen(mut heard: impl FnMut(HubEvent) + 'static) {
    let told = Closure::new(move |kind: String, data: String| {
        // What a newer hub says otherwise is passed over: a sync brings all that counts.
        if let Some(event) = read_event(&kind, &data) {
            heard(event);
        }
    });
    js_listen("/api/live", ["log", "carry", "shop", "still"].map(str::to_owned).to_vec(), &told);
    told.forget();
}

fn read_event(kind: &str, data: &str) -> Option<HubEvent> {
    struct Rev {
        rev: String,
    }
    from_json! { Rev { rev } }
    match kind {
        "log" => Some(HubEvent::Log),
        "shop" => serde_json::from_str(data).ok().map(|Rev { rev }| HubEvent::Shop { rev }),
        "carry" => serde_json::from_str(data).ok().map(HubEvent::Carry),
        "still" => Some(HubEvent::Still),
        "open" => Some(HubEvent::Open),
        "closed" => Some(HubEvent::Closed),
        _ => None,
    }
}

/// Asks; where the session has run out, begins one and asks once more. Bodies are texts here and below: so it is one
/// function, whatever is asked.
async fn in_session(key: &impl Signer, method: &str, path: &str, body: &str) -> Result<String, LinkFault> {
    match request(method, path, body).await {
        Err(LinkFault::Refused(problem)) if problem.status == 401 => {
            begin_session(key).await?;
            request(method, path, body).await
        }
        answer => answer,
    }
}

async fn begin_session(key: &impl Signer) -> Result<(), LinkFault> {
    let dev = key.device_id().clone();
    let asked = written(&ChallengeAsked { dev: dev.clone() });
    let given: Challenge = read(&request(POST, "/api/session/challenge", &asked).await?)?;
    let challenge = given.challenge;
    let signature = signed(key, &session_bytes(&challenge)).await?;
    request(POST, "/api/session", &written(&SessionAsked { dev, challenge, signature })).await.map(drop)
}

async fn signed(key: &impl Signer, bytes: &[u8]) -> Result<String, LinkFault> {
    Ok(base64url::encode(&key.sign(bytes).await?))
}

fn written(body: &impl Serialize) -> String {
    serde_json::to_string(body).expect("bodies are plain data")
}

fn read<A: DeserializeOwned>(text: &str) -> Result<A, LinkFault> {
    serde_json::from_str(text).map_err(|_| LinkFault::Newer)
}

async fn request(method: &str, path: &str, body: &str) -> Result<String, LinkFault> {
    let answer = call(method, path, body, LIMIT_MS).await.map_err(|_| LinkFault::Offline)?;
    let answer = Array::from(&answer);
    let number = |at| answer.get(at).as_f64().unwrap_or_default();
    let text = |at| answer.get(at).as_string().unwrap_or_default();
    read_answer(whole(number(0)), &text(1), whole(number(2)), text(3))
}

/// A status or a count of seconds, which JavaScript gives as a double.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped first")]
fn whole(number: f64) -> u32 {
    number.clamp(0.0, 86_400.0) as u32
}

/// What an answer means. A proxy's page of HTML under a status of success is no answer of the hub's.
fn read_answer(status: u32, kind: &str, after_seconds: u32, text: String) -> Result<String, LinkFault> {
    match status {
        204 => Ok(text),
        200..=299 if kind.contains("json") => Ok(text),
        200..=299 | 502..=504 => Err(LinkFault::Offline),
        426 => Err(LinkFault::Newer),
        429 => Err(LinkFault::TooMany { after_seconds: after_seconds.max(1) }),
        _ => {
            let mut problem: Problem = serde_json::from_str(&text).unwrap_or_default();
            match problem.kind.rsplit('/').next() {
                Some("not-joined") => return Err(LinkFault::NotJoined),
                Some("revoked") => return Err(LinkFault::Revoked),
                Some("other-protocol") => return Err(LinkFault::Newer),
                _ => {}
            }
            problem.status = u16::try_from(status).unwrap_or_default();
            Err(LinkFault::Refused(problem))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_answer_has_one_meaning() {
        let problem = r#"{"type":"/problems/join-code","title":"No such code","detail":"Ask the steward."}"#;
        let refused = |status, title: &str, kind: &str, detail: &str| {
            Err(LinkFault::Refused(Problem { kind: kind.into(), title: title.into(), status, detail: detail.into() }))
        };
        for (status, kind, after, text, meaning) in [
            (200, "application/json", 0, "{}", Ok("{}".to_owned())),
            (204, "", 0, "", Ok(String::new())),
            (200, "text/html", 0, "<p>Sign in to the network", Err(LinkFault::Offline)),
            (503, "", 0, "", Err(LinkFault::Offline)),
            (426, "", 0, "", Err(LinkFault::Newer)),
            (429, "", 7, "", Err(LinkFault::TooMany { after_seconds: 7 })),
            (429, "", 0, "", Err(LinkFault::TooMany { after_seconds: 1 })),
            (
                404,
                "application/problem+json",
                0,
                problem,
                refused(404, "No such code", "/problems/join-code", "Ask the steward."),
            ),
            (401, "application/problem+json", 0, r#"{"type":"/problems/not-joined"}"#, Err(LinkFault::NotJoined)),
            (401, "application/problem+json", 0, r#"{"type":"/problems/revoked"}"#, Err(LinkFault::Revoked)),
            (409, "application/problem+json", 0, r#"{"type":"/problems/other-protocol"}"#, Err(LinkFault::Newer)),
            (500, "text/plain", 0, "oh", refused(500, "", "", "")),
        ] {
            assert_eq!(read_answer(status, kind, after, text.to_owned()), meaning, "{status} {kind} {text}");
        }
    }
}
