//! Web Push: how the hub reaches a phone that is locked in a pocket, and the key that it is known by to push services.
//!
//! What is said to whom and when is `shared_core::call`'s to say; [`caller`] asks it and sends. A push service learns
//! that this hub sends something to a phone, and when: the text is sealed for the phone ([`seal`], RFC 8291), of one
//! length whatever it says, and holds no name. The address comes from a phone and is not trusted ([`target`]).

pub(crate) mod caller;
mod message;
mod post;
mod seal;
pub(crate) mod target;
mod vapid;

pub(crate) use message::{AUTH_BYTES, Subscription, read_key};
pub(crate) use post::Sender;
pub(crate) use vapid::PushKey;
