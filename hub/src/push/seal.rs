//! Sealing a message for one phone: RFC 8291 (message encryption for Web Push) in RFC 8188's coding `aes128gcm`, one record.
//!
//! The key pair and the salt are of one message alone; entropy is an argument, so that the RFC's example can be followed
//! to the last byte. What is sealed is filled up to one length, so that its size says nothing.

use aes_gcm::aead::{Aead as _, KeyInit as _};
use aes_gcm::{Aes128Gcm, Nonce};
use hkdf::Hkdf;
use p256::ecdh::diffie_hellman;
use p256::elliptic_curve::sec1::ToEncodedPoint as _;
use p256::{PublicKey, SecretKey};
use sha2::Sha256;

use super::AUTH_BYTES;

/// A salt (RFC 8188 section 2.1).
pub(super) const SALT_BYTES: usize = 16;
/// Every message is filled up to this, its end mark not counted: far under the 3993 that a push service must take
/// (RFC 8291 section 4).
pub(super) const FILLED_BYTES: usize = 255;
/// The record size that is announced, as in the RFC's example; a single record is shorter.
const RECORD_BYTES: u32 = 4096;
/// The end of the last record (RFC 8188 section 2).
const LAST: u8 = 2;

/// What a message is sealed with, made anew for each.
pub(super) struct Fresh {
    /// This message's key.
    pub(super) key: SecretKey,
    /// Its salt.
    pub(super) salt: [u8; SALT_BYTES],
}

/// Seals `text` for the phone with this key and secret, filled up to `filled` bytes. `None` only if it is longer than fits.
pub(super) fn seal(
    text: &[u8],
    filled: usize,
    phone: &PublicKey,
    auth: &[u8; AUTH_BYTES],
    fresh: &Fresh,
) -> Option<Vec<u8>> {
    let fill = filled.checked_sub(text.len())?;
    let ours = fresh.key.public_key().to_encoded_point(false);
    let theirs = phone.to_encoded_point(false);
    // RFC 8291 section 3.4: the shared secret, then the secret that only the phone and this hub know.
    let shared = diffie_hellman(fresh.key.to_nonzero_scalar(), phone.as_affine());
    let info = [b"WebPush: info\0".as_slice(), theirs.as_bytes(), ours.as_bytes()].concat();
    let secret: [u8; 32] = expanded(auth, shared.raw_secret_bytes(), &info)?;
    // RFC 8188 sections 2.2 and 2.3.
    let key: [u8; 16] = expanded(&fresh.salt, &secret, b"Content-Encoding: aes128gcm\0")?;
    let nonce: [u8; 12] = expanded(&fresh.salt, &secret, b"Content-Encoding: nonce\0")?;
    let record = [text, &[LAST], &vec![0; fill]].concat();
    let sealed = Aes128Gcm::new(&key.into()).encrypt(&Nonce::from(nonce), record.as_slice()).ok()?;
    // RFC 8188 section 2.1: salt, record size, length of the key, key.
    let id_bytes = u8::try_from(ours.len()).ok()?;
    let head = [fresh.salt.as_slice(), &RECORD_BYTES.to_be_bytes(), &[id_bytes], ours.as_bytes()].concat();
    Some([head, sealed].concat())
}

fn expanded<const N: usize>(salt: &[u8], secret: &[u8], info: &[u8]) -> Option<[u8; N]> {
    let mut out = [0; N];
    Hkdf::<Sha256>::new(Some(salt), secret).expand(info, &mut out).ok()?;
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::secret::{base64url, from_base64url};

    fn bytes<const N: usize>(text: &str) -> [u8; N] {
        from_base64url(text).expect("base64url").try_into().expect("the length")
    }

    /// RFC 8291 section 5 and Appendix A: the whole body, byte for byte.
    #[test]
    fn the_worked_example_of_rfc_8291_comes_out() {
        let phone = PublicKey::from_sec1_bytes(&bytes::<65>(
            "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4",
        ))
        .expect("a point");
        let key = SecretKey::from_slice(&bytes::<32>("yfWPiYE-n46HLnH0KqZOF1fJJU3MYrct3AELtAQ-oRw")).expect("a key");
        let fresh = Fresh { key, salt: bytes("DGv6ra1nlYgDCS1FRnbzlw") };
        let text = b"When I grow up, I want to be a watermelon";
        let sealed = seal(text, text.len(), &phone, &bytes("BTBZMqHH6r4Tts7J_aSIgg"), &fresh).expect("it fits");
        assert_eq!(
            base64url(sealed),
            "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8w\
             EqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN"
        );
    }

    /// Another implementation opens what this one seals, and finds the text without what it was filled up with.
    #[test]
    fn another_implementation_opens_it_and_all_are_of_one_length() {
        let phone = SecretKey::from_slice(&[7; 32]).expect("a key");
        let auth = [9; AUTH_BYTES];
        let mut lengths = Vec::new();
        for text in [&b"{}"[..], br#"{"what":"first_bell"}"#, &[b'x'; FILLED_BYTES]] {
            let fresh = Fresh { key: SecretKey::from_slice(&[5; 32]).expect("a key"), salt: [3; SALT_BYTES] };
            let sealed = seal(text, FILLED_BYTES, &phone.public_key(), &auth, &fresh).expect("it fits");
            lengths.push(sealed.len());
            let opened = web_push_native::decrypt(sealed, &phone, &auth.into()).expect("it opens");
            assert_eq!(opened, text);
        }
        assert_eq!(lengths, [lengths[0]; 3]);
        let fresh = Fresh { key: phone.clone(), salt: [3; SALT_BYTES] };
        assert_eq!(seal(&[0; FILLED_BYTES + 1], FILLED_BYTES, &phone.public_key(), &auth, &fresh), None);
    }
}
