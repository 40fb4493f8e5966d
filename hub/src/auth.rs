//! Who is asking: the session cookie of a joined device, or nobody.
//!
//! A device that has not joined, that was taken off, or whose member is no longer in the members file, reads nothing and
//! writes nothing. Sessions seen once are remembered, so that a device that floods is refused without asking the database.

use std::collections::HashMap;
use std::net::{IpAddr, Ipv4Addr};
use std::sync::{Arc, Mutex, PoisonError};

use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, header};
use shared_core::ids::DeviceId;
use shared_core::time::{Instant, Span};

use crate::connections::Peer;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{Change, SignedIn, Store, StoreError};
use crate::{clock, secret};

const COOKIE: &str = "sweepbell";
const LASTS: Span = Span::from_minutes(12 * 60);
/// Sessions of so many phones, some of which signed in more than once in those hours.
const REMEMBERED_MAX: usize = 40_000;

/// Whose sessions were seen.
#[derive(Debug)]
pub(crate) struct Sessions(Mutex<HashMap<[u8; 32], SignedIn>>);

impl Sessions {
    /// Those that the store has. A hub that was just started is asked by all phones at once, and those whom it has not seen count
    /// against their address.
    pub(crate) async fn seen_before(store: &Store) -> Result<Self, StoreError> {
        let seen = store.sessions_in_force(clock::now(), REMEMBERED_MAX).await?;
        Ok(Self(Mutex::new(seen.into_iter().collect())))
    }

    fn get(&self, token: &[u8; 32], now: Instant) -> Option<SignedIn> {
        let seen = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        seen.get(token).filter(|session| session.ends > now).cloned()
    }

    fn remember(&self, token: [u8; 32], session: SignedIn, now: Instant) {
        let mut seen = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if seen.len() >= REMEMBERED_MAX {
            seen.retain(|_, session| session.ends > now);
        }
        if seen.len() < REMEMBERED_MAX {
            seen.insert(token, session);
        }
    }
}

/// Begins a session for a device, with whatever else is in the change, and gives the cookie that carries it.
pub(crate) async fn sign_in(hub: &Hub, mut change: Change, dev: &DeviceId) -> Result<HeaderValue, Problem> {
    let (token, now) = (secret::base64url(secret::random::<32>()?), clock::now());
    let digest = secret::digest(&token);
    change.begin_session(&digest, dev, now, now + LASTS).await?;
    change.commit().await?;
    if let Some(session) = hub.store.session(&digest, now).await? {
        hub.sessions.remember(digest, session, now);
    }
    let secure = if hub.config.is_https() { "; Secure" } else { "" };
    let max_age_s = LASTS.ms() / 1000;
    let cookie = format!("{COOKIE}={token}; Path=/api; Max-Age={max_age_s}; HttpOnly; SameSite=Strict{secure}");
    HeaderValue::from_str(&cookie).map_err(|error| Problem::Fault(error.to_string()))
}

impl FromRequestParts<Arc<Hub>> for SignedIn {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, hub: &Arc<Hub>) -> Result<Self, Problem> {
        let now = clock::now();
        let Some(token) = token(&parts.headers).map(secret::digest) else {
            hub.limits.address(address(parts))?;
            return Err(Problem::NoSession);
        };
        // Counted before the database is asked: by its device if it was seen before, else by its address, since a
        // cookie that was never seen may be made up.
        let seen = hub.sessions.get(&token, now);
        match &seen {
            Some(session) => hub.limits.device(&session.dev)?,
            None => hub.limits.address(address(parts))?,
        }
        // Asked each time: a phone that was taken off, by whichever process or program, is refused from then on.
        let Some(session) = hub.store.session(&token, now).await? else {
            return Err(why_not(hub, seen).await?);
        };
        if seen.is_none() {
            // It began at another process; behind one address many may come from there at once.
            hub.limits.forgive_address(address(parts));
            hub.limits.device(&session.dev)?;
            hub.sessions.remember(token, session.clone(), now);
        }
        if hub.shop.get().members.get(&session.member).is_none() {
            return Err(Problem::NotJoined);
        }
        Ok(session)
    }
}

/// A signed-in device of somebody who looks after the shop.
#[derive(Clone, Debug)]
pub(crate) struct Steward(pub(crate) SignedIn);

impl FromRequestParts<Arc<Hub>> for Steward {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, hub: &Arc<Hub>) -> Result<Self, Problem> {
        let caller = SignedIn::from_request_parts(parts, hub).await?;
        if hub.shop.get().is_steward(&caller.member) { Ok(Self(caller)) } else { Err(Problem::NotSteward) }
    }
}

/// Why a session does not hold: its phone was taken off, or it is over.
async fn why_not(hub: &Hub, seen: Option<SignedIn>) -> Result<Problem, Problem> {
    let Some(session) = seen else { return Ok(Problem::NoSession) };
    let device = hub.store.device(&session.dev).await?;
    Ok(if device.is_some_and(|known| known.revoked.is_some()) { Problem::Revoked } else { Problem::NoSession })
}

/// Where a request comes from.
pub(crate) fn address(parts: &Parts) -> IpAddr {
    parts.extensions.get::<Peer>().map_or(IpAddr::V4(Ipv4Addr::UNSPECIFIED), |Peer(address)| *address)
}

/// The session's token among the cookies (RFC 6265 section 5.4).
fn token(headers: &HeaderMap) -> Option<&str> {
    let cookies = headers.get_all(header::COOKIE).into_iter().filter_map(|line| line.to_str().ok());
    let mut pairs = cookies.flat_map(|line| line.split(';')).filter_map(|pair| pair.trim().split_once('='));
    pairs.find(|(name, _)| *name == COOKIE).map(|(_, token)| token)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_token_is_found_among_other_cookies() {
        for (lines, found) in [
            (&["sweepbell=abc"][..], Some("abc")),
            (&["other=1; sweepbell=abc; more=2"], Some("abc")),
            (&["other=1", "sweepbell=abc"], Some("abc")),
            (&["notsweepbell=abc"], None),
            (&["sweepbell"], None),
            (&[], None),
        ] {
            let mut headers = HeaderMap::new();
            for line in lines {
                headers.append(header::COOKIE, HeaderValue::from_static(line));
            }
            assert_eq!(token(&headers), found, "{lines:?}");
        }
    }
}
