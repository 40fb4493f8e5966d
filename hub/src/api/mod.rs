//! What a phone may ask of the hub, one endpoint a file. The routes themselves are in [`crate::router`].
//!
//! An endpoint reads its request, asks `shared_core` or the store, and answers. No rule is decided here.

pub(crate) mod boards;
mod body;
pub(crate) mod carry;
pub(crate) mod challenge;
pub(crate) mod description;
pub(crate) mod devices;
pub(crate) mod export;
pub(crate) mod health;
pub(crate) mod invites;
pub(crate) mod join;
pub(crate) mod join_check;
pub(crate) mod late;
pub(crate) mod live;
pub(crate) mod mine;
pub(crate) mod picture;
pub(crate) mod pin;
pub(crate) mod push;
pub(crate) mod push_try;
pub(crate) mod rules;
pub(crate) mod session;
pub(crate) mod shop;
pub(crate) mod sync;

pub(crate) use body::{BODY_BYTES_MAX, Client, announced_bytes, read_text};
