//! The device's key: made here once, kept here, never sent.
//!
//! Where the browser has Ed25519 of its own, the private key is a handle that cannot be read out. Elsewhere it is a
//! seed in the same database, which whoever can run code on this page could read; [`Keeping`] says which it is. A lost
//! key is not restored: the phone joins again under a new one. Both sign the same bytes (RFC 8032 is deterministic).

use std::rc::Rc;

use js_sys::Uint8Array;
use shared_core::base64url;
use shared_core::ids::DeviceId;
use wasm_bindgen::prelude::*;

use super::journal::Fault;
use super::journal::indexed_db::{fault, kv_get, kv_once};
use super::{entropy, later};
use crate::later::Later;

const DEVICE: &str = "device";

#[wasm_bindgen(module = "/js/keys.js")]
extern "C" {
    async fn generate() -> JsValue;
    fn seeded(seed: &Uint8Array, raw: &Uint8Array) -> JsValue;
    #[wasm_bindgen(js_name = keyOf)]
    fn key_of(kept: &JsValue) -> JsValue;
    #[wasm_bindgen(js_name = rawOf)]
    fn raw_of(kept: &JsValue) -> JsValue;
    #[wasm_bindgen(js_name = seedOf)]
    fn seed_of(kept: &JsValue) -> JsValue;
    #[wasm_bindgen(catch, js_name = sign)]
    async fn js_sign(key: &JsValue, bytes: &[u8]) -> Result<JsValue, JsValue>;
}

/// Signs what the device says.
pub trait Signer {
    /// Its public key.
    fn device_id(&self) -> &DeviceId;
    /// Whether it was made just now, so that no hub knows it.
    fn is_new(&self) -> bool;
    /// Where the private key lies.
    fn keeping(&self) -> Keeping;
    /// An Ed25519 signature of `bytes`.
    async fn sign(&self, bytes: &[u8]) -> Result<[u8; 64], KeyFault>;
}

/// The key could not be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KeyFault {
    /// It could not be read or kept.
    #[error(transparent)]
    Storage(#[from] Fault),
    /// The browser would not sign with it, or it is damaged.
    #[error("the phone's key does not work: {0}")]
    Broken(String),
}

/// Where the private key lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// In the browser, which signs with it and never shows it.
    Sealed,
    /// As a seed in the database.
    Seed,
}

/// The device's key.
#[derive(Debug)]
pub struct DeviceKey {
    id: DeviceId,
    secret: Secret,
    is_new: bool,
}

#[derive(Debug)]
enum Secret {
    Sealed(JsValue),
    Seed([u8; 32]),
}

impl DeviceKey {
    /// Takes the key that is kept, or makes one and keeps it. Two tabs that make one at once end up with the same.
    pub async fn open() -> Result<Self, KeyFault> {
        let mut kept = kv_get(DEVICE).await.map_err(|thrown| fault(&thrown))?;
        let is_new = kept.is_undefined();
        if is_new {
            let mut made = generate().await;
            if made.is_undefined() {
                let seed = entropy::bytes::<32>();
                let raw = (by_seed().await?.public_of)(&seed);
                made = seeded(&Uint8Array::from(seed.as_slice()), &Uint8Array::from(raw.as_slice()));
            }
            kept = kv_once(DEVICE, &made).await.map_err(|thrown| fault(&thrown))?;
        }
        Self::of(&kept, is_new).await
    }

    async fn of(kept: &JsValue, is_new: bool) -> Result<Self, KeyFault> {
        let broken = || KeyFault::Broken("it is damaged".to_owned());
        let (seed, raw) = (seed_of(kept), raw_of(kept));
        let secret = if seed.is_undefined() {
            Secret::Sealed(key_of(kept))
        } else {
            Secret::Seed(array(&seed).ok_or_else(broken)?)
        };
        let raw = match &secret {
            Secret::Seed(seed) if raw.is_undefined() => (by_seed().await?.public_of)(seed),
            _ => array(&raw).ok_or_else(broken)?,
        };
        Ok(Self { id: device_id(&raw), secret, is_new })
    }
}

/// What a seed is used with, which most browsers have no need of.
async fn by_seed() -> Result<&'static Later, KeyFault> {
    later::come().await.ok_or_else(|| KeyFault::Broken("what it is used with did not come".to_owned()))
}

impl Signer for DeviceKey {
    fn device_id(&self) -> &DeviceId {
        &self.id
    }

    fn is_new(&self) -> bool {
        self.is_new
    }

    fn keeping(&self) -> Keeping {
        match self.secret {
            Secret::Sealed(_) => Keeping::Sealed,
            Secret::Seed(_) => Keeping::Seed,
        }
    }

    async fn sign(&self, bytes: &[u8]) -> Result<[u8; 64], KeyFault> {
        match &self.secret {
            Secret::Seed(seed) => Ok((by_seed().await?.sign_by)(seed, bytes)),
            Secret::Sealed(key) => {
                let made = js_sign(key, bytes).await;
                let made = made.map_err(|thrown| KeyFault::Broken(super::js::word(&thrown)))?;
                array(&made).ok_or_else(|| KeyFault::Broken("its signature has a wrong length".to_owned()))
            }
        }
    }
}

impl<S: Signer> Signer for Rc<S> {
    fn device_id(&self) -> &DeviceId {
        (**self).device_id()
    }

    fn is_new(&self) -> bool {
        (**self).is_new()
    }

    fn keeping(&self) -> Keeping {
        (**self).keeping()
    }

    async fn sign(&self, bytes: &[u8]) -> Result<[u8; 64], KeyFault> {
        (**self).sign(bytes).await
    }
}

fn device_id(public: &[u8; 32]) -> DeviceId {
    DeviceId::new(base64url::encode(public))
}

fn array<const N: usize>(bytes: &JsValue) -> Option<[u8; N]> {
    bytes.dyn_ref::<Uint8Array>()?.to_vec().try_into().ok()
}
