//! What the hub answers when it does not do what was asked: typed problems per RFC 9457, one variant each.
//!
//! Each says what happened and what to do, in words a member can read. What broke inside is logged once, here, and
//! never sent. No endpoint writes an error body of its own.

use axum::Json;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use shared_core::sync::shop;
use thiserror::Error;

use crate::cards::CardsFault;
use crate::hub::RulesFault;
use crate::invites::InviteFault;
use crate::store::StoreError;

/// When it is worth asking again after the database was held or away.
const STORAGE_RETRY_AFTER_S: u64 = 5;

/// A refusal, or a fault of the hub's own.
#[derive(Clone, Debug, Error)]
pub(crate) enum Problem {
    /// The request carries no session, or one that is over.
    #[error("This device has no session with the hub. Sign in again, or join with a code from a steward.")]
    NoSession,
    /// A device that has not joined asks for more than to join.
    #[error("This device has not joined the shop. Join with a code from a steward.")]
    NotJoined,
    /// The device was taken off.
    #[error(
        "This phone was taken off the shop's list. What it has not sent is still on it: hand it in, or keep it as a file. To go on, ask a steward for a code for another phone."
    )]
    Revoked,
    /// The code is nobody's.
    #[error("There is no such code. Look at it again, or ask a steward for a new one.")]
    WrongCode,
    /// The one-time code was used.
    #[error("This code was used already, and works once. Ask a steward for a new one; if it was not you, say so.")]
    InviteUsed,
    /// The one-time code ran out, or was taken back.
    #[error("This code ran out or was taken back. Ask a steward for a new one.")]
    InviteOver,
    /// The one-time code is for somebody else.
    #[error("This code is for another member. Ask a steward for one of your own.")]
    OtherInvite,
    /// An invite cannot be made like that.
    #[error("{0}.")]
    NoInvite(String),
    /// Only a steward may.
    #[error("Only a steward may do that.")]
    NotSteward,
    /// No such room.
    #[error("The rulebook has no room `{0}`.")]
    UnknownRoom(String),
    /// What figures are to be checked against is not what the app makes.
    #[error("These figures were not prepared as the app does it. Use a newer app.")]
    UnfitPin,
    /// A subscription that the hub will not send to.
    #[error("This phone cannot be reached that way: {0}.")]
    UnfitPush(String),
    /// A phone that gave the hub no address.
    #[error("The hub has no address of this phone. Turn push on first.")]
    NoAddress,
    /// A rulebook that cannot be put in force.
    #[error("This rulebook cannot be put in force: {0}.")]
    UnfitRules(String),
    /// A rulebook without a machine that runs.
    #[error(
        "`{0}` runs now, and is not in this rulebook. Wait until it stands, or publish anyway: whoever runs it keeps the old rules."
    )]
    OrphanedMachine(String),
    /// Somebody else published meanwhile.
    #[error("Somebody published other rules since you began. Read theirs first; what you wrote stays here.")]
    RulesMoved,
    /// There is no such device.
    #[error("No phone of that name has joined this shop.")]
    UnknownPhone,
    /// A device would take itself off.
    #[error("This is the phone in your hand. Take it off from another, or at the hub.")]
    OwnPhone,
    /// A device that has a session hands in late lines.
    #[error("This phone is on the shop's list: it sends what it has as always.")]
    StillJoined,
    /// Late lines past the limit.
    #[error("At most {limit} lines of a phone that was taken off are kept. Keep the rest as a file for a steward.")]
    TooMuchLate {
        /// The limit.
        limit: u64,
    },
    /// A picture that no line names.
    #[error(
        "No line of yours that names this picture is here yet. Send what waits first; the picture stays on your device."
    )]
    NotNamedYet,
    /// What is handed over is not the picture that the log names.
    #[error("This picture cannot be kept: {0}.")]
    UnfitPicture(&'static str),
    /// Pictures past the limit.
    #[error("At most {limit} pictures of one phone are kept. This one stays on your device.")]
    TooManyPictures {
        /// The limit.
        limit: u64,
    },
    /// The members file does not know that person.
    #[error("No member is called `{0}` in this shop's members file.")]
    UnknownMember(String),
    /// The device speaks for somebody else already.
    #[error("This device speaks for another member already. Clear its data to join it anew.")]
    JoinedForAnother,
    /// A signature does not hold.
    #[error("The signature is not by this device's key.")]
    BadSignature,
    /// A challenge that was not given, was used, or is stale.
    #[error("This challenge is used up or too old. Ask for a new one.")]
    StaleChallenge,
    /// The device's app speaks another protocol than the hub.
    #[error("{0}")]
    OtherProtocol(String),
    /// Too many requests.
    #[error("Too many requests. Try again in {retry_after_s} s.")]
    TooMany {
        /// When it is worth asking again.
        retry_after_s: u64,
    },
    /// The body is over the limit.
    #[error("The body is over {limit_bytes} bytes. Send less at once.")]
    TooLarge {
        /// The limit.
        limit_bytes: usize,
    },
    /// The body is not JSON by its own account.
    #[error("The body must be JSON, sent as `application/json`.")]
    NotJsonType,
    /// The body is something else by its own account.
    #[error("The body must be sent as `{0}`.")]
    NotOfType(&'static str),
    /// The body is not the JSON that is asked for.
    #[error("The body cannot be read: {0}.")]
    Unreadable(String),
    /// The body never came.
    #[error("The request took too long to arrive.")]
    TooSlow,
    /// A text is over its limit.
    #[error("A carried code holds at most {limit_bytes} bytes.")]
    CodeTooLong {
        /// The limit.
        limit_bytes: usize,
    },
    /// There is nothing at that address.
    #[error("There is nothing at this address.")]
    NotFound,
    /// The address does not do that.
    #[error("This address does not take this method.")]
    MethodNotAllowed,
    /// Another program holds the database.
    #[error(
        "The hub's database is held by another program. What you sent is still on your device; it will be sent again."
    )]
    StorageBusy(String),
    /// The hub's disk is full.
    #[error(
        "The hub's disk is full: whoever looks after it must make room. What you sent is still on your device; it will be sent again."
    )]
    StorageFull(String),
    /// The hub's disk takes nothing.
    #[error(
        "The hub cannot write to its disk: whoever looks after it must see to it. What you sent is still on your device; it will be sent again."
    )]
    StorageUnwritable(String),
    /// The database server does not answer.
    #[error("The hub's database does not answer. What you sent is still on your device; it will be sent again.")]
    StorageAway(String),
    /// The hub failed. The cause is logged, not sent.
    #[error("The hub failed. What you sent is still on your device; it will be sent again.")]
    Fault(String),
}

