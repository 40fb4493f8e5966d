//! base45 (RFC 9285): bytes in the 45 characters that a QR code packs at 5.5 bits each.
//!
//! Two bytes make three characters, a last odd byte makes two; least significant character first. A text that no
//! encoder writes (a value past 65,535 or 255, a character outside the set, one character left over) is refused, so
//! that each byte string has one text.

/// The alphabet of RFC 9285 section 4.2.
const ALPHABET: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// Appends the text of some bytes.
pub fn encode_onto(text: &mut String, bytes: &[u8]) {
    for pair in bytes.chunks(2) {
        let mut value = pair.iter().fold(0, |value, byte| value * 256 + usize::from(*byte));
        for _ in 0..=pair.len() {
            text.push(char::from(ALPHABET[value % 45]));
            value /= 45;
        }
    }
}

/// The bytes of a text, or nothing when it is not base45.
pub fn decode(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len() / 3 * 2 + 1);
    for group in text.as_bytes().chunks(3) {
        let mut value: u32 = 0;
        for character in group.iter().rev() {
            let digit = ALPHABET.iter().position(|known| known == character)?;
            value = value * 45 + u32::try_from(digit).ok()?;
        }
        match group.len() {
            3 => bytes.extend(u16::try_from(value).ok()?.to_be_bytes()),
            2 => bytes.push(u8::try_from(value).ok()?),
            _ => return None,
        }
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn encode(bytes: &[u8]) -> String {
        let mut text = String::new();
        encode_onto(&mut text, bytes);
        text
    }

    /// RFC 9285 sections 4.3 (examples 1 to 3) and 4.4 (example 1).
    #[test]
    fn writes_and_reads_the_examples_of_rfc_9285() {
        for (bytes, text) in
            [("AB", "BB8"), ("Hello!!", "%69 VD92EX0"), ("base-45", "UJCLQE7W581"), ("ietf!", "QED8WEX0")]
        {
            assert_eq!(encode(bytes.as_bytes()), text);
            assert_eq!(decode(text).as_deref(), Some(bytes.as_bytes()), "{text}");
        }
    }

    /// RFC 9285 section 6: "GGW" is 65,536 and must be refused, "FGW" is 65,535.
    #[test]
    fn refuses_what_no_encoder_writes() {
        assert_eq!(decode("FGW"), Some(vec![0xff, 0xff]));
        assert_eq!(decode("U5"), Some(vec![0xff]));
        for bad in ["GGW", "V5", "A", "ABCD", "a00", ":::", "AB\u{e9}", "É"] {
            assert_eq!(decode(bad), None, "{bad}");
        }
    }

    proptest! {
        #[test]
        fn each_byte_string_has_one_text(bytes: Vec<u8>) {
            prop_assert_eq!(decode(&encode(&bytes)), Some(bytes));
        }

        #[test]
        fn each_text_that_reads_is_the_one_that_is_written(text in "[0-9A-Z $%*+./:-]{0,12}") {
            if let Some(bytes) = decode(&text) {
                prop_assert_eq!(encode(&bytes), text);
            }
        }
    }
}
