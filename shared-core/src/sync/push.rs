//! How a phone says where it is reached when nobody looks at it: `GET` and `POST /api/push`.

use serde::{Deserialize, Serialize};

use crate::json::from_json;

/// The answer to `GET /api/push`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PushState {
    /// The hub's key for push services, base64url: a browser binds the subscription to it (RFC 8292 section 4.1).
    pub key: String,
    /// Where the hub reaches this phone, if it does.
    pub endpoint: Option<String>,
}

from_json! { PushState { key, endpoint } }

/// `POST /api/push`: this phone is reached here from now on; nowhere, if there is none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PushSet {
    /// Where.
    pub subscription: Option<PushAt>,
}

/// The answer to `POST /api/push/try`: this phone is rung once, as a try.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PushTried {
    /// In so many seconds.
    pub in_seconds: u32,
}

/// A subscription as a browser writes it (Push API, `PushSubscription.toJSON`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PushAt {
    /// The push service's address for this phone.
    pub endpoint: String,
    /// What messages to it are sealed with.
    pub keys: PushKeys,
}

/// RFC 8291 section 3; both base64url without padding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PushKeys {
    /// The phone's public key.
    pub p256dh: String,
    /// A secret between phone and hub.
    pub auth: String,
}