impl Problem {
    /// The status and the stable last segment of the problem's type.
    fn kind(&self) -> (StatusCode, &'static str, &'static str) {
        match self {
            Self::NoSession => (StatusCode::UNAUTHORIZED, "no-session", "Not signed in"),
            Self::NotJoined => (StatusCode::UNAUTHORIZED, "not-joined", "Not joined"),
            Self::Revoked => (StatusCode::UNAUTHORIZED, "revoked", "Phone taken off"),
            Self::WrongCode => (StatusCode::FORBIDDEN, "wrong-code", "Wrong join code"),
            Self::UnknownMember(_) => (StatusCode::NOT_FOUND, "unknown-member", "Unknown member"),
            Self::InviteUsed => (StatusCode::GONE, "invite-used", "Code used already"),
            Self::InviteOver => (StatusCode::GONE, "invite-over", "Code over"),
            Self::OtherInvite => (StatusCode::FORBIDDEN, "other-invite", "Code for another member"),
            Self::NoInvite(_) => (StatusCode::CONFLICT, "no-invite", "No code made"),
            Self::UnknownRoom(_) => (StatusCode::NOT_FOUND, "unknown-room", "Unknown room"),
            Self::UnfitPin => (StatusCode::UNPROCESSABLE_ENTITY, "unfit-pin", "Unfit figures"),
            Self::UnfitPush(_) => (StatusCode::UNPROCESSABLE_ENTITY, "unfit-push", "Unfit address"),
            Self::NoAddress => (StatusCode::CONFLICT, "no-address", "No address"),
            Self::UnfitRules(_) => (StatusCode::UNPROCESSABLE_ENTITY, "unfit-rules", "Unfit rulebook"),
            Self::OrphanedMachine(_) => (StatusCode::CONFLICT, "orphaned-machine", "A machine runs"),
            Self::RulesMoved => (StatusCode::CONFLICT, "rules-moved", "Other rules meanwhile"),
            Self::NotSteward => (StatusCode::FORBIDDEN, "not-steward", "For stewards"),
            Self::UnknownPhone => (StatusCode::NOT_FOUND, "unknown-phone", "Unknown phone"),
            Self::OwnPhone => (StatusCode::CONFLICT, "own-phone", "The phone in your hand"),
            Self::StillJoined => (StatusCode::CONFLICT, "still-joined", "Still joined"),
            Self::TooMuchLate { .. } => (StatusCode::INSUFFICIENT_STORAGE, "too-much-late", "Too many lines"),
            Self::NotNamedYet => (StatusCode::CONFLICT, "not-named-yet", "No line names it yet"),
            Self::UnfitPicture(_) => (StatusCode::UNPROCESSABLE_ENTITY, "unfit-picture", "Unfit picture"),
            Self::TooManyPictures { .. } => {
                (StatusCode::INSUFFICIENT_STORAGE, "too-many-pictures", "Too many pictures")
            }
            Self::JoinedForAnother => (StatusCode::CONFLICT, "joined-for-another", "Joined for another member"),
            Self::BadSignature => (StatusCode::FORBIDDEN, "bad-signature", "Signature does not hold"),
            Self::StaleChallenge => (StatusCode::FORBIDDEN, "stale-challenge", "Stale challenge"),
            Self::OtherProtocol(_) => (StatusCode::CONFLICT, "other-protocol", "Another protocol"),
            Self::TooMany { .. } => (StatusCode::TOO_MANY_REQUESTS, "too-many", "Too many requests"),
            Self::TooLarge { .. } => (StatusCode::PAYLOAD_TOO_LARGE, "too-large", "Body too large"),
            Self::NotJsonType => (StatusCode::UNSUPPORTED_MEDIA_TYPE, "not-json", "Not JSON"),
            Self::NotOfType(_) => (StatusCode::UNSUPPORTED_MEDIA_TYPE, "other-type", "Another type"),
            Self::Unreadable(_) => (StatusCode::BAD_REQUEST, "unreadable", "Unreadable body"),
            Self::TooSlow => (StatusCode::REQUEST_TIMEOUT, "too-slow", "Too slow"),
            Self::CodeTooLong { .. } => (StatusCode::UNPROCESSABLE_ENTITY, "code-too-long", "Code too long"),
            Self::NotFound => (StatusCode::NOT_FOUND, "not-found", "Not found"),
            Self::MethodNotAllowed => (StatusCode::METHOD_NOT_ALLOWED, "method-not-allowed", "Method not allowed"),
            Self::StorageBusy(_) => (StatusCode::SERVICE_UNAVAILABLE, "storage-busy", "Database is held"),
            Self::StorageFull(_) => (StatusCode::INSUFFICIENT_STORAGE, "storage-full", "Disk is full"),
            Self::StorageUnwritable(_) => {
                (StatusCode::SERVICE_UNAVAILABLE, "storage-unwritable", "Disk cannot be written")
            }
            Self::StorageAway(_) => (StatusCode::SERVICE_UNAVAILABLE, "storage-away", "Database is away"),
            Self::Fault(_) => (StatusCode::INTERNAL_SERVER_ERROR, "fault", "Fault of the hub"),
        }
    }
}

