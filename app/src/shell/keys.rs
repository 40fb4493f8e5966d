//! The device's key: made here once, kept here, never sent.
//!
//! Where the browser has Ed25519 of its own, the private key is a handle that cannot be read out. Elsewhere it is a
//! seed in the same database, which whoever can run code on this page could read; [`Keeping`] says which it is. A lost
//! key is not restored: the phone joins again under a new one. Both sign the same bytes (RFC 8032 is deterministic).

use std::rc::Rc;

use ed25519_dalek::{Signer as _, SigningKey};
use js_sys::Uint8Array;
use shared_core::base64url;
use shared_core::ids::DeviceId;
use wasm_bindgen::prelude::*;

use super::entropy;
use super::journal::Fault;
use super::journal::indexed_db::{fault, kv_get, kv_once};

const DEVICE: &str = "device";

#[wasm_bindgen(module = "/js/keys.js")]
extern "C" {
    async fn generate() -> JsValue;
    fn seeded(seed: &Uint8Array) -> JsValue;
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
}

#[derive(Debug)]
enum Secret {
    Sealed(JsValue),
    Seed(Box<SigningKey>),
}

impl DeviceKey {
    /// Takes the key that is kept, or makes one and keeps it. Two tabs that make one at once end up with the same.
    pub async fn open() -> Result<Self, KeyFault> {
        let mut kept = kv_get(DEVICE).await.map_err(|thrown| fault(&thrown))?;
        if kept.is_undefined() {
            let mut made = generate().await;
            if made.is_undefined() {
                made = seeded(&Uint8Array::from(entropy::bytes::<32>().as_slice()));
            }
            kept = kv_once(DEVICE, &made).await.map_err(|thrown| fault(&thrown))?;
        }
        Self::of(&kept)
    }

    fn of(kept: &JsValue) -> Result<Self, KeyFault> {
        let broken = || KeyFault::Broken("it is damaged".to_owned());
        let seed = seed_of(kept);
        if seed.is_undefined() {
            let raw: [u8; 32] = array(&raw_of(kept)).ok_or_else(broken)?;
            return Ok(Self { id: device_id(&raw), secret: Secret::Sealed(key_of(kept)) });
        }
        let key = SigningKey::from_bytes(&array(&seed).ok_or_else(broken)?);
        Ok(Self { id: device_id(key.verifying_key().as_bytes()), secret: Secret::Seed(Box::new(key)) })
    }
}

impl Signer for DeviceKey {
    fn device_id(&self) -> &DeviceId {
        &self.id
    }

    fn keeping(&self) -> Keeping {
        match self.secret {
            Secret::Sealed(_) => Keeping::Sealed,
            Secret::Seed(_) => Keeping::Seed,
        }
    }

    async fn sign(&self, bytes: &[u8]) -> Result<[u8; 64], KeyFault> {
        match &self.secret {
            Secret::Seed(key) => Ok(key.sign(bytes).to_bytes()),
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
