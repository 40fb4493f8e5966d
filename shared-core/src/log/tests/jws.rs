//! Published vectors, and everything that must not open.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;
use ed25519_dalek::{Signature, Signer as _, SigningKey};
use expect_test::{Expect, expect};
use proptest::prelude::*;

use crate::entry::{Fact, Told};
use crate::log::jws::{self, JWS_BYTES_MAX};
use crate::log::testing::{Writer, any_entry, key, said};
use crate::log::wire::{self, NOTE_CHARS_MAX};

fn bytes<const N: usize>(hex: &str) -> [u8; N] {
    let digits: Vec<u8> =
        hex.chars().filter_map(|digit| digit.to_digit(16)).filter_map(|d| d.try_into().ok()).collect();
    let bytes: Vec<u8> = digits.chunks(2).map(|pair| pair[0] * 16 + pair[1]).collect();
    bytes.try_into().expect("a vector of the stated length")
}

/// RFC 8032 section 7.1, TEST 1 to 3: secret key, public key, message, signature.
#[test]
fn signatures_are_those_of_rfc_8032() {
    let vectors: [(&str, &str, &[u8], &str); 3] = [
        (
            "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            &[],
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155\
             5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            &[0x72],
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da\
             085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
        (
            "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
            "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
            &[0xaf, 0x82],
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac\
             18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
        ),
    ];
    for (secret, public, message, signature) in vectors {
        let key = SigningKey::from_bytes(&bytes(secret));
        assert_eq!(key.verifying_key().to_bytes(), bytes(public));
        assert_eq!(key.sign(message).to_bytes(), bytes(signature));
        let device = jws::device_of_bytes(&bytes(public));
        assert_eq!(jws::verify(&device, message, &Signature::from_bytes(&bytes(signature))), Ok(()));
        assert!(jws::verify(&device, b"else", &Signature::from_bytes(&bytes(signature))).is_err());
    }
}

/// RFC 8037 Appendix A.1 (key), A.2 (public key) and A.4 (JWS). Its payload is no JSON, so it must not open here.
#[test]
fn the_jws_is_that_of_rfc_8037() {
    let secret = BASE64URL.decode("nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A").expect("A.1");
    let key = SigningKey::from_bytes(&secret.try_into().expect("32 bytes"));
    assert_eq!(jws::device_of(&key.verifying_key()).as_str(), "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo");
    let input = ["eyJhbGciOiJFZERTQSJ9", "RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc"].join(".");
    let line = jws::assemble(&input, key.sign(input.as_bytes()).to_bytes());
    let signature = "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg";
    assert_eq!(line, format!("{input}.{signature}"));
    assert!(matches!(jws::open(&line), Err(jws::JwsFault::Link(_))));
    let ours = Writer::new(1).write(&said("m1", 0, Fact::Left)).jws;
    assert!(ours.starts_with("eyJhbGciOiJFZERTQSJ9."), "the header is A.4's");
}

/// RFC 7515 Appendix C.
#[test]
fn base64url_is_that_of_rfc_7515() {
    assert_eq!(BASE64URL.encode([3, 236, 255, 224, 193]), "A-z_4ME");
    assert_eq!(BASE64URL.decode("A-z_4ME").ok(), Some(vec![3, 236, 255, 224, 193]));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn what_is_signed_opens_to_the_same(entry in any_entry(), device: u8) {
        let signed = Writer::new(device).write(&entry);
        prop_assert_eq!(jws::open(&signed.jws), Ok(signed));
    }

    #[test]
    fn signing_in_two_halves_is_signing(entry in any_entry()) {
        let writer = Writer::new(1);
        let input = jws::signing_input(&entry, &writer.link());
        let line = jws::assemble(&input, writer.key.sign(input.as_bytes()).to_bytes());
        prop_assert_eq!(line, jws::sign(&entry, &writer.link(), &writer.key).jws);
    }

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,80}|eyJhbGciOiJFZERTQSJ9\\.[A-Za-z0-9_.-]{0,200}") {
        prop_assert!(jws::open(&text).is_err());
    }
}

/// Every byte of a line, changed in three ways.
#[test]
fn any_flipped_byte_is_found() {
    let line = Writer::new(1).write(&said("m1", 0, Fact::Left)).jws;
    for place in 0..line.len() {
        for mask in [1, 2, 0x20] {
            let mut flipped = line.clone().into_bytes();
            flipped[place] ^= mask;
            let Ok(flipped) = String::from_utf8(flipped) else { continue };
            assert!(jws::open(&flipped).is_err(), "byte {place} with mask {mask}");
        }
    }
}

const BODY: &str = r#""at":"2026-05-04T09:07:42Z","session":"s","who":"p","what":"left""#;

fn sealed(header: &str, payload: &str, key: &SigningKey) -> String {
    let input = format!("{}.{}", BASE64URL.encode(header), BASE64URL.encode(payload));
    jws::assemble(&input, key.sign(input.as_bytes()).to_bytes())
}

