//! base64url without padding (RFC 4648 section 5): how lines, cards, keys and digests are written.
//!
//! One text for each sequence of bytes: what has padding, other letters or bits left over is none, so that no line can be
//! written in two ways. Not of constant time: nobody's guess is compared here. What is secret, a board's key say, passes through
//! only on its way between a phone and its own store or hub.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// Bytes as text.
pub fn encode(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}

/// The bytes that a text stands for.
pub fn decode(text: &str) -> Option<Vec<u8>> {
    URL_SAFE_NO_PAD.decode(text).ok()
}

#[cfg(test)]
mod tests {
    use base64ct::{Base64UrlUnpadded, Encoding as _};
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// By another library, which is as strict.
        #[test]
        fn it_is_as_the_standard_has_it(bytes in proptest::collection::vec(any::<u8>(), 0..100)) {
            let text = encode(&bytes);
            prop_assert_eq!(&text, &Base64UrlUnpadded::encode_string(&bytes));
            prop_assert_eq!(decode(&text), Some(bytes));
        }

        #[test]
        fn what_is_no_text_of_it_is_none(text in "[A-D_=+/ -]{0,8}") {
            prop_assert_eq!(decode(&text), Base64UrlUnpadded::decode_vec(&text).ok(), "{:?}", text);
        }
    }

    /// RFC 4648 section 10, in its other alphabet and without the padding; and section 3.5, bits left over.
    #[test]
    fn the_standards_own_vectors() {
        for (bytes, text) in
            [("", ""), ("f", "Zg"), ("fo", "Zm8"), ("foo", "Zm9v"), ("foob", "Zm9vYg"), ("fooba", "Zm9vYmE")]
        {
            assert_eq!(encode(bytes.as_bytes()), text);
            assert_eq!(decode(text).as_deref(), Some(bytes.as_bytes()), "{text}");
        }
        for text in ["Zh", "Zm9", "Zg==", "Zm9v\n", "Z"] {
            assert_eq!(decode(text), None, "{text}");
        }
    }
}