impl Problem {
    /// What broke inside, for the log alone.
    fn cause(&self) -> Option<&str> {
        match self {
            Self::StorageBusy(cause)
            | Self::StorageFull(cause)
            | Self::StorageUnwritable(cause)
            | Self::StorageAway(cause)
            | Self::Fault(cause) => Some(cause),
            _ => None,
        }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let (status, kind, title) = self.kind();
        if let Some(cause) = self.cause() {
            tracing::error!(%cause, "the hub failed");
        }
        let body = shop::Problem {
            kind: format!("/problems/{kind}"),
            title: title.into(),
            status: status.as_u16(),
            detail: self.to_string(),
        };
        let mut response = (status, Json(body)).into_response();
        let headers = response.headers_mut();
        headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/problem+json"));
        match self {
            Self::TooMany { retry_after_s } => {
                headers.insert(header::RETRY_AFTER, HeaderValue::from(retry_after_s));
            }
            Self::StorageBusy(_) | Self::StorageAway(_) => {
                headers.insert(header::RETRY_AFTER, HeaderValue::from(STORAGE_RETRY_AFTER_S));
            }
            // RFC 9110 section 11.6.1 wants a challenge with each 401; ours is the session's own scheme.
            Self::NoSession | Self::NotJoined | Self::Revoked => {
                headers.insert(header::WWW_AUTHENTICATE, HeaderValue::from_static("Sweepbell"));
            }
            _ => {}
        }
        response
    }
}

impl From<StoreError> for Problem {
    fn from(error: StoreError) -> Self {
        let cause = error.to_string();
        match error {
            StoreError::Busy(_) => Self::StorageBusy(cause),
            StoreError::Full(_) => Self::StorageFull(cause),
            StoreError::Unwritable(_) => Self::StorageUnwritable(cause),
            StoreError::Away(_) => Self::StorageAway(cause),
            _ => Self::Fault(cause),
        }
    }
}

impl From<getrandom::Error> for Problem {
    fn from(error: getrandom::Error) -> Self {
        Self::Fault(format!("no random bytes: {error}"))
    }
}

impl From<RulesFault> for Problem {
    fn from(fault: RulesFault) -> Self {
        match fault {
            RulesFault::Store(error) => error.into(),
            RulesFault::Shop(error) => Self::Fault(error.to_string()),
            RulesFault::Cards(error) => error.into(),
        }
    }
}

impl From<CardsFault> for Problem {
    fn from(fault: CardsFault) -> Self {
        match fault {
            CardsFault::Store(error) => error.into(),
            CardsFault::Random(error) => error.into(),
        }
    }
}

impl From<InviteFault> for Problem {
    fn from(fault: InviteFault) -> Self {
        match fault {
            InviteFault::Store(error) => error.into(),
            InviteFault::Random(error) => error.into(),
            other => Self::NoInvite(other.to_string()),
        }
    }
}