/// Signed by the right key and yet refused.
#[test]
fn only_our_own_form_opens() {
    let key = key(1);
    let dev = jws::device_of(&key.verifying_key());
    let link = format!(r#""dev":"{dev}","seq":1,"prev":"","book":"b""#);
    let good = sealed(r#"{"alg":"EdDSA"}"#, &format!("{{{BODY},{link}}}"), &key);
    assert!(jws::open(&good).is_ok());
    let check = |line: &str, wanted: Expect| wanted.assert_eq(&jws::open(line).expect_err(line).to_string());
    let header = |header: &str| sealed(header, &format!("{{{BODY},{link}}}"), &key);
    let payload = |payload: &str| sealed(r#"{"alg":"EdDSA"}"#, payload, &key);

    let not_ours = expect![[r#"the header is not exactly {"alg":"EdDSA"}"#]];
    for other in [r#"{"alg":"ES256"}"#, r#"{"alg":"none"}"#, r#"{"alg":"EdDSA","crit":["exp"]}"#, r#"{"alg": "EdDSA"}"#]
    {
        not_ours.assert_eq(&jws::open(&header(other)).expect_err(other).to_string());
    }
    // RFC 7515 Appendix A.5, an unsecured JWS.
    let unsecured = "eyJhbGciOiJub25lIn0.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9p\
                     c19yb290Ijp0cnVlfQ.";
    not_ours.assert_eq(&jws::open(unsecured).expect_err("alg none").to_string());

    let three = expect!["not a JWS compact: three parts with two dots between are needed"];
    for line in [format!("{good}.x"), good.replace('.', ""), String::new(), ".".to_owned(), "...".to_owned()] {
        three.assert_eq(&jws::open(&line).expect_err(&line).to_string());
    }
    check(&format!("{good}=="), expect!["the signature is not canonical base64url without padding"]);
    // The last character carries four bits that mean nothing: another spelling of the same 64 bytes.
    assert!(good.ends_with(['A', 'Q', 'g', 'w']), "64 bytes end in two bits and four that are zero");
    let (but_last, last) = good.split_at(good.len() - 1);
    let next = char::from(last.as_bytes()[0] + 1);
    check(&format!("{but_last}{next}"), expect!["the signature is not canonical base64url without padding"]);

    check(
        &payload(&format!("{{{BODY},{BODY},{link}}}")),
        expect!["not a JSON object: a key stands in it twice at line 1 column 71"],
    );
    check(&payload(&format!("{{{BODY}}}")), expect!["`seq` is missing"]);
    check(
        &payload(&format!("{{{BODY},{}}}", link.replace(":1,", ":0,"))),
        expect!["`seq` should be a whole number from 1"],
    );
    check(
        &payload(&format!("{{{BODY},{}}}", link.replace(":1,", ":2,"))),
        expect!["`prev` should be empty for the first entry, and a SHA-256 in base64url for all others"],
    );
    check(
        &payload(&format!("{{{BODY},{}}}", link.replace(":1,", ":9007199254740992,"))),
        expect!["`seq` should be a whole number below 2^53"],
    );
    check(
        &payload(&format!("{{{BODY},{}}}", link.replace(dev.as_str(), "me"))),
        expect!["`dev` is not an Ed25519 public key"],
    );
    check(&payload(&format!("{{{link}}}")), expect!["`at` is missing"]);
    check(&"x".repeat(JWS_BYTES_MAX + 1), expect!["the line is 11717 bytes long, at most 11716 are taken"]);
}

/// Under a public key of small order one signature fits every message; RFC 8032 section 5.1.7 lets a verifier accept it.
#[test]
fn a_key_that_signs_everything_is_refused() {
    let mut identity = [0; 32];
    identity[0] = 1;
    let mut signature = [0; 64];
    signature[0] = 1;
    let (device, signature) = (jws::device_of_bytes(&identity), Signature::from_bytes(&signature));
    let lax = ed25519_dalek::VerifyingKey::from_bytes(&identity).expect("it is a point");
    assert!(ed25519_dalek::Verifier::verify(&lax, b"anything", &signature).is_ok(), "the trap is real");
    assert_eq!(jws::verify(&device, b"anything", &signature), Err(jws::JwsFault::Signature));
}

/// The longest note, in characters of four bytes: whatever passes the check can be signed and opened.
#[test]
fn what_passes_the_check_can_be_signed() {
    let mut writer = Writer::new(1);
    writer.head.seq = jws::SEQ_MAX - 1;
    writer.head.hash = "h".repeat(43);
    for (note, whole) in [("\u{1f9f9}", true), ("\u{0}", false)] {
        let entry = said("m1", 0, Fact::Incident { note: note.repeat(NOTE_CHARS_MAX), told: Told::default() });
        assert_eq!(wire::check(&entry).is_ok(), whole, "{note:?}");
        assert_eq!(jws::open(&jws::sign(&entry, &writer.link(), &writer.key).jws).is_ok(), whole, "{note:?}");
    }
}

/// The hub tells a phone which line is damaged, if the line still says so.
#[test]
fn a_damaged_line_may_still_claim_its_number() {
    let mut writer = Writer::new(1);
    writer.write(&said("m1", 0, Fact::WatchRound));
    let line = writer.write(&said("m1", 1, Fact::Left)).jws;
    let (but_signature, _) = line.rsplit_once('.').expect("two dots");
    assert_eq!(jws::claimed_seq(but_signature), Some(2));
    assert_eq!(jws::claimed_seq("rubbish"), None);
}
