//! The digest of somebody's figures, by the browser. The figures go nowhere else, and are kept nowhere.

use js_sys::Uint8Array;
use shared_core::pin::{CHECK_BYTES, PinSet, ROUNDS, SALT_BYTES};
use wasm_bindgen::prelude::*;

use super::entropy;
use super::hub_link::{self, LinkFault};
use super::keys::{KeyFault, Signer};

#[wasm_bindgen(module = "/js/pin.js")]
extern "C" {
    #[wasm_bindgen(js_name = digest)]
    async fn js_digest(figures: &str, salt: &[u8], rounds: u32) -> JsValue;
}

/// The digest; nothing where the browser cannot reckon it.
pub async fn digest(figures: &str, salt: &[u8], rounds: u32) -> Option<Vec<u8>> {
    js_digest(figures, salt, rounds).await.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec)
}

/// Digests the figures under a fresh salt and has the hub keep that.
pub async fn set(key: &impl Signer, figures: &str) -> Result<(), LinkFault> {
    let salt = entropy::bytes::<SALT_BYTES>();
    let digest = digest(figures, &salt, ROUNDS).await.and_then(|bytes| <[u8; CHECK_BYTES]>::try_from(bytes).ok());
    match digest {
        Some(check) => hub_link::set_pin(key, &PinSet::new(&salt, &check)).await,
        None => Err(KeyFault::Broken("no PBKDF2".to_owned()).into()),
    }
}
