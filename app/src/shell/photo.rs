//! Pictures of what was done: taken, made small, kept on the phone under their SHA-256; handed to the hub after their line, and shown.
//!
//! Drawn anew at most 1600 px wide, so nothing of where it was taken stays in it. An entry carries the hash alone.
//! When there is no room the picture is refused, never the entry.

use js_sys::Uint8Array;
use sha2::{Digest, Sha256};
use shared_core::base64url;
use wasm_bindgen::prelude::*;

use super::journal::Fault;
use super::journal::indexed_db::{fault, photo_put};

#[wasm_bindgen(module = "/js/photo.js")]
extern "C" {
    #[wasm_bindgen(js_name = take)]
    async fn js_take() -> JsValue;
    /// Hands to the hub what it has not got of the pictures whose lines it holds. Nobody waits for it, and a failure has no
    /// consequence but that it is tried again after a later sync.
    pub fn hand();
    /// Shows a picture in a place with an image in it: this phone's own, else the hub's. How that went is in the place's `data-is`,
    /// for the styles: `here` or `missing`.
    pub fn show(place: &web_sys::HtmlElement, sha: &str);
}

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhotoFault {
    /// What takes it is of the later part, which did not come.
    NotHere,
    /// It was taken, and not kept.
    Storage(Fault),
}

/// Asks the member for a picture and keeps it. Its hash, or nothing if none was taken. Must follow a touch.
pub async fn take() -> Result<Option<String>, PhotoFault> {
    let taken = js_take().await;
    let Some(bytes) = taken.dyn_ref::<Uint8Array>() else { return Ok(None) };
    let sha = base64url::encode(&Sha256::digest(bytes.to_vec()));
    photo_put(&sha, &bytes.buffer()).await.map_err(|thrown| PhotoFault::Storage(fault(&thrown)))?;
    Ok(Some(sha))
}
